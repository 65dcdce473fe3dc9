#include <algorithm>
#include <cmath>
#include <iterator>
#include <limits>
#include <optional>
#include <set>
#include <string>

#include "core/base/expects.h"
#include "core/base/words.h"
#include "core/spin/line_fit.h"
#include "core/spin/marked_timing.h"
#include "core/stats/model/distributions.h"

namespace core::spin {
namespace {

constexpr double kTurn = 2.0 * kPi;
// Another unwrapping counts as possible while its chi-square is less than this above the best
// (three standard deviations of one parameter).
constexpr double kPossibleDrop = 9.0;
// Level of the tests for curvature and scatter: one false alarm in a hundred shots.
constexpr double kTestLevel = 0.01;
// Root mean square residual, in angles after which the marking looks the same; random angles
// leave about 0.29.
constexpr double kLargestResidual = 0.1;
// Rates from returns choose among unwrappings with this room on both sides.
constexpr double kGuideRoom = 0.1;

struct Readings {
    std::vector<AngleMark> marks;   // in order of time
    std::vector<LinePoint> points;  // x: seconds since the first; y: angle as read; sigma
    double unit{kTurn};             // angle after which the marking looks the same
};

struct Unwrapped {
    std::vector<LinePoint> points;
    LineFit fit;
};

double sigmaOf(const AngleMark& mark) {
    return mark.spreadKind == AngleMark::Spread::Normal ? mark.spread.radians
                                                        : mark.spread.radians / std::sqrt(3.0);
}

Result<Readings> readingsOf(const MarkSet& marks, const MarkTimes& times, int symmetryOrder) {
    if (marks.angles.size() < 2) {
        return fail(ErrorCode::InvalidInput,
                    said("One angle gives no rate. Read the angle of the mark in a second frame."));
    }
    Readings readings;
    readings.unit = kTurn / symmetryOrder;
    readings.marks = marks.angles;
    std::sort(readings.marks.begin(), readings.marks.end(),
              [](const auto& a, const auto& b) { return a.frame < b.frame; });
    std::optional<double> origin;
    for (const auto& mark : readings.marks) {
        BOOST_OUTCOME_TRY(at, times.secondsAt(mark.frame));
        if (!std::isfinite(mark.angle.radians)) {
            return fail(ErrorCode::NotFinite,
                        said("The angle in frame {} is not a number.", mark.frame.value));
        }
        if (!std::isfinite(mark.spread.radians) || mark.spread.radians <= 0.0) {
            return fail(ErrorCode::OutOfRange,
                        said("The angle in frame {} needs a positive spread.", mark.frame.value));
        }
        origin = origin.value_or(at);
        readings.points.push_back({at - *origin, mark.angle.radians, sigmaOf(mark)});
    }
    if (readings.marks.front().frame == readings.marks.back().frame) {
        return fail(ErrorCode::InvalidInput,
                    said("All angles were read in one frame. Read the angle in a second frame."));
    }
    return readings;
}

// Whole units to add to each reading so that it lies nearest to a line of this slope.
std::vector<double> unitsFor(const Readings& readings, double slope) {
    std::size_t anchor = 0;
    while (anchor < readings.marks.size() && !readings.marks[anchor].turns) {
        ++anchor;
    }
    anchor = anchor == readings.marks.size() ? 0 : anchor;
    const auto given = [&](std::size_t i) {
        return readings.marks[i].turns.value_or(0) * kTurn / readings.unit;
    };
    const auto& from = readings.points[anchor];
    const double angle = from.y + given(anchor) * readings.unit;
    std::vector<double> units;
    for (std::size_t i = 0; i < readings.points.size(); ++i) {
        const double expected = angle + slope * (readings.points[i].x - from.x);
        units.push_back(readings.marks[i].turns || i == anchor
                            ? given(i)
                            : std::round((expected - readings.points[i].y) / readings.unit));
    }
    return units;
}

// Every distinct unwrapping whose line is no steeper than frames can show, in both senses.
Result<std::vector<Unwrapped>> unwrappings(const Readings& readings, double steepest) {
    // An eighth of a unit over the whole span cannot step over an unwrapping.
    const double step = readings.unit / (8.0 * readings.points.back().x);
    const auto steps = static_cast<long>(std::ceil(2.0 * steepest / step));
    std::set<std::vector<double>> seen;
    std::vector<Unwrapped> found;
    for (long i = 0; i <= steps; ++i) {
        const double slope = std::min(steepest, static_cast<double>(i) * step - steepest);
        const auto units = unitsFor(readings, slope);
        if (!seen.insert(units).second) {
            continue;
        }
        Unwrapped unwrapped{readings.points, {}};
        for (std::size_t k = 0; k < units.size(); ++k) {
            unwrapped.points[k].y += units[k] * readings.unit;
        }
        BOOST_OUTCOME_TRY(fit, fitLine(unwrapped.points));
        unwrapped.fit = fit;
        constexpr double kRounding = 1e-9;
        if (std::abs(fit.slope) <= steepest * (1.0 + kRounding)) {
            found.push_back(std::move(unwrapped));
        }
    }
    return found;
}

Rpm rateOf(double slope) {
    return toRpm(RadiansPerSecond{std::abs(slope)});
}

std::string candidatesText(const std::vector<Unwrapped>& candidates) {
    constexpr std::size_t kMost = 12;
    std::string text;
    for (std::size_t i = 0; i < candidates.size() && i < kMost; ++i) {
        const double slope = candidates[i].fit.slope;
        const std::string rate = rpmText(rateOf(slope));
        text += text.empty() ? "" : ", ";
        text += slope < 0.0 ? said("{} clockwise", rate) : said("{} counter-clockwise", rate);
    }
    return candidates.size() > kMost ? said("{} and more", text) : text;
}

// Those that fit nearly as well as the best one.
std::vector<Unwrapped> possibleOf(const std::vector<Unwrapped>& all) {
    std::vector<Unwrapped> possible;
    if (all.empty()) {
        return possible;
    }
    const auto best = std::min_element(all.begin(), all.end(), [](const auto& a, const auto& b) {
        return a.fit.chiSquare < b.fit.chiSquare;
    });
    const double scale = std::max(1.0, best->fit.residualScale * best->fit.residualScale);
    std::copy_if(all.begin(), all.end(), std::back_inserter(possible), [&](const auto& one) {
        return one.fit.chiSquare - best->fit.chiSquare <= kPossibleDrop * scale;
    });
    return possible;
}

bool isWithin(const Interval<Rpm>& guide, const Unwrapped& one) {
    const double rpm = rateOf(one.fit.slope).rpm;
    return rpm >= guide.low.rpm * (1.0 - kGuideRoom) && rpm <= guide.high.rpm * (1.0 + kGuideRoom);
}

Result<Unwrapped> chooseUnwrapping(const std::vector<Unwrapped>& all,
                                   const std::optional<Interval<Rpm>>& guide) {
    const std::vector<Unwrapped> possible = possibleOf(all);
    std::vector<Unwrapped> allowed;
    std::copy_if(possible.begin(), possible.end(), std::back_inserter(allowed),
                 [&](const auto& one) { return !guide || isWithin(*guide, one); });
    if (possible.empty()) {
        return fail(ErrorCode::Contradiction,
                    said("No spin that the frames can show fits the angles with the turns that "
                         "were given. Look at the angles and turns again."));
    }
    if (allowed.empty()) {
        return fail(ErrorCode::Contradiction,
                    said("The returns say {} to {} and the angles say {}: they contradict each "
                         "other. Look at both again.",
                         rpmText(guide->low), rpmText(guide->high), candidatesText(possible)));
    }
    if (allowed.size() > 1) {
        return fail(ErrorCode::Untrustworthy,
                    said("Several rates fit the angles: {}. Read angles in frames that follow each "
                         "other, or give their turns.",
                         candidatesText(allowed)));
    }
    return allowed.front();
}

// Residuals as large as a guess would leave mean that no turn was followed.
Result<void> checkFollowed(const Unwrapped& chosen, double unit) {
    double sum = 0.0;
    for (const auto& p : chosen.points) {
        sum += std::pow(p.y - chosen.fit.intercept - chosen.fit.slope * p.x, 2);
    }
    const double rms = std::sqrt(sum / static_cast<double>(chosen.points.size()));
    if (rms <= kLargestResidual * unit) {
        return ok();
    }
    return fail(ErrorCode::Untrustworthy, said("The angles do not follow a steady turning: they "
                                               "are off by {}° on average. Read them again.",
                                               std::lround(toDegrees({rms}))));
}

double framesSpanned(const Readings& readings) {
    return static_cast<double>(readings.marks.back().frame.value -
                               readings.marks.front().frame.value);
}

// Attitudes that differ, of the readings, when a whole number of frames makes a turn.
std::optional<std::size_t> repeatedAttitudes(const Readings& readings, double framesPerUnit) {
    const double whole = std::round(framesPerUnit);
    const double frames = framesSpanned(readings);
    const double drift = std::abs(framesPerUnit - whole) * frames / framesPerUnit;
    if (whole < 1.0 || frames < 2.0 * whole || drift >= 0.5) {
        return std::nullopt;
    }
    std::set<std::int64_t> attitudes;
    for (const auto& mark : readings.marks) {
        attitudes.insert((mark.frame.value - readings.marks.front().frame.value) %
                         static_cast<std::int64_t>(whole));
    }
    return attitudes.size();
}

void addTests(const LineFit& fit, MarkedTiming& timing) {
    const double dof = fit.degreesOfFreedom;
    if (dof >= 1.0 && fit.chiSquare > stats::ChiSquare{{dof}}.quantile({1.0 - kTestLevel})) {
        timing.warnings.push_back(
            {MarksWarning::Kind::Scatter, said("The angles scatter more than their stated spread; "
                                               "the uncertainty is taken from the scatter.")});
    }
    if (dof < 2.0) {
        return;
    }
    const double scale = (fit.chiSquare - fit.chiSquareDropOfSquare) / (dof - 1.0);
    const double tested = fit.chiSquareDropOfSquare / std::max(1.0, scale);
    const double usedDof = scale > 1.0 ? dof - 1.0 : std::numeric_limits<double>::infinity();
    const double limit = stats::StudentT{{usedDof}}.coverageFactor({1.0 - kTestLevel});
    if (tested > limit * limit) {
        timing.warnings.push_back(
            {MarksWarning::Kind::Curvature,
             said("The angles bend away from a straight line: the axis changes, the ball slows, or "
                  "a turn was counted wrongly.")});
    }
}

struct SlopeSigma {
    double sigma{};
    double dof{};
};

SlopeSigma sigmaOfSlope(const LineFit& fit, const Readings& readings, Radians dialStep,
                        std::optional<std::size_t> attitudes) {
    const double infinite = std::numeric_limits<double>::infinity();
    SlopeSigma result{fit.slopeSigmaFromReadings, infinite};
    if (fit.slopeSigmaFromResiduals > result.sigma) {
        result = {fit.slopeSigmaFromResiduals, fit.degreesOfFreedom};
    }
    if (attitudes) {
        result.sigma *=
            std::sqrt(static_cast<double>(readings.marks.size()) / static_cast<double>(*attitudes));
    }
    const double floor = dialStep.radians / (std::sqrt(6.0) * readings.points.back().x);
    return result.sigma >= floor ? result : SlopeSigma{floor, infinite};
}

BudgetRow slopeRow(double slope, const SlopeSigma& sigma) {
    BudgetRow row;
    row.name = toSay("slope of the angles");
    row.value = std::abs(slope);
    row.unit = "rad/s";
    row.distribution = std::isinf(sigma.dof) ? Distribution::Normal : Distribution::StudentT;
    row.sigma = sigma.sigma;
    row.sensitivity = toRpm(RadiansPerSecond{1.0}).rpm;
    row.degreesOfFreedom = sigma.dof;
    return row;
}

}  // namespace

Result<MarkedTiming> timeAngles(const MarkSet& marks, const MarkTimes& times,
                                const ReadingContext& context,
                                const std::optional<Interval<Rpm>>& guide) {
    BOOST_OUTCOME_TRY(readings, readingsOf(marks, times, context.symmetryOrder));
    const double steepest = 0.5 * readings.unit / times.frameInterval();
    BOOST_OUTCOME_TRY(all, unwrappings(readings, steepest));
    BOOST_OUTCOME_TRY(chosen, chooseUnwrapping(all, guide));
    BOOST_OUTCOME_TRY(checkFollowed(chosen, readings.unit));
    const LineFit& fit = chosen.fit;
    const double span = readings.points.back().x;
    const double turns = std::abs(fit.slope) * span / kTurn;
    const double framesPerTurn =
        turns > 0.0 ? framesSpanned(readings) / turns : std::numeric_limits<double>::infinity();
    const auto attitudes = repeatedAttitudes(readings, framesPerTurn / context.symmetryOrder);
    const SlopeSigma sigma = sigmaOfSlope(fit, readings, context.dialStep, attitudes);
    const Rpm rate = rateOf(fit.slope);
    const Rpm rateSigma = toRpm(RadiansPerSecond{sigma.sigma});
    MarkedTiming timing{.method = MarksReading::Method::Angles,
                        .rate = RateDistribution::fromStudent({rate, rateSigma}, sigma.dof)};
    timing.marked = rate;
    timing.framesPerTurn = framesPerTurn;
    timing.turnsSpanned = turns;
    timing.secondsSpanned = span;
    timing.first = readings.marks.front().frame;
    timing.last = readings.marks.back().frame;
    timing.turnsCounterClockwise = fit.slope > 0.0;
    timing.row = slopeRow(fit.slope, sigma);
    if (attitudes) {
        timing.warnings.push_back(
            {MarksWarning::Kind::Stroboscope,
             said("A whole number of frames makes a turn: the same orientations are read again and "
                  "again, and the uncertainty is widened.")});
    }
    addTests(fit, timing);
    return timing;
}

}  // namespace core::spin
