#include "core/doubts/reading_facts.h"

#include <algorithm>
#include <cmath>

#include "core/reading/project_reading.h"

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
    facts.first = facts.last = marks.start->frame;
    for (const auto& mark : marks.returns) {
        facts.last = std::max(facts.last, mark.frameAfter);
    }
    for (const auto& mark : marks.angles) {
        facts.first = std::min(facts.first, mark.frame);
        facts.last = std::max(facts.last, mark.frame);
    }
    if (const auto read = reading::readAgain(reading, frames)) {
        facts.warnings = read.value().warnings;
        if (!read.value().returns.empty()) {
            facts.turns = read.value().returns.back().turns;
        }
    }
}

void addFitFacts(const project::Reading& reading, ReadingFacts& facts) {
    const auto kept = reading::keptFitFromJson(reading.inputsJson);
    if (!kept) {
        return;
    }
    facts.clock = kept.value().request.clock;
    facts.uniqueness = kept.value().uniqueness;
    if (const auto& track = kept.value().track; !track.empty()) {
        facts.first = track.front().frame;
        facts.last = track.back().frame;
    }
}

}  // namespace

std::vector<Hole> holesBetween(const timebase::FrameStamps& stamps, timebase::FrameIndex first,
                               timebase::FrameIndex last) {
    const auto& ticks = stamps.ticks;
    if (ticks.size() < 3) {
        return {};
    }
    std::vector<std::int64_t> steps;
    for (std::size_t i = 1; i < ticks.size(); ++i) {
        steps.push_back(ticks[i] - ticks[i - 1]);
    }
    const auto middle = steps.begin() + static_cast<std::ptrdiff_t>(steps.size() / 2);
    auto sorted = steps;
    std::nth_element(sorted.begin(), sorted.begin() + (middle - steps.begin()), sorted.end());
    const auto usual = static_cast<double>(sorted[steps.size() / 2]);
    std::vector<Hole> holes;
    const auto end = std::min<std::int64_t>(last.value, static_cast<std::int64_t>(steps.size()));
    for (std::int64_t at = std::max<std::int64_t>(first.value, 0); usual > 0.0 && at < end; ++at) {
        const double intervals = static_cast<double>(steps[static_cast<std::size_t>(at)]) / usual;
        if (intervals > kHoleIntervals) {
            holes.push_back({{at}, std::llround(intervals) - 1});
        }
    }
    return holes;
}

ReadingFacts factsOf(const project::Reading& reading, const project::ClipFrames& frames) {
    ReadingFacts facts;
    if (reading.method == ReadingMethod::Marks) {
        addMarksFacts(reading, frames, facts);
    } else {
        addFitFacts(reading, facts);
    }
    facts.holes = holesBetween(frames.stamps, facts.first, facts.last);
    return facts;
}

}  // namespace core::doubts
