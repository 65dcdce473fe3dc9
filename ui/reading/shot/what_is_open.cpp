#include "ui/reading/shot/what_is_open.h"

#include <QStringList>
#include <algorithm>

#include "core/base/words.h"
#include "ui/reading/tr.h"

namespace ui::reading {

bool isAnyToRead(const core::project::Snapshot& snapshot) {
    return std::any_of(snapshot.shots.begin(), snapshot.shots.end(), [](const auto& shot) {
        return shot.standing == core::project::ShotStanding::Open;
    });
}

QString whatIsOpen(const core::project::Snapshot& snapshot) {
    using core::project::ShotStanding;
    std::size_t toRead = 0;
    std::size_t doubtful = 0;
    std::size_t loose = 0;
    for (const auto& shot : snapshot.shots) {
        toRead += shot.standing == ShotStanding::Open ? 1U : 0U;
        doubtful += shot.doubtful && shot.standing != ShotStanding::SetAside ? 1U : 0U;
        loose += !shot.cell && shot.standing != ShotStanding::SetAside ? 1U : 0U;
    }
    std::size_t rates = 0;
    for (const auto& clip : snapshot.clips) {
        rates += !clip.clock && !isTally(clip) ? 1U : 0U;
    }
    QStringList open;
    const auto add = [&open](std::size_t count, const std::string& things, const QString& words) {
        if (count > 0) {
            open << words.arg(QString::fromStdString(things));
        }
    };
    const auto shots = [](std::size_t count) { return core::counted(count, "shot", "shots"); };
    add(toRead, shots(toRead), tr("%1 to read"));
    add(doubtful, shots(doubtful), tr("%1 marked as doubtful"));
    add(loose, shots(loose), tr("%1 not assigned"));
    add(rates, core::counted(rates, "clip", "clips"), tr("%1 without a capture rate"));
    return open.isEmpty()
               ? tr("That was the last shot. Every shot is decided: go on in Doubts or Findings.")
               : tr("That was the last shot of the list. Still open: %1.")
                     .arg(open.join(QStringLiteral(", ")));
}

}  // namespace ui::reading
