#include "core/intake/assign_by_plan.h"

#include <numeric>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/film_order.h"
#include "core/intake/planned_cells.h"
#include "core/plan/schedule.h"

namespace core::intake {
namespace {

/// How the shots that were found lie against the order of the plan.
struct PlanAlignment {
    std::size_t planned{};
    std::size_t found{};
    /// Clips that end amid a visit while the camera was probably stopped between visits, and a
    /// number of shots that is not the planned one: a sentence each. Empty when all fits.
    std::vector<std::string> differences;
};

/// A clip that ends amid a visit is said once: what follows may be shifted because of it.
void compareClipEnds(const project::Snapshot& snapshot, const plan::Plan& plan,
                     const plan::Schedule& schedule, const std::vector<project::ClipId>& clips,
                     PlanAlignment& alignment) {
    const auto planned = plan::plannedShots(schedule);
    std::size_t done = 0;
    for (const auto clip : clips) {
        const std::size_t inClip = shotsInFilmOrder(snapshot, {clip}).size();
        done += inClip;
        const bool isAmid =
            inClip > 0 && done < planned.size() && planned[done - 1].visit == planned[done].visit;
        if (isAmid && alignment.differences.empty()) {
            const auto& visit = schedule.visits[planned[done].visit];
            const auto begun = done - (static_cast<std::size_t>(visit.firstShot) - std::size_t{1});
            alignment.differences.push_back(
                said("Clip {} has {} and ends after {} of the planned {} of {}, hitter {}. Check "
                     "whether a shot was missed or one too many was found in it or before it.",
                     project::clipName(snapshot, clip), counted(inClip, "shot", "shots"), begun,
                     counted(visit.shots, "shot", "shots"),
                     plan::implementLabel(plan, visit.implement), plan.hitters[visit.hitter]));
        }
    }
}

struct PlannedSession {
    plan::Schedule schedule;
    std::vector<project::ClipId> clips;
    PlanAlignment alignment;
};

Result<PlannedSession> plannedSession(project::Store& store, project::SessionId session) {
    PlannedSession result;
    BOOST_OUTCOME_TRY(schedule, plan::scheduleOf(planOf(*store.snapshot())));
    BOOST_OUTCOME_TRY(clips, filmOrder(store, session));
    const auto snapshot = store.snapshot();
    PlanAlignment& alignment = result.alignment;
    alignment.planned = static_cast<std::size_t>(schedule.shots);
    alignment.found = shotsInFilmOrder(*snapshot, clips).size();
    compareClipEnds(*snapshot, planOf(*snapshot), schedule, clips, alignment);
    if (alignment.found != alignment.planned) {
        alignment.differences.push_back(
            said("The clips of the filming day have {}; the plan has {}.",
                 counted(alignment.found, "shot", "shots"), alignment.planned));
    }
    result.schedule = std::move(schedule);
    result.clips = std::move(clips);
    return result;
}

}  // namespace

Result<AssignmentReport> assignByPlanOrder(project::Store& store, project::SessionId session,
                                           WhenCountsDiffer whenCountsDiffer) {
    BOOST_OUTCOME_TRY(day, plannedSession(store, session));
    const auto& differences = day.alignment.differences;
    if (!differences.empty() && whenCountsDiffer == WhenCountsDiffer::Refuse) {
        return fail(
            ErrorCode::Contradiction,
            said("Nothing was assigned, because shots and plan do not fit together.") + ' ' +
                std::accumulate(
                    std::next(differences.begin()), differences.end(), differences.front(),
                    [](const std::string& a, const std::string& b) { return a + " " + b; }));
    }
    const auto snapshot = store.snapshot();
    const plan::Plan& plan = planOf(*snapshot);
    const auto found = shotsInFilmOrder(*snapshot, day.clips);
    const auto planned = plan::plannedShots(day.schedule);
    AssignmentReport report;
    report.remarks = differences;
    std::vector<std::pair<project::ShotId, plan::SlateCard>> open;
    for (std::size_t i = 0; i < found.size(); ++i) {
        if (i >= planned.size()) {
            ++(found[i]->cell ? report.leftElsewhere : report.leftOpen);
            continue;
        }
        const auto& implement = plan.implements[planned[i].implement];
        const plan::SlateCard names{plan.session, implement.name, implement.condition,
                                    plan.hitters[planned[i].hitter]};
        if (!found[i]->cell) {
            open.emplace_back(found[i]->id, names);
        } else {
            ++(knownCell(*snapshot, session, names) == found[i]->cell ? report.alreadyRight
                                                                      : report.leftElsewhere);
        }
    }
    BOOST_OUTCOME_TRY(store.together(
        toKeep("Assigned {} by the order of the plan.", countToKeep(open.size(), "shot", "shots")),
        [&]() -> Result<void> {
            for (const auto& [shot, names] : open) {
                BOOST_OUTCOME_TRY(cell, cellNamed(store, session, names));
                BOOST_OUTCOME_TRY(store.assignShots(std::array{shot}, cell));
            }
            return ok();
        }));
    report.assigned = open.size();
    return report;
}

}  // namespace core::intake
