#include "core/spin/counting_habit.h"

#include <array>

#include "core/base/words.h"

namespace core::spin {
namespace {

constexpr double kHalfAnInterval = 0.5;

struct HabitText {
    CountingHabit habit;
    std::string_view name;
    std::string_view words;
};
constexpr std::array kHabits{
    HabitText{CountingHabit::Nearest, "nearest", toSay("start exact, nearest return")},
    HabitText{CountingHabit::Both, "both", toSay("both ends rounded")},
    HabitText{CountingHabit::After, "after", toSay("first frame at or past the turn")},
    HabitText{CountingHabit::Unknown, "unknown", toSay("not known")}};

}  // namespace

std::string_view habitName(CountingHabit habit) noexcept {
    return kHabits[static_cast<std::size_t>(habit)].name;
}

std::optional<CountingHabit> habitNamed(std::string_view name) noexcept {
    for (const HabitText& known : kHabits) {
        if (known.name == name) {
            return known.habit;
        }
    }
    return std::nullopt;
}

std::string habitWords(CountingHabit habit) {
    return saidText(kHabits[static_cast<std::size_t>(habit)].words);
}

MarkSet marksOfCount(CountingHabit habit, FrameIndex start, FrameIndex end, int turns) {
    MarkSet marks;
    marks.start = StartMark{start, std::nullopt};
    const FrameIndex before{end.value - 1};
    switch (habit) {
        case CountingHabit::Nearest:
            marks.returns = {ReturnMark::nearest(end, turns)};
            break;
        case CountingHabit::Both:
            marks.start = StartMark{start, kHalfAnInterval};
            marks.returns = {ReturnMark::nearest(end, turns)};
            break;
        case CountingHabit::After:
            marks.returns = {ReturnMark::between(before, end, turns)};
            break;
        case CountingHabit::Unknown:
            marks.returns = {ReturnMark::between(before, {end.value + 1}, turns)};
            break;
    }
    return marks;
}

CountedRate countedRate(CountingHabit habit, Interval<Rpm> limits) {
    if (habit != CountingHabit::Unknown) {
        return {limits, habit == CountingHabit::Both ? 0.0 : 1.0, 0.0};
    }
    // Start exact, and halfway between the nearest return and the first frame past it.
    const double low = 1.0 / limits.high.rpm;
    const double high = 1.0 / limits.low.rpm;
    const double frame = 0.5 * (high - low);
    const double middle = 0.5 * (low + high) - 0.25 * frame;
    const double rate = 1.0 / middle;
    return {{{1.0 / (middle + 0.5 * frame)}, {1.0 / (middle - 0.5 * frame)}},
            1.0,
            0.25 * frame * rate * rate};
}

}  // namespace core::spin
