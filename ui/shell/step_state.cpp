#include "ui/shell/step_state.h"

#include <algorithm>
#include <map>

#include "core/base/words.h"
#include "core/publish/last_published.h"
#include "ui/shell/tr.h"

namespace ui::shell {
namespace {

using core::project::ShotStanding;
using core::project::Snapshot;
using Need = StepState::Need;

QString counted(std::size_t number, std::string_view one, std::string_view more) {
    return QString::fromStdString(core::counted(number, one, more));
}

constexpr std::size_t kShotsOfAnInterval = 2;  // of a cell

double shareOf(std::size_t done, std::size_t all) {
    return all == 0 ? 0.0 : static_cast<double>(done) / static_cast<double>(all);
}

}  // namespace

StepState planState(const Snapshot& snapshot) {
    const auto& plan = planOf(snapshot);
    const auto swings =
        plan.implements.size() * plan.hitters.size() * static_cast<std::size_t>(plan.shotsPerCell);
    const bool isFilmed = std::any_of(snapshot.shots.begin(), snapshot.shots.end(),
                                      [](const auto& shot) { return shot.cell.has_value(); });
    if (swings == 0) {
        return {isFilmed ? 1.0 : 0.0, Need::Nothing,
                isFilmed ? tr("filmed unplanned") : tr("nothing yet")};
    }
    constexpr double kPlannedShare = 0.75;  // the rest when the first shots are assigned
    return {isFilmed ? 1.0 : kPlannedShare, Need::Nothing, counted(swings, "swing", "swings")};
}

StepState footageState(const Snapshot& snapshot) {
    std::map<core::project::ClipId, bool> isLoose;  // has a shot that nobody assigned
    for (const auto& shot : snapshot.shots) {
        isLoose[shot.clip] |= !shot.cell;
    }
    std::size_t unsure = 0;
    std::size_t loose = 0;
    for (const auto& clip : snapshot.clips) {
        const auto at = isLoose.find(clip.id);
        if (!clip.clock && !isTally(clip)) {
            ++unsure;
        } else if (at != isLoose.end() && at->second) {
            ++loose;
        }
    }
    const auto all = snapshot.clips.size();
    const double share = shareOf(all - unsure - loose, all);
    if (unsure > 0) {
        return {share, Need::Question, tr("%1 of %2 unsure").arg(unsure).arg(all)};
    }
    if (loose > 0) {
        return {share, Need::Nothing, tr("%1 not assigned").arg(loose)};
    }
    return {share, Need::Nothing, all == 0 ? tr("no clips") : counted(all, "clip", "clips")};
}

StepState readingState(const Snapshot& snapshot) {
    const auto all = snapshot.shots.size();
    const auto decided = static_cast<std::size_t>(
        std::count_if(snapshot.shots.begin(), snapshot.shots.end(),
                      [](const auto& shot) { return shot.standing != ShotStanding::Open; }));
    return {shareOf(decided, all), Need::Nothing,
            all == 0 ? tr("no shots") : tr("%1 of %2 read").arg(decided).arg(all)};
}

StepState doubtsState(const core::doubts::Doubts* doubts) {
    if (doubts == nullptr || doubts->keptShots == 0) {
        return {0.0, Need::Nothing, QStringLiteral("–")};
    }
    const auto all = doubts->items.size();
    const auto open = doubts->unsettled();
    if (open == 0) {
        return {1.0, Need::Nothing, tr("all settled")};
    }
    const auto grave =
        std::count_if(doubts->items.begin(), doubts->items.end(), [](const auto& item) {
            return !item.isSettled && item.doubts.front().grade == core::doubts::Grade::Grave;
        });
    return {
        shareOf(all - open, all), grave > 0 ? Need::Grave : Need::Question,
        grave > 0 ? tr("%1 open · %2 grave").arg(open).arg(grave) : tr("%1 to check").arg(open)};
}

StepState findingsState(const Snapshot& snapshot, const core::findings::Findings* findings) {
    std::map<core::project::CellId, std::size_t> kept;
    for (const auto& shot : snapshot.shots) {
        if (shot.cell && shot.standing == ShotStanding::Kept) {
            ++kept[*shot.cell];
        }
    }
    const auto ready =
        static_cast<std::size_t>(std::count_if(kept.begin(), kept.end(), [](const auto& cell) {
            return cell.second >= kShotsOfAnInterval;
        }));
    const double share = shareOf(ready, snapshot.cells.size());
    if (findings == nullptr) {
        return {share, Need::Nothing,
                kept.empty() ? QStringLiteral("–") : counted(kept.size(), "cell", "cells")};
    }
    const auto ranked = findings->together().ranked.size();
    return {share, Need::Nothing, ranked == 0 ? QStringLiteral("–") : tr("%1 ranked").arg(ranked)};
}

StepState publishState(const Snapshot& snapshot, const core::findings::Findings* findings) {
    const auto last = core::publish::lastPublished(snapshot);
    if (!last) {
        return {0.0, Need::Nothing, tr("not yet")};
    }
    if (findings != nullptr && findings->fingerprint != last->fingerprint) {
        return {0.5, Need::Question, tr("changed since")};
    }
    return {1.0, Need::Nothing, tr("published")};
}

}  // namespace ui::shell
