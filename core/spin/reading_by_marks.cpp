#include "core/spin/reading_by_marks.h"

#include <array>
#include <cmath>
#include <numeric>
#include <utility>

#include "core/base/words.h"
#include "core/spin/mark_times.h"
#include "core/spin/marked_timing.h"
#include "core/spin/rate_distribution.h"

namespace core::spin {
namespace {

constexpr double kCoverage = 0.95;
constexpr double kMuchBlurDegrees = 45.0;
constexpr std::size_t kShutterRow = 2;  // of the budget: marks, capture rate, rolling shutter

Result<void> checkShutter(const RollingShutter& shutter) {
    const bool isCorrected = shutter.kind == RollingShutter::Kind::Known ||
                             shutter.kind == RollingShutter::Kind::Estimated;
    if (isCorrected && !shutter.readout) {
        return fail(ErrorCode::InvalidInput,
                    said("A known rolling shutter needs its readout time."));
    }
    if (!std::isfinite(shutter.readoutSigma.seconds) || shutter.readoutSigma.seconds < 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The uncertainty of the readout time must be zero or positive."));
    }
    const double readout = shutter.readout.value_or(Seconds{}).seconds;
    if (!std::isfinite(readout) || readout < 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The readout time of the rolling shutter must be zero or positive."));
    }
    return ok();
}

Result<void> checkContext(const ReadingContext& context) {
    if (context.symmetryOrder < 1) {
        return fail(ErrorCode::OutOfRange,
                    said("The order of symmetry of the marking must be 1 or more."));
    }
    const double exposure = context.exposure.value_or(Seconds{}).seconds;
    if (!std::isfinite(exposure) || exposure < 0.0) {
        return fail(ErrorCode::OutOfRange, said("The exposure must be zero or positive."));
    }
    const LineOfSight& sight = context.lineOfSight;
    if (!std::isfinite(sight.angle.radians) || !std::isfinite(sight.sigma.radians)) {
        return fail(ErrorCode::NotFinite, said("The turn of the line of sight is not a number."));
    }
    if (sight.sigma.radians < 0.0 ||
        (sight.kind == LineOfSight::Kind::Contribution && sight.angle.radians < 0.0)) {
        return fail(ErrorCode::OutOfRange,
                    said("The uncertainty of the line of sight must be zero or positive."));
    }
    if (!std::isfinite(context.dialStep.radians) || context.dialStep.radians < 0.0) {
        return fail(ErrorCode::OutOfRange, said("The step of the dial must be zero or positive."));
    }
    return checkShutter(context.rollingShutter);
}

Result<void> checkMarks(const MarkSet& marks, const timebase::ClipClock& clock) {
    if (marks.returns.empty() && marks.angles.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("Nothing is marked. Mark a start and a return, or read two angles."));
    }
    if (clock.frameCount() < 2) {
        return fail(ErrorCode::InvalidInput,
                    said("The clip has one frame; a spin rate needs two or more."));
    }
    return ok();
}

// Factor of the rate with its relative uncertainty, from one influence.
struct Correction {
    double factor{1.0};
    double normalSigma{};           // relative
    double rectangularHalfWidth{};  // relative
    bool isFalling{};               // a larger input makes the rate smaller
    BudgetRow row;
};

BudgetRow notAssessed(std::string name, std::string unit) {
    return {.name = std::move(name),
            .value = 0.0,
            .unit = std::move(unit),
            .distribution = Distribution::NotAssessed};
}

// The true interval is longer than the stamped one by the rows the ball descended, times the
// readout time: span·(1 + rho) with rho = readout·(row_last - row_first)/span.
Result<Correction> shutterCorrection(const MarkedTiming& timing, const MarkTimes& times,
                                     const RollingShutter& shutter) {
    Correction correction;
    correction.row = notAssessed(std::string{toSay("rolling shutter")}, "s");
    if (shutter.kind == RollingShutter::Kind::NotAssessed) {
        return correction;
    }
    correction.row.distribution = Distribution::Rectangular;
    correction.row.halfWidth = 0.0;
    if (shutter.kind == RollingShutter::Kind::Known) {
        correction.row.value = shutter.readout->seconds;  // the instants are corrected already
    }
    if (shutter.kind == RollingShutter::Kind::Known ||
        shutter.kind == RollingShutter::Kind::Absent) {
        return correction;
    }
    BOOST_OUTCOME_TRY(first, times.rowAt(timing.first));
    BOOST_OUTCOME_TRY(last, times.rowAt(timing.last));
    correction.isFalling = last > first;
    if (shutter.kind == RollingShutter::Kind::Estimated) {
        correction.normalSigma =
            shutter.readoutSigma.seconds * std::abs(last - first) / timing.secondsSpanned;
        correction.row.value = shutter.readout->seconds;
        correction.row.distribution = Distribution::Normal;
        correction.row.halfWidth.reset();
        correction.row.sigma = shutter.readoutSigma.seconds;
        return correction;
    }
    const double longest = shutter.readout.value_or(Seconds{times.frameInterval()}).seconds;
    const double rho = longest * (last - first) / timing.secondsSpanned;
    if (rho <= -1.0) {
        return fail(ErrorCode::Untrustworthy,
                    said("The rolling shutter may account for the whole time between the marks. "
                         "Mark a later return or state the readout time."));
    }
    const double least = 1.0 / (1.0 + rho);
    correction.factor = 0.5 * (1.0 + least);
    correction.rectangularHalfWidth = 0.5 * std::abs(1.0 - least) / correction.factor;
    correction.row.value = 0.5 * longest;
    correction.row.halfWidth = 0.5 * longest;
    correction.row.sigma = sigmaFromHalfWidth(Distribution::Rectangular, 0.5 * longest);
    return correction;
}

Correction sightCorrection(const MarkedTiming& timing, const LineOfSight& sight) {
    Correction correction;
    correction.row = notAssessed(std::string{kLineOfSightRow}, "rad");
    const double perAngle = 1.0 / (2.0 * kPi * timing.turnsSpanned);  // relative change per radian
    switch (sight.kind) {
        case LineOfSight::Kind::NotAssessed:
            break;
        case LineOfSight::Kind::Corrected:
            correction.factor = 1.0 + sight.angle.radians * perAngle;
            correction.normalSigma = sight.sigma.radians * perAngle / correction.factor;
            correction.row.value = sight.angle.radians;
            correction.row.distribution = Distribution::Normal;
            correction.row.sigma = sight.sigma.radians;
            break;
        case LineOfSight::Kind::Contribution:
            correction.rectangularHalfWidth = sight.angle.radians * perAngle;
            correction.row.distribution = Distribution::Rectangular;
            correction.row.halfWidth = sight.angle.radians;
            correction.row.sigma =
                sigmaFromHalfWidth(Distribution::Rectangular, sight.angle.radians);
            break;
    }
    return correction;
}

Correction clockCorrection(const timebase::ClipClock& clock) {
    Correction correction;
    correction.normalSigma = clock.relativeSigma();
    correction.row = {.name = std::string{toSay("capture rate")},
                      .value = 1.0,
                      .unit = "1",
                      .distribution = Distribution::Normal,
                      .sigma = clock.relativeSigma()};
    return correction;
}

Interval<Rpm> scaled(const Interval<Rpm>& interval, double factor) {
    return {{interval.low.rpm * factor}, {interval.high.rpm * factor}};
}

void addBlur(const ReadingContext& context, MarksReading& reading) {
    if (!context.exposure) {
        return;
    }
    reading.blurPerExposure =
        Radians{toRadiansPerSecond(reading.estimate).radiansPerSecond * context.exposure->seconds};
    const double degrees = toDegrees(*reading.blurPerExposure);
    if (degrees > kMuchBlurDegrees) {
        reading.warnings.push_back(
            {MarksWarning::Kind::Blur,
             said("The mark turns by {}° while the shutter is open. Film with a shorter exposure.",
                  std::lround(degrees))});
    }
}

void addReadout(const ReadingContext& context, MarksReading& reading) {
    constexpr double kNoticeableShare = 0.05;
    if (context.rollingShutter.kind == RollingShutter::Kind::Unknown &&
        reading.budget.rows.at(kShutterRow).share > kNoticeableShare) {
        reading.warnings.push_back(
            {MarksWarning::Kind::UnknownReadout,
             said("Nobody stated the shutter readout of this camera and no kept reading from the "
                  "pictures tells it, so the interval is wider. Enter the readout, or keep a "
                  "reading from the pictures of a ball that crosses the view fast.")});
    }
}

void addLookAlikes(const MarkedTiming& timing, timebase::CaptureRate capture, int symmetryOrder,
                   MarksReading& reading) {
    constexpr int kMultiples = 2;
    reading.lookAlikes = aliasCandidates(reading.estimate, capture, symmetryOrder, kMultiples);
    for (const auto& one : timing.otherTurnCounts) {
        reading.lookAlikes.push_back(one);
    }
    for (const auto& one : symmetryAlternatives(reading.estimate, symmetryOrder)) {
        reading.lookAlikes.push_back(one);
    }
}

// No single answer when frames alone cannot tell it from its alias.
Result<void> refuseUndersampled(const MarkedTiming& timing, timebase::CaptureRate capture,
                                int symmetryOrder) {
    constexpr double kSlack = 1e-9;
    if (timing.framesPerTurn / symmetryOrder >= kFewestFramesPerTurn - kSlack) {
        return ok();
    }
    std::string candidates = rpmText(timing.marked);
    for (const auto& alias : aliasCandidates(timing.marked, capture, symmetryOrder, 1)) {
        candidates += ", " + rpmText(alias.rate);
    }
    return fail(ErrorCode::Untrustworthy,
                said("Fewer than two frames per turn of the marking: the frames alone do not tell "
                     "the rate. Candidates: {}. Film at a higher capture rate.",
                     candidates));
}

using Corrections = std::array<Correction, 3>;

Result<Corrections> correctionsOf(const MarkedTiming& timing, const MarkTimes& times,
                                  const ReadingContext& context) {
    BOOST_OUTCOME_TRY(shutter, shutterCorrection(timing, times, context.rollingShutter));
    return Corrections{clockCorrection(times.clock()), shutter,
                       sightCorrection(timing, context.lineOfSight)};
}

// The marks' own row first; every correction adds estimate·(its relative uncertainty).
Result<UncertaintyBudget> budgetOf(const MarkedTiming& timing, const Corrections& corrections,
                                   double factor) {
    std::vector<BudgetRow> rows{timing.row};
    rows.front().sensitivity *= factor;
    rows.front().contribution = timing.rate.sigma().rpm * factor;
    for (const auto& correction : corrections) {
        const double relative = std::hypot(
            correction.normalSigma,
            sigmaFromHalfWidth(Distribution::Rectangular, correction.rectangularHalfWidth));
        BudgetRow row = correction.row;
        row.contribution = timing.rate.mean().rpm * factor * relative;
        row.sensitivity = row.sigma > 0.0 ? row.contribution / row.sigma : 0.0;
        row.sensitivity *= correction.isFalling ? -1.0 : 1.0;
        rows.push_back(std::move(row));
    }
    return completeBudget(std::move(rows), "rpm");
}

void addWarnings(const MarkedTiming& timing, const ReadingContext& context, MarksReading& reading) {
    reading.warnings = timing.warnings;
    if (timing.framesPerTurn / context.symmetryOrder < kFewFramesPerTurn) {
        reading.warnings.push_back(
            {MarksWarning::Kind::FewFramesPerTurn, said("Fewer than three frames per turn of the "
                                                        "marking: look at the look-alike rates.")});
    }
    addBlur(context, reading);
    addReadout(context, reading);
}

RelativeEffects effectsOf(const Corrections& corrections) {
    RelativeEffects effects;
    for (const auto& correction : corrections) {
        effects.addNormal(correction.normalSigma);
        effects.addRectangular(correction.rectangularHalfWidth);
    }
    return effects;
}

double factorOf(const Corrections& corrections) {
    return std::accumulate(corrections.begin(), corrections.end(), 1.0,
                           [](double factor, const auto& one) { return factor * one.factor; });
}

// All of a reading but the interval, which costs most of the time.
struct WithoutInterval {
    MarksReading reading;
    Corrections corrections;
};

Result<WithoutInterval> assembleFirst(const MarkedTiming& timing, const MarkTimes& times,
                                      const ReadingContext& context) {
    const auto capture = times.clock().captureRate();
    BOOST_OUTCOME_TRY(refuseUndersampled(timing, *capture, context.symmetryOrder));
    BOOST_OUTCOME_TRY(corrections, correctionsOf(timing, times, context));
    const double factor = factorOf(corrections);
    MarksReading reading;
    reading.method = timing.method;
    reading.marked = timing.marked;
    reading.estimate = {timing.rate.mean().rpm * factor};
    BOOST_OUTCOME_TRY(budget, budgetOf(timing, corrections, factor));
    reading.budget = std::move(budget);
    reading.standardUncertainty = {reading.budget.combined};
    if (timing.bounds) {
        reading.bounds = scaled(*timing.bounds, factor);
    }
    reading.period = {timing.rate.period() ? timing.rate.period()->mean() / factor
                                           : 60.0 / reading.estimate.rpm};
    reading.framesPerTurn = timing.framesPerTurn;
    reading.turnsCounterClockwise = timing.turnsCounterClockwise;
    reading.returns = timing.returns;
    addLookAlikes(timing, *capture, context.symmetryOrder, reading);
    addWarnings(timing, context, reading);
    return WithoutInterval{std::move(reading), std::move(corrections)};
}

Result<MarksReading> assemble(const MarkedTiming& timing, const MarkTimes& times,
                              const ReadingContext& context) {
    BOOST_OUTCOME_TRY(done, assembleFirst(timing, times, context));
    done.reading.interval95 =
        scaled(coverageInterval(timing.rate, effectsOf(done.corrections), kCoverage),
               factorOf(done.corrections));
    return std::move(done.reading);
}

// Reads returns and angles of one shot, and gives the narrower of the two.
Result<MarksReading> readBoth(const MarksReading& returns, const MarkSet& marks,
                              const MarkTimes& times, const ReadingContext& context,
                              const std::optional<Interval<Rpm>>& bounds) {
    BOOST_OUTCOME_TRY(timing, timeAngles(marks, times, context, bounds));
    BOOST_OUTCOME_TRY(angles, assemble(timing, times, context));
    const auto text = [](const MarksReading& r) {
        return said("{} to {}", rpmText(r.interval95.low), rpmText(r.interval95.high));
    };
    if (returns.interval95.low > angles.interval95.high ||
        angles.interval95.low > returns.interval95.high) {
        return fail(ErrorCode::Contradiction,
                    said("The returns say {} and the angles say {} (95 % each): they contradict "
                         "each other. Look at both again.",
                         text(returns), text(angles)));
    }
    const bool anglesAreNarrower = angles.standardUncertainty < returns.standardUncertainty;
    MarksReading chosen = anglesAreNarrower ? angles : returns;
    const MarksReading& other = anglesAreNarrower ? returns : angles;
    chosen.returns = returns.returns;
    chosen.turnsCounterClockwise = angles.turnsCounterClockwise;
    chosen.warnings.push_back(
        {MarksWarning::Kind::MethodsDiffer,
         anglesAreNarrower
             ? said("The reading from the angles is reported; the returns say {} (95 %: {}).",
                    rpmText(other.estimate), text(other))
             : said("The reading from the returns is reported; the angles say {} (95 %: {}).",
                    rpmText(other.estimate), text(other))});
    return chosen;
}

}  // namespace

