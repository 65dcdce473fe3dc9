#include "core/findings/method.h"

#include <algorithm>

#include "core/project/clock_refutation.h"
#include "core/project/reading_effort.h"

namespace core::findings {
namespace {

void addReadings(const project::Snapshot& snapshot, MethodFacts& facts) {
    for (const auto& shot : snapshot.shots) {
        facts.setAside += shot.standing == project::ShotStanding::SetAside ? 1U : 0U;
        const auto* reading =
            project::isCounted(snapshot, shot) ? snapshot.readings.find(*shot.counting) : nullptr;
        if (reading == nullptr) {
            continue;
        }
        ++(reading->habit                                     ? facts.counts[*reading->habit]
           : reading->method == project::ReadingMethod::Marks ? facts.marks
                                                              : facts.fits);
        facts.hasView = facts.hasView || reading->viewRelativeSigma;
        facts.readers.insert(reading->reader);
        facts.versions.insert(reading->methodVersion);
        facts.leastClock = std::min(facts.leastClock, reading->clockRelativeSigma);
        facts.mostClock = std::max(facts.mostClock, reading->clockRelativeSigma);
    }
}

double medianOf(std::vector<double>& values) {
    const auto upper = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), upper, values.end());
    return values.size() % 2 == 1 ? *upper
                                  : 0.5 * (*upper + *std::max_element(values.begin(), upper));
}

std::optional<MethodFacts::Effort> effortOf(const project::Snapshot& snapshot) {
    MethodFacts::Effort sum;
    std::vector<double> seconds;
    std::vector<double> presses;
    for (const auto& [id, effort] : project::effortByShot(snapshot)) {
        const auto* shot = snapshot.shots.find(id);
        if (!effort.namesHidden || shot == nullptr ||
            shot->standing != project::ShotStanding::Kept) {
            continue;
        }
        ++sum.shots;
        sum.seconds += effort.activeSeconds;
        sum.hidden += *effort.namesHidden ? 1U : 0U;
        seconds.push_back(effort.activeSeconds);
        presses.push_back(static_cast<double>(effort.keys + effort.clicks));
    }
    if (seconds.empty()) {
        return std::nullopt;
    }
    sum.medianSeconds = medianOf(seconds);
    sum.medianPresses = medianOf(presses);
    return sum;
}

/// Clocks that a person keeps although the flight speaks against them.
std::vector<MethodFacts::OverruledFlight> overruledOf(const project::Snapshot& snapshot) {
    std::vector<MethodFacts::OverruledFlight> overruled;
    for (const auto& clip : snapshot.clips) {
        const auto refutation = project::refutationOf(snapshot, clip);
        if (refutation && !refutation->overruled.empty()) {
            overruled.push_back(
                {clipName(snapshot, clip.id), refutation->statement, refutation->overruled});
        }
    }
    return overruled;
}

}  // namespace

std::size_t MethodFacts::kept() const {
    std::size_t kept = marks + fits;
    for (const auto& [habit, count] : counts) {
        kept += count;
    }
    return kept;
}

MethodFacts methodOf(const project::Snapshot& snapshot) {
    MethodFacts facts;
    addReadings(snapshot, facts);
    facts.effort = effortOf(snapshot);
    facts.plan = project::planOf(snapshot);
    facts.overruled = overruledOf(snapshot);
    return facts;
}

}  // namespace core::findings
