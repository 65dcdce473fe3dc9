#include "core/doubts/reading_facts.h"

#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/project/clip_clock.h"
#include "core/reading/inputs_json.h"

namespace core::doubts {
namespace {

using project::ReadingMethod;

constexpr double kHoleIntervals = 1.5;

void addMarksFacts(const project::Reading& reading, const project::ClipFrames& frames,
                   ReadingFacts& facts) {
    const auto inputs = reading::marksInputsFromJson(reading.inputsJson);
    if (!inputs || !inputs.value().marks.start) {
        return;
    }
    const spin::MarkSet& marks = inputs.value().marks;
    facts.clock = inputs.value().clock;
    facts.markingSymmetry = inputs.value().context.symmetryOrder;
    facts.first = facts.last = marks.start->frame;
    for (const auto& mark : marks.returns) {
        facts.last = std::max(facts.last, mark.frameAfter);
    }
    for (const auto& mark : marks.angles) {
        facts.first = std::min(facts.first, mark.frame);
        facts.last = std::max(facts.last, mark.frame);
    }
    const auto clock = project::clipClock(inputs.value().clock, frames);
    if (!clock) {
        return;
    }
    if (const auto said = spin::remarksOnMarks(marks, clock.value(), inputs.value().context)) {
        facts.warnings = said.value().warnings;
        if (!said.value().returns.empty()) {
            facts.turns = said.value().returns.back().turns;
        }
    }
}

void addFitFacts(const project::Reading& reading, ReadingFacts& facts) {
    const auto kept = reading::keptFitFromJson(reading.inputsJson);
    if (!kept) {
        return;
    }
    facts.clock = kept.value().request.clock;
    facts.markingSymmetry = kept.value().request.facts.markingSymmetry;
    facts.uniqueness = kept.value().uniqueness;
    if (const auto& track = kept.value().track; !track.empty()) {
        facts.first = track.front().frame;
        facts.last = track.back().frame;
    }
}

}  // namespace

std::int64_t usualInterval(const timebase::FrameStamps& stamps) {
    if (stamps.ticks.size() < 3) {
        return 0;
    }
    std::vector<std::int64_t> steps(stamps.ticks.size());
    std::adjacent_difference(stamps.ticks.begin(), stamps.ticks.end(), steps.begin());
    steps.erase(steps.begin());
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    std::nth_element(steps.begin(), middle, steps.end());
    return *middle;
}

std::vector<Hole> holesBetween(const timebase::FrameStamps& stamps, std::int64_t usualTicks,
                               timebase::FrameIndex first, timebase::FrameIndex last) {
    std::vector<Hole> holes;
    const auto& ticks = stamps.ticks;
    const auto begin = static_cast<std::size_t>(std::max<std::int64_t>(first.value, 0));
    const auto end = static_cast<std::size_t>(std::max<std::int64_t>(last.value, 0));
    for (std::size_t at = begin; usualTicks > 0 && at < end && at + 1 < ticks.size(); ++at) {
        const double intervals =
            static_cast<double>(ticks[at + 1] - ticks[at]) / static_cast<double>(usualTicks);
        if (intervals > kHoleIntervals) {
            holes.push_back({{static_cast<std::int64_t>(at)}, std::llround(intervals) - 1});
        }
    }
    return holes;
}

ReadingFacts factsOf(const project::Reading& reading, const project::ClipFrames& frames,
                     std::int64_t usualTicks) {
    ReadingFacts facts;
    if (reading.method == ReadingMethod::Marks) {
        addMarksFacts(reading, frames, facts);
    } else {
        addFitFacts(reading, facts);
    }
    facts.holes = holesBetween(frames.stamps, usualTicks, facts.first, facts.last);
    return facts;
}

}  // namespace core::doubts
