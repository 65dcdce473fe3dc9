#include "core/spin/fit/verdict.h"

#include <algorithm>
#include <array>
#include <boost/math/distributions/students_t.hpp>
#include <cmath>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/spin/fit/spherical_harmonics.h"

namespace core::spin::fit {

namespace {

// Share of the plain ball's error that the marking predicts: enough by itself, or where frame after
// frame says so, as in low light, when most of the error is noise.
constexpr double kWellExplained = 0.30;
constexpr double kLeastExplained = 0.10;
constexpr double kClearlyExplained = 4.0;    // standard errors
constexpr double kLargestSigmaShare = 0.03;  // of the rate
// Minima whose rates are as close make the interval wider; farther apart they leave no reading.
constexpr double kNearRateShare = 0.04;
// What scatter over frames cannot show, because it is the same in all of them: edges cut off by the
// pattern's degree, light, a field of view pulled astray. Set on the same shots so that medians of
// error over sigma are those of a normal error.
constexpr double kModelRateShare = 0.0005;
constexpr double kModelAxisDegrees = 1.0;
constexpr double kAxisWidening = 1.3;
constexpr double kWideSmearDegrees = 45.0;
constexpr int kLikenessRows = 24;             // of the map on which a half-turn likeness is judged
constexpr int kLikenessDegree = 3;            // of the pattern there: finer parts ring
constexpr double kLeastFacing = 0.6;          // cosine of the slant at which a row counts as seen
constexpr double kTwinLikeness = 0.4;         // a correlation from which a half-turn twin is listed
constexpr double kWidestSmearDegrees = 60.0;  // beyond it a wrong rate may fit the smear

Vector3 toVector(const Eigen::Vector3d& v) {
    return {v.x(), v.y(), v.z()};
}

void addFrames(const FitInput& input, const RankedFit& best, FitOutcome& outcome) {
    outcome.frames.resize(input.frames.size());
    const auto deviations = attitudeDeviations(best.fit);
    for (std::size_t f = 0; f < best.predictionErrors.size(); ++f) {
        const FrameSamples& samples = best.fit.shot().frames[f];
        const Eigen::Vector2d shift = best.fit.state().shiftPx[f];
        outcome.frames[samples.source] = FrameResidual{
            std::sqrt(best.predictionErrors[f] / static_cast<double>(samples.weight.sum())),
            {deviations[f].norm()},
            {shift.x(), shift.y()}};
    }
}

/// Coefficients x colours of the pattern as a file stores it (sRGB, IEC 61966-2-1) from those of
/// its light; 255 is white in both.
Eigen::MatrixXd displayEncoded(int degree, const Eigen::MatrixXd& light) {
    constexpr int kPoints = 4000;
    const Eigen::MatrixXf basis = HarmonicBasis{degree}.at(evenPoints(kPoints));
    const Eigen::MatrixXf stored = (basis * light.cast<float>()).unaryExpr([](float value) {
        const float share = std::clamp(value / 255.0F, 0.0F, 1.0F);
        return 255.0F * (share <= 0.0031308F ? 12.92F * share
                                             : 1.055F * std::pow(share, 1.0F / 2.4F) - 0.055F);
    });
    return (basis.transpose() * stored).cast<double>() * (4.0 * kPi / kPoints);
}

void addPattern(const RankedFit& best, FitOutcome& outcome) {
    const PatternFit& fit = best.fit;
    outcome.pattern.degree = fit.degrees().pattern;
    outcome.pattern.referenceTime = {fit.shot().referenceTime};
    const Eigen::MatrixXd colours = displayEncoded(
        fit.degrees().pattern, fit.patternCoefficients() * fit.light().axes.cast<double>());
    for (int c = 0; c < 3; ++c) {
        outcome.pattern.redGreenBlue[static_cast<std::size_t>(c)] = {
            colours.col(c).data(), colours.col(c).data() + colours.rows()};
    }
}

/// Adds what the model leaves, along and across the axis.
Eigen::Matrix3d widened(const Eigen::Matrix3d& covariance, const Eigen::Vector3d& omega) {
    const Eigen::Vector3d axis = omega.normalized();
    const Eigen::Matrix3d along = axis * axis.transpose();
    const Eigen::Matrix3d across = Eigen::Matrix3d::Identity() - along;
    const Eigen::Matrix3d stretch = along + kAxisWidening * across;
    const double axisSigma = fromDegrees(kModelAxisDegrees).radians;
    return stretch * covariance * stretch +
           omega.squaredNorm() *
               (kModelRateShare * kModelRateShare * along + axisSigma * axisSigma * across);
}

double rateOf(const RankedFit& ranked) {
    return ranked.fit.state().angularVelocity.norm();
}

double turnsPerFrameOf(const ShotAnalysis& analysis, const RankedFit& ranked) {
    return rateOf(ranked) * analysis.frameInterval / (2.0 * kPi);
}

/// What another minimum means for the reading.
enum class Rivalry {
    None,   ///< the pictures decide against it
    Near,   ///< nearly the same rate: the interval must hold both
    Alias,  ///< more than half a turn a frame: as with even spacing, the slower one is read
    Rival,  ///< another rate
};

Rivalry rivalryInPictures(const ShotAnalysis& analysis, const RankedFit& other) {
    const RankedFit& best = analysis.ranked.front();
    // Where aliases are a danger a slower rate must lose twice as clearly.
    const bool isInDanger =
        turnsPerFrameOf(analysis, best) * kFewFramesPerTurn > 1.0 && rateOf(other) < rateOf(best);
    if (isDecided(other.againstBest) &&
        (!isInDanger || other.againstBest.deficit >= 2.0 * kLeastDeficit)) {
        return Rivalry::None;
    }
    if (std::abs(rateOf(other) - rateOf(best)) <= kNearRateShare * rateOf(best)) {
        return Rivalry::Near;
    }
    // Close to half a turn a frame even the direction is in doubt.
    constexpr double kSafeShare = 0.8;
    const bool isAlias = turnsPerFrameOf(analysis, best) <= kSafeShare * kMostTurnsPerFrame &&
                         turnsPerFrameOf(analysis, other) > kMostTurnsPerFrame;
    return isAlias ? Rivalry::Alias : Rivalry::Rival;
}

/// The best one turns as stated, and this one the other way.
bool isAgainstSense(const FitInput& input, const ShotAnalysis& analysis, const RankedFit& other) {
    return senseOf(input, analysis.ranked.front()) >= kClearSense &&
           senseOf(input, other) <= -kClearSense;
}

Rivalry rivalryOf(const FitInput& input, const ShotAnalysis& analysis, const RankedFit& other) {
    return isAgainstSense(input, analysis, other) ? Rivalry::None
                                                  : rivalryInPictures(analysis, other);
}

/// The strongest of the minima that only the stated sense rules out, null when there is none.
const RankedFit* ruledOutBySense(const FitInput& input, const ShotAnalysis& analysis) {
    const RankedFit* strongest = nullptr;
    for (std::size_t i = 1; i < analysis.ranked.size(); ++i) {
        const RankedFit& other = analysis.ranked[i];
        if (isAgainstSense(input, analysis, other) &&
            rivalryInPictures(analysis, other) != Rivalry::None &&
            (strongest == nullptr || other.againstBest.deficit < strongest->againstBest.deficit)) {
            strongest = &other;
        }
    }
    return strongest;
}

/// The strongest of the minima that mean this, null when there is none.
const RankedFit* strongestOf(const FitInput& input, const ShotAnalysis& analysis, Rivalry rivalry) {
    const RankedFit* strongest = nullptr;
    for (std::size_t i = 1; i < analysis.ranked.size(); ++i) {
        const RankedFit& other = analysis.ranked[i];
        if (rivalryOf(input, analysis, other) == rivalry &&
            (strongest == nullptr || other.againstBest.deficit < strongest->againstBest.deficit)) {
            strongest = &other;
        }
    }
    return strongest;
}

/// A standard uncertainty of half the way to the farthest near minimum: if both are as likely, the
/// 95 % interval about the one holds the other.
double nearRatesSigma(const FitInput& input, const ShotAnalysis& analysis) {
    double sigma = 0.0;
    for (std::size_t i = 1; i < analysis.ranked.size(); ++i) {
        const RankedFit& other = analysis.ranked[i];
        if (rivalryOf(input, analysis, other) == Rivalry::Near) {
            sigma =
                std::max(sigma, 0.5 * std::abs(rateOf(other) - rateOf(analysis.ranked.front())));
        }
    }
    return sigma;
}

/// Deficit of the strongest minimum with another rate; the other minima are the same one found
/// again.
std::optional<double> uniquenessOf(const FitInput& input, const ShotAnalysis& analysis) {
    constexpr double kSameRateShare = 0.01;
    std::optional<double> least;
    const double rate = rateOf(analysis.ranked.front());
    for (std::size_t i = 1; i < analysis.ranked.size(); ++i) {
        const RankedFit& other = analysis.ranked[i];
        if (!isAgainstSense(input, analysis, other) &&
            std::abs(rateOf(other) - rate) > kSameRateShare * rate &&
            (!least || other.againstBest.deficit < *least)) {
            least = other.againstBest.deficit;
        }
    }
    return least;
}

/// alongSigma: a further standard uncertainty of the rate, rad/s.
void addRate(const JackknifeResult& spread, const Eigen::Vector3d& omega, double alongSigma,
             FitOutcome& outcome) {
    const double rate = omega.norm();
    const Eigen::Vector3d axis = omega / rate;
    const Eigen::Matrix3d covariance = widened(spread.covariance.topLeftCorner<3, 3>(), omega) +
                                       alongSigma * alongSigma * axis * axis.transpose();
    const double along = axis.dot(covariance * axis);
    outcome.angularVelocity = toVector(omega);
    for (Eigen::Index i = 0; i < 3; ++i) {
        for (Eigen::Index j = 0; j < 3; ++j) {
            outcome.covariance[static_cast<std::size_t>(i)][static_cast<std::size_t>(j)] =
                covariance(i, j);
        }
    }
    outcome.rate = {toRpm({rate}), toRpm({std::sqrt(along)})};
    outcome.axisSigma = {std::sqrt(std::max(0.0, covariance.trace() - along) / 2.0) / rate};
    const boost::math::students_t student{spread.degreesOfFreedom};
    const double reach = boost::math::quantile(student, 0.975) * outcome.rate.sigma.rpm;
    outcome.interval95 = {{outcome.rate.value.rpm - reach}, {outcome.rate.value.rpm + reach}};
}

/// Rate, covariance, interval, field of view.
void addNumbers(const FitInput& input, const FocalPrior& prior, const ShotAnalysis& analysis,
                FitOutcome& outcome) {
    const RankedFit& best = analysis.ranked.front();
    const JackknifeResult spread = jackknife(best.fit);
    addRate(spread, best.fit.state().angularVelocity, nearRatesSigma(input, analysis), outcome);
    const double half = 0.5 * std::max(input.camera.widthPx, input.camera.heightPx);
    const double logFocal = best.fit.state().logFocal;
    const double angle = 2.0 * std::atan(half / std::exp(logFocal));
    const double sigma = std::sqrt(spread.covariance(3, 3));
    outcome.fieldOfView.value = {{angle}, {std::sin(angle) * sigma}};
    // What the shot alone says: the prior's pull taken off again.
    const double posterior = solveReduced(best.fit).covariance(3, 3);
    const double share = 1.0 - posterior / (prior.sigma * prior.sigma);
    if (share > 0.1) {
        outcome.fieldOfView.logFocal = prior.logFocal + (logFocal - prior.logFocal) / share;
        outcome.fieldOfView.logFocalSigma = sigma / share;
    }
}

/// Weight of a row of the unrolled map: its area, and zero where no turn brings it before the
/// camera, since the surface there is a guess. Perspective changes the line of sight little.
double rowWeight(double colatitude, const Vector3& axis) {
    const double toCamera = std::acos(-axis.z / std::hypot(axis.x, axis.y, axis.z));
    const double nearest = std::abs(colatitude - toCamera);
    return std::cos(nearest) > kLeastFacing ? std::sin(colatitude) : 0.0;
}

/// How much the surface looks the same after half a turn about the axis: correlation of the
/// unrolled map with itself half a width on, 1 for a perfect likeness.
double halfTurnLikeness(SurfacePattern pattern, const Vector3& axis) {
    pattern.degree = std::min(pattern.degree, kLikenessDegree);
    const auto coefficients = static_cast<std::size_t>((pattern.degree + 1) * (pattern.degree + 1));
    for (auto& colour : pattern.redGreenBlue) {
        colour.resize(coefficients);
    }
    const PixelBuffer map = pattern.unrolled(axis, kLikenessRows);
    const int half = map.width() / 2;
    double weights = 0.0;
    std::array<double, 3> means{};
    const auto forEach = [&map, &axis](auto&& use) {
        for (int y = 0; y < map.height(); ++y) {
            const double weight = rowWeight(kPi * (y + 0.5) / map.height(), axis);
            for (int x = 0; x < map.width(); ++x) {
                use(map.row(y), x, weight);
            }
        }
    };
    forEach([&](const std::uint8_t* row, int x, double weight) {
        weights += weight;
        for (std::size_t c = 0; c < 3; ++c) {
            means[c] += weight * row[3 * static_cast<std::size_t>(x) + c];
        }
    });
    double together = 0.0;
    double alone = 0.0;
    forEach([&](const std::uint8_t* row, int x, double weight) {
        const auto here = 3 * static_cast<std::size_t>(x);
        const auto there = 3 * static_cast<std::size_t>((x + half) % map.width());
        for (std::size_t c = 0; c < 3; ++c) {
            const double value = row[here + c] - means[c] / weights;
            together += weight * value * (row[there + c] - means[c] / weights);
            alone += weight * value * value;
        }
    });
    return alone > 0.0 ? together / alone : 0.0;
}

/// Told, or seen on the surface: a band looks the same after half a turn whoever says what.
int symmetryOf(const FitInput& input, const FitOutcome& outcome) {
    const int told = input.options.markingSymmetry;
    const bool isSeen =
        told == 1 && halfTurnLikeness(outcome.pattern, outcome.angularVelocity) > kTwinLikeness;
    return isSeen ? 2 : told;
}

void addCandidates(const FitInput& input, const ShotAnalysis& analysis, FitOutcome& outcome) {
    for (const RankedFit& ranked : analysis.ranked) {
        const Eigen::Vector3d omega = ranked.fit.state().angularVelocity;
        const bool isBest = &ranked == &analysis.ranked.front();
        outcome.candidates.push_back({isBest ? CandidateKind::Best : CandidateKind::Minimum,
                                      toVector(omega), toRpm({omega.norm()}),
                                      ranked.againstBest.ratio, ranked.againstBest.deficit});
    }
    if (!analysis.isEvenlySpaced) {
        return;
    }
    const Eigen::Vector3d omega = analysis.ranked.front().fit.state().angularVelocity;
    const Eigen::Vector3d axis = omega.normalized();
    const double turnPerFrame = 2.0 * kPi / analysis.frameInterval;
    const auto add = [&](CandidateKind kind, double rate) {
        outcome.candidates.push_back(
            {kind, toVector(rate * axis), toRpm({std::abs(rate)}), std::nullopt, std::nullopt});
    };
    const int symmetry = symmetryOf(input, outcome);
    for (int m = 1; m < symmetry; ++m) {
        const double part = turnPerFrame * m / symmetry;
        add(CandidateKind::Twin, omega.norm() - part);
        add(CandidateKind::Twin, omega.norm() + part);
    }
    add(CandidateKind::Alias, omega.norm() - turnPerFrame);
    add(CandidateKind::Alias, omega.norm() + turnPerFrame);
}

bool isMarkingShown(double explainedShare, const PredictionContrast& againstPlain) {
    return explainedShare >= kWellExplained ||
           (explainedShare >= kLeastExplained && againstPlain.deficit >= kClearlyExplained);
}

std::string reasonAgainst(const FitInput& input, const ShotAnalysis& analysis,
                          const FitOutcome& outcome) {
    if (outcome.smearDegrees > kWidestSmearDegrees) {
        return said(
            "The ball turns {:.0f} degrees while the shutter is open, which smears the marking; a "
            "fit needs less than {:.0f}.",
            outcome.smearDegrees, kWidestSmearDegrees);
    }
    if (!isMarkingShown(outcome.explainedShare, analysis.againstPlain)) {
        return said(
            "The marking does not show: turning the ball's surface predicts only {:.0f} % of what "
            "a "
            "plain ball leaves unexplained.",
            100.0 * std::max(0.0, outcome.explainedShare));
    }
    if (const RankedFit* rival = strongestOf(input, analysis, Rivalry::Rival)) {
        return said("Two rates explain the pictures about equally well: {:.0f} and {:.0f} rpm.",
                    outcome.rate.value.rpm, toRpm({rateOf(*rival)}).rpm);
    }
    if (outcome.rate.sigma.rpm > kLargestSigmaShare * outcome.rate.value.rpm) {
        return said(
            "The rate is too uncertain: {:.0f} rpm with a standard uncertainty of {:.0f} rpm. The "
            "marking may be nearly symmetric about the axis of the spin.",
            outcome.rate.value.rpm, outcome.rate.sigma.rpm);
    }
    return {};
}

/// What few frames a turn leave open, and what a stated sense does about it.
void saySense(const FitInput& input, const ShotAnalysis& analysis, FitOutcome& outcome) {
    const auto& stated = input.options.sense;
    const double sense = senseOf(input, analysis.ranked.front());
    const bool isFew = outcome.turnsPerFrame * kFewFramesPerTurn > 1.0;
    if (const RankedFit* other = ruledOutBySense(input, analysis)) {
        outcome.restsOnSense = true;
        outcome.warnings.push_back(said(
            "The pictures leave {:.0f} rpm, and {:.0f} rpm the other way. The stroke, stated as "
            "{}, decides for the first.",
            outcome.rate.value.rpm, toRpm({rateOf(*other)}).rpm, saidText(stated->word)));
    } else if (isFew && sense >= kClearSense) {
        outcome.restsOnSense = true;
        outcome.warnings.push_back(
            said("Only {:.1f} frames a turn: a faster spin the other way would look the "
                 "same. The stroke, stated as {}, decides against it.",
                 1.0 / outcome.turnsPerFrame, saidText(stated->word)));
    } else if (isFew) {
        outcome.warnings.push_back(
            said("Only {:.1f} frames a turn: a faster spin the other way would look the same.",
                 1.0 / outcome.turnsPerFrame));
    }
    if (sense <= -kClearSense) {
        outcome.warnings.push_back(
            said("The pictures show the opposite of {}, the stated stroke. Check whether the "
                 "stroke is right.",
                 saidText(stated->word)));
    }
}

}  // namespace

FitOutcome refusal(std::string reason) {
    FitOutcome outcome;
    outcome.reason = std::move(reason);
    return outcome;
}

FitOutcome judge(const FitInput& input, const FocalPrior& prior, const ShotAnalysis& analysis) {
    const KeptSpeech english;  // the outcome is kept with the pictures
    FitOutcome outcome;
    const RankedFit& best = analysis.ranked.front();
    addNumbers(input, prior, analysis, outcome);
    addPattern(best, outcome);
    addFrames(input, best, outcome);
    addCandidates(input, analysis, outcome);
    outcome.explainedShare = 1.0 - best.totalError / analysis.plainError;
    double weight = 0.0;
    for (const FrameSamples& frame : analysis.samples.frames) {
        weight += static_cast<double>(frame.weight.sum());
    }
    outcome.residualRms = std::sqrt(best.totalError / weight);
    outcome.uniqueness = uniquenessOf(input, analysis);
    const double rate = rateOf(best);
    outcome.turnsPerFrame = rate * analysis.frameInterval / (2.0 * kPi);
    outcome.smearDegrees = toDegrees({rate * analysis.samples.exposure});
    saySense(input, analysis, outcome);
    if (const RankedFit* alias = strongestOf(input, analysis, Rivalry::Alias)) {
        outcome.warnings.push_back(
            said("A spin of {:.0f} rpm, more than half a turn between frames, would look "
                 "about the same.",
                 toRpm({rateOf(*alias)}).rpm));
    }
    if (outcome.smearDegrees > kWideSmearDegrees) {
        outcome.warnings.push_back(
            said("The ball turns {:.0f} degrees while the shutter is open.", outcome.smearDegrees));
    }
    outcome.reason = reasonAgainst(input, analysis, outcome);
    outcome.status = outcome.reason.empty() ? FitStatus::Reading : FitStatus::NoReading;
    return outcome;
}

}  // namespace core::spin::fit