std::string_view marksWarningName(MarksWarning::Kind kind) noexcept {
    constexpr std::array<std::string_view, 9> kNames{
        "few_frames_per_turn", "turns_inferred", "stroboscope",    "blur", "curvature", "scatter",
        "assumed_neighbour",   "methods_differ", "unknown_readout"};
    return kNames.at(static_cast<std::size_t>(kind));
}

Result<MarksReading> readMarks(const MarkSet& marks, const timebase::ClipClock& clock,
                               const ReadingContext& context) {
    BOOST_OUTCOME_TRY(checkContext(context));
    BOOST_OUTCOME_TRY(checkMarks(marks, clock));
    const MarkTimes times{clock, context.rollingShutter};
    if (marks.returns.empty()) {
        BOOST_OUTCOME_TRY(timing, timeAngles(marks, times, context, {}));
        return assemble(timing, times, context);
    }
    BOOST_OUTCOME_TRY(timing, timeReturns(marks, times, context));
    BOOST_OUTCOME_TRY(returns, assemble(timing, times, context));
    if (marks.angles.empty()) {
        return returns;
    }
    return readBoth(returns, marks, times, context, timing.bounds);
}

Result<MarksRemarks> remarksOnMarks(const MarkSet& marks, const timebase::ClipClock& clock,
                                    const ReadingContext& context) {
    if (!marks.angles.empty()) {
        BOOST_OUTCOME_TRY(read, readMarks(marks, clock, context));
        return MarksRemarks{std::move(read.returns), std::move(read.warnings)};
    }
    BOOST_OUTCOME_TRY(checkContext(context));
    BOOST_OUTCOME_TRY(checkMarks(marks, clock));
    const MarkTimes times{clock, context.rollingShutter};
    BOOST_OUTCOME_TRY(timing, timeReturns(marks, times, context));
    BOOST_OUTCOME_TRY(done, assembleFirst(timing, times, context));
    return MarksRemarks{std::move(done.reading.returns), std::move(done.reading.warnings)};
}

}  // namespace core::spin
