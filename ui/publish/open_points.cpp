#include "ui/publish/open_points.h"

#include <QStringList>
#include <algorithm>
#include <array>

#include "core/base/words.h"
#include "core/findings/settings.h"
#include "core/report/number_format.h"
#include "core/words/doubts.h"
#include "ui/publish/tr.h"

namespace ui::publish {
namespace {

using core::doubts::Grade;
using core::project::Snapshot;
using Kind = OpenPoint::Kind;
using Way = OpenPoint::Way;

struct Graded {
    std::size_t items{};
    QStringList reasons;  ///< in words, each once, those of the worst first
};

Graded gradedAs(const core::doubts::Doubts& doubts, Grade grade) {
    Graded found;
    for (const auto& item : doubts.items) {
        if (item.isSettled || item.doubts.front().grade != grade) {
            continue;
        }
        ++found.items;
        const auto words = core::words::reasonWords(item.doubts.front().reason);
        const QString text = QString::fromUtf8(words.data(), static_cast<qsizetype>(words.size()));
        if (!found.reasons.contains(text)) {
            found.reasons << text;
        }
    }
    return found;
}

QString countedAs(Grade grade, std::size_t number) {
    switch (grade) {
        case Grade::Grave:
            return counted(number, "grave doubt", "grave doubts");
        case Grade::Question:
            return counted(number, "question", "questions");
        case Grade::Note:
            break;
    }
    return counted(number, "note about a number", "notes about numbers");
}

void addDoubts(std::vector<OpenPoint>& points, const core::doubts::Doubts* doubts) {
    if (doubts == nullptr) {
        points.push_back({Kind::Note, tr("Doubts are being looked for"),
                          tr("they appear here in a moment"), Way::Doubts});
        return;
    }
    constexpr qsizetype kReasons = 2;
    struct Words {
        Grade grade;
        Kind kind;
    };
    constexpr std::array kAll{Words{Grade::Grave, Kind::Grave},
                              Words{Grade::Question, Kind::Question},
                              Words{Grade::Note, Kind::Note}};
    bool isAny = false;
    for (const auto& [grade, kind] : kAll) {
        const Graded found = gradedAs(*doubts, grade);
        if (found.items > 0) {
            points.push_back({kind, countedAs(grade, found.items),
                              found.reasons.mid(0, kReasons).join(QStringLiteral("; ")),
                              Way::Doubts});
            isAny = true;
        }
    }
    if (!isAny && doubts->keptShots > 0) {
        points.push_back({Kind::Done, tr("Nothing doubtful is left to check"),
                          counted(doubts->keptShots, "kept shot", "kept shots"), Way::None});
    }
    if (doubts->withoutPictures > 0) {
        points.push_back(
            {Kind::Note,
             counted(doubts->withoutPictures, "shot not compared", "shots not compared"),
             tr("their pictures were not read: read ahead does that"), Way::Reading});
    }
}

void addShots(std::vector<OpenPoint>& points, const Snapshot& snapshot) {
    std::size_t toRead = 0;
    std::size_t unassigned = 0;
    std::size_t aside = 0;
    for (const auto& shot : snapshot.shots) {
        toRead += shot.standing == core::project::ShotStanding::Open ? 1 : 0;
        aside += shot.standing == core::project::ShotStanding::SetAside ? 1 : 0;
        unassigned += shot.cell ? 0U : 1U;
    }
    if (toRead > 0) {
        points.push_back({Kind::Note,
                          tr("%1 not read").arg(counted(toRead, "shot is", "shots are")),
                          tr("left out of every number"), Way::Reading});
    } else if (!snapshot.shots.isEmpty()) {
        points.push_back({Kind::Done, tr("Every shot is decided"),
                          counted(snapshot.shots.size(), "shot", "shots"), Way::None});
    }
    if (unassigned > 0) {
        points.push_back({Kind::Question,
                          tr("%1 not assigned").arg(counted(unassigned, "shot is", "shots are")),
                          tr("they have no implement and hitter"), Way::Footage});
    }
    if (aside > 0) {
        points.push_back({Kind::Done,
                          aside == 1 ? tr("The shot set aside has a reason")
                                     : tr("Each shot set aside has a reason"),
                          counted(aside, "shot", "shots"), Way::None});
    }
}

void addClips(std::vector<OpenPoint>& points, const Snapshot& snapshot) {
    const auto open = static_cast<std::size_t>(
        std::count_if(snapshot.clips.begin(), snapshot.clips.end(),
                      [](const auto& clip) { return !clip.clock && !isTally(clip); }));
    if (open > 0) {
        points.push_back({Kind::Question,
                          tr("%1 no capture rate").arg(counted(open, "clip has", "clips have")),
                          tr("without it nothing can be read"), Way::Footage});
    } else if (!snapshot.clips.isEmpty()) {
        points.push_back({Kind::Done, tr("Every clip has its capture rate"),
                          counted(snapshot.clips.size(), "clip", "clips"), Way::None});
    }
}

void addStep(std::vector<OpenPoint>& points, const Snapshot& snapshot) {
    const auto step = core::findings::noticeableStep(snapshot);
    if (step && step.value()) {
        points.push_back(
            {Kind::Done,
             tr("Noticeable step: %1 rpm")
                 .arg(QString::fromStdString(core::report::shortest(step.value()->rpm))),
             tr("drawn in the chart"), Way::None});
    } else {
        points.push_back({Kind::Note, tr("No noticeable step is set"),
                          tr("nothing says which difference a player notices"), Way::Findings});
    }
}

}  // namespace

std::vector<OpenPoint> openPoints(const Snapshot& snapshot, const core::doubts::Doubts* doubts) {
    std::vector<OpenPoint> points;
    addDoubts(points, doubts);
    addShots(points, snapshot);
    addClips(points, snapshot);
    addStep(points, snapshot);
    std::stable_sort(points.begin(), points.end(),
                     [](const auto& a, const auto& b) { return a.kind < b.kind; });
    return points;
}

std::size_t countOpen(const std::vector<OpenPoint>& points) {
    return static_cast<std::size_t>(std::count_if(
        points.begin(), points.end(), [](const auto& point) { return point.kind != Kind::Done; }));
}

}  // namespace ui::publish
