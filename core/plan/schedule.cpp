#include "core/plan/schedule.h"

#include <algorithm>
#include <numeric>

#include "core/base/words.h"
#include "core/plan/designs.h"

namespace core::plan {
namespace {

std::vector<int> portionsOf(int shots, int portion) {
    std::vector<int> portions;
    for (int left = shots; left > 0; left -= portion) {
        portions.push_back(std::min(left, portion));
    }
    return portions;
}

Visit shotsOf(std::size_t hitter, std::size_t implement, int shots, bool isControl = false) {
    return {Visit::Kind::Shots, hitter, implement, shots, isControl, 0};
}

std::vector<Visit> randomVisits(const Plan& plan, RandomOrder& random) {
    const auto portions = portionsOf(plan.shotsPerCell, plan.shotsPerVisit);
    std::vector<std::vector<Visit>> ofHitters;
    for (std::size_t hitter = 0; hitter < plan.hitters.size(); ++hitter) {
        std::vector<Visit> visits;
        for (std::size_t implement = 0; implement < plan.implements.size(); ++implement) {
            for (const int shots : portions) {
                visits.push_back(shotsOf(hitter, implement, shots));
            }
        }
        random.shuffle(visits);
        ofHitters.push_back(std::move(visits));
    }
    std::vector<Visit> all;
    for (std::size_t i = 0; i < ofHitters.front().size(); ++i) {
        for (const auto& visits : ofHitters) {
            all.push_back(visits[i]);
        }
    }
    return all;
}

std::vector<Visit> blockedVisits(const Plan& plan, RandomOrder& random) {
    std::vector<std::size_t> implements(plan.implements.size());
    std::iota(implements.begin(), implements.end(), std::size_t{0});
    random.shuffle(implements);
    std::vector<Visit> visits;
    for (const std::size_t implement : implements) {
        for (std::size_t hitter = 0; hitter < plan.hitters.size(); ++hitter) {
            visits.push_back(shotsOf(hitter, implement, plan.shotsPerCell));
        }
    }
    return visits;
}

std::vector<Visit> balancedVisits(const Plan& plan, RandomOrder& random, Schedule& schedule) {
    const std::size_t n = plan.implements.size();
    const Design design = plan.order == OrderKind::Williams ? randomWilliamsDesign(n, random)
                                                            : randomLatinSquare(n, random);
    std::vector<Visit> visits;
    std::size_t pass = 0;
    for (const int shots : portionsOf(plan.shotsPerCell, plan.shotsPerVisit)) {
        for (std::size_t hitter = 0; hitter < plan.hitters.size(); ++hitter) {
            for (const std::size_t implement : design[pass % design.size()]) {
                visits.push_back(shotsOf(hitter, implement, shots));
            }
            ++pass;
        }
    }
    schedule.passes = static_cast<int>(pass);
    schedule.designRows = static_cast<int>(design.size());
    return visits;
}

std::vector<Visit> withControl(const Plan& plan, std::vector<Visit> visits) {
    if (!plan.control) {
        return visits;
    }
    std::vector<Visit> repeats;
    for (std::size_t hitter = 0; hitter < plan.hitters.size(); ++hitter) {
        repeats.push_back(shotsOf(hitter, *plan.control, plan.controlShots, true));
    }
    const auto middle = static_cast<std::ptrdiff_t>(visits.size() / 2);
    visits.insert(visits.begin() + middle, repeats.begin(), repeats.end());
    visits.insert(visits.begin(), repeats.begin(), repeats.end());
    visits.insert(visits.end(), repeats.begin(), repeats.end());
    return visits;
}

/// Puts in the rests, splits visits that are too long, and numbers the shots.
void fill(const Plan& plan, const std::vector<Visit>& visits, Schedule& schedule) {
    std::vector<int> sinceRest(plan.hitters.size(), 0);
    schedule.swingsPerHitter.assign(plan.hitters.size(), 0);
    for (const Visit& whole : visits) {
        for (const int shots : portionsOf(whole.shots, plan.swingsBetweenRests)) {
            int& since = sinceRest[whole.hitter];
            if (since + shots > plan.swingsBetweenRests) {
                schedule.visits.push_back({Visit::Kind::Rest, whole.hitter, 0, 0, false, 0});
                since = 0;
            }
            since += shots;
            Visit visit = whole;
            visit.shots = shots;
            visit.firstShot = schedule.shots + 1;
            schedule.shots += shots;
            schedule.swingsPerHitter[whole.hitter] += shots;
            schedule.visits.push_back(visit);
        }
    }
}

void addRemarks(const Plan& plan, Schedule& schedule) {
    if (schedule.designRows > 0 && schedule.passes % schedule.designRows != 0) {
        const std::string passes = counted(schedule.passes, "pass", "passes");
        const std::string complete = counted(schedule.designRows, "pass", "passes");
        schedule.remarks.push_back(
            plan.order == OrderKind::Williams
                ? said("The day has {} through the implements. The balance of places and "
                       "neighbours is complete after every {}; what is left over is in random "
                       "order. Fewer shots in a row make more passes.",
                       passes, complete)
                : said("The day has {} through the implements. The balance of places is complete "
                       "after every {}; what is left over is in random order. Fewer shots in a row "
                       "make more passes.",
                       passes, complete));
    }
    if (plan.shotsPerCell % plan.shotsPerVisit != 0 && plan.order != OrderKind::Blocked) {
        schedule.remarks.push_back(said(
            "The last visit to each implement has {} instead of {}.",
            counted(plan.shotsPerCell % plan.shotsPerVisit, "shot", "shots"), plan.shotsPerVisit));
    }
    if (plan.order == OrderKind::Blocked && plan.implements.size() > 1) {
        schedule.remarks.push_back(said(
            "Implement by implement is quick, and fatigue, practice and wear of the ball fall on "
            "whichever comes late: a drift over the day cannot be told from a difference."));
    }
}

}  // namespace

Result<Schedule> scheduleOf(const Plan& plan) {
    BOOST_OUTCOME_TRY(checkPlan(plan));
    if (plan.implements.empty() || plan.hitters.empty()) {
        return fail(
            ErrorCode::InvalidInput,
            plan.implements.empty()
                ? said("The plan has no implement yet. Add one, paste a list or import a table.")
                : said("The plan has no hitter yet. Add the people who will swing."));
    }
    RandomOrder random{plan.seed};
    Schedule schedule;
    std::vector<Visit> visits;
    switch (plan.order) {
        case OrderKind::Random:
            visits = randomVisits(plan, random);
            break;
        case OrderKind::Blocked:
            visits = blockedVisits(plan, random);
            break;
        case OrderKind::LatinSquare:
        case OrderKind::Williams:
            visits = balancedVisits(plan, random, schedule);
            break;
    }
    fill(plan, withControl(plan, std::move(visits)), schedule);
    addRemarks(plan, schedule);
    return schedule;
}

std::vector<PlannedShot> plannedShots(const Schedule& schedule) {
    std::vector<PlannedShot> shots;
    for (std::size_t i = 0; i < schedule.visits.size(); ++i) {
        const Visit& visit = schedule.visits[i];
        shots.insert(shots.end(), static_cast<std::size_t>(visit.shots),
                     {visit.hitter, visit.implement, visit.isControl, i});
    }
    return shots;
}

}  // namespace core::plan
