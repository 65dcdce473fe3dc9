#include <algorithm>
#include <cmath>
#include <numeric>
#include <string>

#include "core/base/words.h"
#include "core/spin/marked_timing.h"
#include "core/spin/turn_counts.h"

namespace core::spin {
namespace {

using timebase::BoundedPoint;
using timebase::SlopeBounds;
using timebase::SlopeDensity;

constexpr std::size_t kMaxAssignments = 16;
// From this many turns on, a return within half a frame of turns × whole frames is hardly chance.
constexpr int kStroboscopeTurns = 3;

// The marks of one shot as instants, returns in order of time.
struct Instants {
    MarkInstant start;
    std::vector<ReturnMark> marks;
    std::vector<MarkInstant> returns;
    BoundedPoint startPoint;
    std::vector<CountedReturn> counted;
};

std::string nameOf(const ReturnMark& mark) {
    return mark.kind == ReturnMark::Kind::Nearest
               ? said("frame {}", mark.frame.value)
               : said("frames {} to {}", mark.frame.value, mark.frameAfter.value);
}

Interval<Rpm> ratesOf(double periodLow, double periodHigh) {
    return {{kSecondsPerMinute / periodHigh}, {kSecondsPerMinute / periodLow}};
}

std::string rangeText(const Interval<Rpm>& rates) {
    return said("{} to {}", rpmText(rates.low), rpmText(rates.high));
}

Result<Instants> instantsOf(const MarkSet& marks, const MarkTimes& times) {
    if (!marks.start) {
        return fail(ErrorCode::InvalidInput,
                    said("The shot has a return and no start. Mark the start first."));
    }
    Instants instants;
    BOOST_OUTCOME_TRY(start, times.startInstant(*marks.start));
    instants.start = start;
    instants.marks = marks.returns;
    std::sort(instants.marks.begin(), instants.marks.end(), [](const auto& a, const auto& b) {
        return std::pair{a.frame, a.frameAfter} < std::pair{b.frame, b.frameAfter};
    });
    for (const auto& mark : instants.marks) {
        BOOST_OUTCOME_TRY(instant, times.returnInstant(mark));
        if (instant.low <= start.high) {
            return fail(ErrorCode::InvalidInput,
                        said("The return at {} is not after the start at frame {}.", nameOf(mark),
                             start.frame.value));
        }
        if (mark.turns && *mark.turns < 1) {
            return fail(ErrorCode::OutOfRange,
                        said("The return at {} must come after one turn or more.", nameOf(mark)));
        }
        instants.returns.push_back(instant);
        // Relative to the start, so that late marks in long clips keep their digits.
        instants.counted.push_back(
            {instant.low - start.nominal, instant.high - start.nominal, mark.turns});
    }
    instants.startPoint = {0.0, start.low - start.nominal, start.high - start.nominal};
    return instants;
}

std::string assignmentText(const Instants& instants, const std::vector<int>& turns) {
    const auto bounds =
        timebase::slopeBounds(pointsOf(instants.startPoint, instants.counted, turns));
    std::string text;
    for (std::size_t i = 0; i < turns.size(); ++i) {
        text += i == 0 ? "" : ", ";
        text += said("{} after {}", nameOf(instants.marks[i]), counted(turns[i], "turn", "turns"));
    }
    return text + " (" + rangeText(ratesOf(bounds.value().low, bounds.value().high)) + ")";
}

// Names the returns that leave no common period with these turns.
std::string contradictionText(const Instants& instants, const std::vector<int>& turns,
                              const SlopeBounds& bounds) {
    const auto alone = [&](std::size_t point) {
        const auto i = point - 1;
        const double n = turns[i];
        const double low = (instants.counted[i].low - instants.startPoint.high) / n;
        const double high = (instants.counted[i].high - instants.startPoint.low) / n;
        return said("the return at {} after {} allows {}", nameOf(instants.marks[i]),
                    counted(turns[i], "turn", "turns"), rangeText(ratesOf(low, high)));
    };
    std::vector<std::size_t> named;
    for (const std::size_t point :
         {bounds.lowFirst, bounds.lowSecond, bounds.highFirst, bounds.highSecond}) {
        if (point != 0 && std::find(named.begin(), named.end(), point) == named.end()) {
            named.push_back(point);
        }
    }
    std::string text;
    for (std::size_t i = 0; i < named.size(); ++i) {
        const bool isLast = i + 1 == named.size();
        text = i == 0   ? alone(named[i])
               : isLast ? said("{}, and {}", text, alone(named[i]))
                        : text + ", " + alone(named[i]);
    }
    return said(
        "The marks contradict each other: {}. No rate fits all of them. Look at these frames "
        "again, or at the numbers of turns.",
        text);
}

Result<std::vector<int>> refuseSeveral(const Instants& instants,
                                       const std::vector<std::vector<int>>& found) {
    std::string text;
    for (const auto& turns : found) {
        const std::string one = assignmentText(instants, turns);
        text = text.empty() ? one : said("{}; or {}", text, one);
    }
    if (found.size() >= kMaxAssignments) {
        text = said("{}; and more", text);
    }
    return fail(ErrorCode::Untrustworthy,
                said("Several numbers of turns fit the returns: {}. Give the turns of each return, "
                     "or mark the returns between.",
                     text));
}

// Turns from one return to the next when nothing fits: as given, else one more than before.
std::vector<int> plainTurns(const Instants& instants) {
    std::vector<int> turns;
    for (const auto& mark : instants.counted) {
        turns.push_back(mark.turns.value_or(turns.empty() ? 1 : turns.back() + 1));
    }
    return turns;
}

// Assignments with the first return after one turn; only when there are none, after more turns.
std::vector<std::vector<int>> findTurns(const Instants& instants, Seconds shortest) {
    const auto& first = instants.counted.front();
    auto found = consistentTurns(instants.startPoint, instants.counted, first.turns.value_or(1),
                                 shortest, kMaxAssignments);
    if (!found.empty() || first.turns) {
        return found;
    }
    const double most = (first.high - instants.startPoint.low) / shortest.seconds;
    for (int n = 2; n <= most && found.size() < kMaxAssignments; ++n) {
        for (auto& turns :
             consistentTurns(instants.startPoint, instants.counted, n, shortest, kMaxAssignments)) {
            found.push_back(std::move(turns));
        }
    }
    return found;
}

Result<std::vector<int>> settleTurns(const Instants& instants, double frameInterval) {
    const bool allGiven = std::all_of(instants.counted.begin(), instants.counted.end(),
                                      [](const auto& r) { return r.turns.has_value(); });
    const std::vector<int> plain = plainTurns(instants);
    if (!allGiven && instants.counted.size() > 1) {
        const auto found = findTurns(instants, {kFewestFramesPerTurn * frameInterval});
        if (found.size() > 1) {
            return refuseSeveral(instants, found);
        }
        if (!found.empty()) {
            return found.front();
        }
    }
    const auto points = pointsOf(instants.startPoint, instants.counted, plain);
    BOOST_OUTCOME_TRY(bounds, timebase::slopeBounds(points));
    if (bounds.isContradiction()) {
        return fail(ErrorCode::Contradiction, contradictionText(instants, plain, bounds));
    }
    return plain;
}

BudgetRow periodRow(const SlopeDensity& period) {
    const bool isTrapezoid = period.knots().size() == 4;
    BudgetRow row;
    row.name = toSay("period between start and returns");
    row.value = period.mean();
    row.unit = "s";
    row.distribution = period.isRectangular()       ? Distribution::Rectangular
                       : isTrapezoid                ? Distribution::Trapezoidal
                       : period.knots().size() == 3 ? Distribution::Triangular
                                                    : Distribution::PiecewiseLinear;
    row.halfWidth = 0.5 * (period.high() - period.low());
    row.sigma = period.sigma();
    row.sensitivity = -kSecondsPerMinute / (period.mean() * period.mean());
    return row;
}

void addWarnings(const Instants& instants, const std::vector<int>& turns, double frames,
                 MarkedTiming& timing) {
    const auto plain = [&] {
        std::vector<int> counted(turns.size());
        std::iota(counted.begin(), counted.end(), 1);
        return counted;
    }();
    const bool someInferred = std::any_of(instants.counted.begin(), instants.counted.end(),
                                          [](const auto& r) { return !r.turns; });
    if (someInferred && turns != plain) {
        timing.warnings.push_back(
            {MarksWarning::Kind::TurnsInferred,
             said("Numbers of turns were inferred: {}.", assignmentText(instants, turns))});
    }
    const double whole = std::round(timing.framesPerTurn);
    if (turns.back() >= kStroboscopeTurns && std::abs(frames - whole * turns.back()) < 0.5) {
        timing.warnings.push_back(
            {MarksWarning::Kind::Stroboscope,
             said("Very nearly a whole number of frames makes a turn, so the same few orientations "
                  "come again and again. The count is sound; the axis cannot be seen well.")});
    }
    const bool assumed = instants.start.assumedNeighbour ||
                         std::any_of(instants.returns.begin(), instants.returns.end(),
                                     [](const auto& r) { return r.assumedNeighbour; });
    if (assumed) {
        timing.warnings.push_back(
            {MarksWarning::Kind::AssumedNeighbour,
             said("A mark is on the first or last frame of the clip; the missing frame interval "
                  "was taken equal to the other one.")});
    }
}

// With one return, a turn more or less than counted is the likeliest slip.
std::vector<LookAlike> otherCounts(const Instants& instants, int turns, double frames,
                                   int symmetryOrder) {
    std::vector<LookAlike> found;
    if (instants.returns.size() != 1) {
        return found;
    }
    const double span = instants.returns.front().nominal - instants.start.nominal;
    for (const int other : {turns - 1, turns + 1}) {
        if (other >= 1 && frames / other >= kFewestFramesPerTurn * symmetryOrder) {
            found.push_back({.kind = LookAlike::Kind::TurnCount,
                             .rate = {kSecondsPerMinute * other / span},
                             .multiple = other,
                             .turnsOtherWay = false});
        }
    }
    return found;
}

double framesBetween(const StartMark& start, const ReturnMark& mark) {
    const auto from = static_cast<double>(mark.frame.value - start.frame.value);
    const auto width = static_cast<double>(mark.frameAfter.value - mark.frame.value);
    return from + width * mark.fraction.value_or(BracketFraction{}).value;
}

}  // namespace

std::string rpmText(Rpm rate) {
    return said("{:.5g} rpm", rate.rpm);
}

Result<MarkedTiming> timeReturns(const MarkSet& marks, const MarkTimes& times,
                                 const ReadingContext& context) {
    BOOST_OUTCOME_TRY(instants, instantsOf(marks, times));
    BOOST_OUTCOME_TRY(turns, settleTurns(instants, times.frameInterval()));
    const auto points = pointsOf(instants.startPoint, instants.counted, turns);
    BOOST_OUTCOME_TRY(period, SlopeDensity::fromPoints(points));
    BOOST_OUTCOME_TRY(rate, RateDistribution::fromPeriod(period));
    const double frames = framesBetween(*marks.start, instants.marks.back());
    const double span = instants.returns.back().nominal - instants.start.nominal;
    MarkedTiming timing{.rate = rate, .row = periodRow(period)};
    timing.marked = {kSecondsPerMinute * turns.back() / span};
    timing.bounds = ratesOf(period.low(), period.high());
    timing.framesPerTurn = frames / turns.back();
    timing.turnsSpanned = turns.back();
    timing.secondsSpanned = span;
    timing.first = instants.start.frame;
    timing.last = instants.marks.back().frame;
    for (std::size_t i = 0; i < turns.size(); ++i) {
        const double n = turns[i];
        const double low = (instants.counted[i].low - instants.startPoint.high) / n;
        const double high = (instants.counted[i].high - instants.startPoint.low) / n;
        timing.returns.push_back({instants.marks[i].frame, turns[i],
                                  instants.counted[i].turns.has_value(), ratesOf(low, high)});
    }
    timing.otherTurnCounts = otherCounts(instants, turns.back(), frames, context.symmetryOrder);
    addWarnings(instants, turns, frames, timing);
    return timing;
}

}  // namespace core::spin
