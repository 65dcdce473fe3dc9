#include "ui/reading/shot/shot_batch.h"

#include <QMenu>
#include <algorithm>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/agreed_readings.h"
#include "core/intake/assign_shots.h"
#include "core/intake/clip_places.h"
#include "core/intake/day_setup.h"
#include "ui/style/ask.h"

namespace ui::reading {
namespace {

using core::project::ShotId;
using core::project::ShotStanding;

std::string countedShots(std::size_t count) {
    return core::counted(count, "shot", "shots");
}

QString shotsText(std::size_t count) {
    return QString::fromStdString(countedShots(count));
}

/// A line for each reason with how many it keeps out, in the order in which they come.
QString leftOutText(const core::intake::AgreedReadings& agreed) {
    QStringList reasons;
    QHash<QString, int> counts;
    for (const auto& each : agreed.leftOut) {
        const QString why = QString::fromStdString(each.why);
        if (++counts[why] == 1) {
            reasons << why;
        }
    }
    QStringList lines;
    for (const QString& why : reasons) {
        lines << QStringLiteral("%1: %2").arg(
            shotsText(static_cast<std::size_t>(counts.value(why))), why);
    }
    return lines.join(QLatin1Char('\n'));
}

}  // namespace

ShotBatch::ShotBatch(core::project::Store& store, QWidget* window)
    : QObject{window}, m_store{store}, m_window{window} {}

void ShotBatch::fill(QMenu& menu, const Shots& shots, bool areNamesHidden) {
    const bool canWrite = m_store.readOnlyReason().empty() && !shots.empty();
    const auto add = [&](const QString& text, auto act) {
        menu.addAction(text, this, act)->setEnabled(canWrite);
    };
    add(tr("Keep where both readings agree…"), [this, shots] { keepAgreed(shots); });
    if (!areNamesHidden && canWrite) {
        addCells(*menu.addMenu(tr("Assign to")), shots);
    }
    if (canWrite) {
        addStrokes(*menu.addMenu(tr("Stroke")), shots);
    }
    add(tr("Set aside…"), [this, shots] { setAside(shots); });
    add(tr("Read again"), [this, shots] { readAgain(shots); });
}

/// Every implement with every hitter of the project.
void ShotBatch::addCells(QMenu& menu, const Shots& shots) {
    const auto snapshot = m_store.snapshot();
    const auto escaped = [](const std::string& name) {
        return QString::fromStdString(name).replace(QLatin1Char('&'), QStringLiteral("&&"));
    };
    for (const auto& implement : snapshot->implements) {
        auto* hitters = menu.addMenu(escaped(implementName(*snapshot, implement.id)));
        for (const auto& hitter : snapshot->hitters) {
            hitters->addAction(
                escaped(hitter.name), this,
                [this, shots, of = implement.name, by = hitter.name] { assign(shots, of, by); });
        }
    }
    menu.setEnabled(!snapshot->implements.isEmpty() && !snapshot->hitters.isEmpty());
}

void ShotBatch::addStrokes(QMenu& menu, const Shots& shots) {
    using core::project::Stroke;
    const auto add = [&](const QString& text, std::optional<Stroke> stroke) {
        menu.addAction(text, this, [this, shots, stroke] { setStroke(shots, stroke); });
    };
    add(tr("As on the day"), std::nullopt);
    add(tr("Topspin"), Stroke::Topspin);
    add(tr("Backspin"), Stroke::Backspin);
    add(tr("Not known"), Stroke::NotKnown);
}

void ShotBatch::setStroke(const Shots& shots, std::optional<core::project::Stroke> stroke) {
    const auto resting = core::intake::setStroke(m_store, shots, stroke);
    say(resting ? core::ok() : core::Result<void>{resting.error()});
    if (resting && !resting.value().empty()) {
        Q_EMIT readAgainWanted(resting.value());
    }
}

void ShotBatch::keepAgreed(const Shots& shots) {
    const auto snapshot = m_store.snapshot();
    for (const auto id : shots) {
        const auto* shot = snapshot->shots.find(id);
        const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
        if (clip != nullptr && core::intake::needsDiameter(*snapshot, clip->session)) {
            say(core::fail(core::ErrorCode::InvalidInput,
                           tr("Nobody has said how large the ball of the filming day is, so "
                              "nothing checks the capture rate. Press Set up the day in Footage.")
                               .toStdString()));
            return;
        }
    }
    const auto agreed = core::intake::agreedReadings(m_store, shots);
    if (!agreed) {
        say(agreed.error());
        return;
    }
    const auto count = agreed.value().readings.size();
    const QString leftOut = leftOutText(agreed.value());
    style::askWhether(
        *m_window,
        {tr("Keep where both readings agree"),
         count == 0 ? tr("No shot can be kept so.")
                    : tr("%1 can be kept: marks and pictures agree.").arg(shotsText(count)),
         leftOut.isEmpty() ? QString{} : tr("Left out:\n%1").arg(leftOut),
         count == 0 ? QString{} : tr("Keep %1").arg(shotsText(count))},
        [this, readings = agreed.value().readings] {
            const auto kept = m_store.keepReadings(readings);
            say(kept ? core::ok() : core::Result<void>{kept.error()});
        });
}

void ShotBatch::assign(const Shots& shots, const std::string& implement,
                       const std::string& hitter) {
    say(core::intake::assignShots(m_store, shots, {implement, hitter}));
}

core::Result<void> ShotBatch::together(const std::string& what, const Shots& shots,
                                       const std::function<core::Result<void>(ShotId)>& edit) {
    return m_store.together(what, [&]() -> core::Result<void> {
        for (const ShotId shot : shots) {
            BOOST_OUTCOME_TRY(edit(shot));
        }
        return core::ok();
    });
}

void ShotBatch::setAside(const Shots& shots) {
    style::askForText(
        *m_window,
        {tr("Set aside"),
         tr("Why are %1 set aside? For example: mishit").arg(shotsText(shots.size()))},
        [this, shots](const QString& text) {
            const std::string reason = text.toStdString();
            say(together(core::toKeep("Set aside {}: {:s}.",
                                      core::countToKeep(shots.size(), "shot", "shots"), reason),
                         shots, [&](ShotId shot) { return m_store.setAside(shot, reason); }));
        });
}

void ShotBatch::readAgain(const Shots& shots) {
    Shots decided;
    const auto snapshot = m_store.snapshot();
    std::copy_if(shots.begin(), shots.end(), std::back_inserter(decided), [&](ShotId id) {
        const auto* shot = snapshot->shots.find(id);
        return shot != nullptr && shot->standing != ShotStanding::Open;
    });
    if (!decided.empty()) {
        say(together(core::toKeep("Reopened {} to read again.",
                                  core::countToKeep(decided.size(), "shot", "shots")),
                     decided, [&](ShotId shot) { return m_store.reopen(shot); }));
    }
}

void ShotBatch::say(const core::Result<void>& result) {
    if (!result) {
        style::tell(*m_window, tr("Not done"), QString::fromStdString(result.error().message));
    }
}

}  // namespace ui::reading
