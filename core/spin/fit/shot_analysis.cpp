#include "core/spin/fit/shot_analysis.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/spin/fit/spin_search.h"

namespace core::spin::fit {

namespace {

// Phones film with 45 to 80 degrees across: ln tan(half the angle) is -0.88 to -0.17. A Gaussian
// with the spread of the even distribution over that range.
constexpr double kPhoneLogTan = -0.53;
constexpr double kPhoneLogTanSigma = 0.20;

constexpr FitDegrees kCoarseDegrees{4, 4};
constexpr FitDegrees kRankingDegrees{7, 6};
// Sharp edges cut off at a low degree pull at the geometry: between degree 8 and 11 the median
// error of the rate fell by a third and that of the axis by a fifth.
constexpr FitDegrees kFinalDegrees{11, 8};
constexpr FitDegrees kPlainDegrees{0, kFinalDegrees.mirrored};
constexpr int kSearchPeaks = 16;
constexpr std::size_t kSearchFrames = 26;  // more make the rate step needlessly fine
constexpr std::size_t kFineFits = 4;
constexpr double kWorthRefining = 2.0;  // coarse error over the best one's
constexpr double kWorthPolishing = 1.4;
constexpr std::size_t kMostPolished = 3;
constexpr int kRankingSteps = 5;
constexpr int kMostSteps = 6;
constexpr int kFewestSteps = 3;
constexpr double kRoughlyConverged = 3e-3;
constexpr double kConverged = 3e-4;   // rad over half the shot: a hundredth of usual scatter
constexpr double kSureDeficit = 6.0;  // what it takes to believe in over half a turn a frame
constexpr double kSureRatio = 1.5;
constexpr double kSameAxisCosine = 0.9;
constexpr double kSameTurns = 0.3;  // over the shot

std::vector<SeenFrame> seenFramesOf(const ShotSamples& shot) {
    std::vector<SeenFrame> all;
    for (const FrameSamples& frame : shot.frames) {
        all.push_back(seenBy(shot.camera, frame.place, frame));
    }
    return all;
}

/// Takes off what stands still where the ball mirrors it, a least-squares fit: a start that only
/// holds lamps and windows in place is none. first: of the shot's frames.
void takeOffMirrored(const ShotSamples& shot, std::size_t first, std::vector<SearchFrame>& frames) {
    constexpr double kRidge = 1e-4;  // of the weight
    const HarmonicBasis basis{kFinalDegrees.mirrored};
    Eigen::MatrixXd gram = Eigen::MatrixXd::Zero(basis.size(), basis.size());
    Eigen::MatrixXd right = Eigen::MatrixXd::Zero(basis.size(), frames.front().colour.cols());
    std::vector<Eigen::MatrixXf> values;
    double weight = 0.0;
    for (std::size_t f = 0; f < frames.size(); ++f) {
        const Eigen::Vector3d centre = ballCentre(shot.camera, shot.frames[first + f].place);
        values.push_back(basis.at(mirrorDirections(frames[f].direction, centre)));
        const Eigen::MatrixXf weighted = frames[f].weight.asDiagonal() * values.back();
        gram += (values.back().transpose() * weighted).cast<double>();
        right += (weighted.transpose() * frames[f].colour).cast<double>();
        weight += static_cast<double>(frames[f].weight.sum());
    }
    gram.diagonal().array() += kRidge * weight;
    const Eigen::MatrixXf fitted = gram.llt().solve(right).cast<float>();
    for (std::size_t f = 0; f < frames.size(); ++f) {
        frames[f].colour -= values[f] * fitted;
    }
}

/// Frames for the search: light over shading about its mean, a run from the middle of the shot. A
/// sample stands for the place that it shows in the middle of its time.
std::vector<SearchFrame> searchFrames(const ShotSamples& shot, const ShotLight& light,
                                      const std::vector<SeenFrame>& seen) {
    const std::size_t count = std::min(kSearchFrames, shot.frames.size());
    const std::size_t first = (shot.frames.size() - count) / 2;
    std::vector<SearchFrame> frames;
    Eigen::RowVectorXf sum = Eigen::RowVectorXf::Zero(light.channels());
    float weight = 0.0F;
    for (std::size_t f = first; f < first + count; ++f) {
        const FrameSamples& samples = shot.frames[f];
        const Eigen::VectorXf shading = meanShading(light, seen[f]);
        const MovingBall ball{shot.camera, samples.place, samples.smearPx};
        SearchFrame frame{samples.time, ball.seenBy(samples, {0.0, 1.0}),
                          shading.cwiseInverse().asDiagonal() * reflected(light, f, seen[f]),
                          samples.weight.cwiseProduct(samples.cover.cwiseAbs2())};
        sum += frame.weight.transpose() * frame.colour;
        weight += frame.weight.sum();
        frames.push_back(std::move(frame));
    }
    for (SearchFrame& frame : frames) {
        frame.colour.rowwise() -= sum / weight;
    }
    takeOffMirrored(shot, first, frames);
    return frames;
}

struct Draft {
    RotationState state;
    double error{};
};

bool isSame(const Eigen::Vector3d& a, const Eigen::Vector3d& b, double duration) {
    return a.dot(b) > kSameAxisCosine * a.norm() * b.norm() &&
           std::abs(a.norm() - b.norm()) * duration < 2.0 * kPi * kSameTurns;
}

double sumOf(const std::vector<double>& values) {
    return std::accumulate(values.begin(), values.end(), 0.0);
}

/// Refines each start on coarse samples and keeps the distinct ones, best first. A start that soon
/// comes near to where another one ended goes no further: it would end there too.
std::vector<Draft> refineDrafts(const ShotSamples& shot, const ShotLight& light,
                                const RotationPriors& priors,
                                const std::vector<Eigen::Vector3d>& starts) {
    const double duration = shot.frames.back().time - shot.frames.front().time;
    std::vector<Draft> drafts;
    const auto isKnown = [&](const PatternFit& fit) {
        return std::any_of(drafts.begin(), drafts.end(), [&](const Draft& draft) {
            return isSame(draft.state.angularVelocity, fit.state().angularVelocity, duration);
        });
    };
    for (const Eigen::Vector3d& start : starts) {
        PatternFit fit{shot, light, kCoarseDegrees, priors,
                       RotationState{start, priors.logFocal,
                                     std::vector<Eigen::Vector2d>(shot.frames.size(),
                                                                  Eigen::Vector2d::Zero())}};
        fit.step();
        fit.step();
        if (isKnown(fit)) {
            continue;
        }
        fit.linearise();
        fit.refreshNuisance();
        fit.step();
        if (isKnown(fit)) {
            continue;
        }
        fit.linearise();
        fit.refreshNuisance();
        fit.step();
        fit.linearise();
        drafts.push_back({fit.state(), sumOf(predictFrames(fit))});
    }
    std::sort(drafts.begin(), drafts.end(),
              [](const Draft& a, const Draft& b) { return a.error < b.error; });
    std::vector<Draft> distinct;
    for (const Draft& draft : drafts) {
        if (std::none_of(distinct.begin(), distinct.end(), [&](const Draft& d) {
                return isSame(d.state.angularVelocity, draft.state.angularVelocity, duration);
            })) {
            distinct.push_back(draft);
        }
    }
    return distinct;
}

RankedFit ranked(PatternFit fit) {
    fit.linearise();
    std::vector<double> errors = predictFrames(fit);
    const double total = sumOf(errors);
    return {std::move(fit), std::move(errors), total, {}};
}

RankedFit refine(const ShotSamples& shot, const ShotLight& light, const RotationPriors& priors,
                 const Draft& draft) {
    RotationState start = draft.state;
    start.shiftPx.assign(shot.frames.size(), Eigen::Vector2d::Zero());
    PatternFit fit{shot, light, kRankingDegrees, priors, std::move(start)};
    fit.linearise();
    fit.refreshNuisance();
    for (int i = 0; i < kRankingSteps; ++i) {
        const double turned = fit.step();
        fit.refreshNuisance();
        if (i > 0 && turned < kRoughlyConverged) {
            break;
        }
    }
    return ranked(std::move(fit));
}

RankedFit polish(const PatternFit& rough) {
    PatternFit fit{rough.shot(), rough.light(), kFinalDegrees, rough.priors(), rough.state()};
    fit.linearise();
    fit.refreshNuisance();
    for (int i = 0; i < kMostSteps; ++i) {
        const double turned = fit.step();
        if (i + 1 >= kFewestSteps && turned < kConverged) {
            break;
        }
        fit.refreshNuisance();
        if (i == 1) {
            fit.setInflation(std::max(kLeastInflation, fit.attitudeInflation()));
        }
    }
    return ranked(std::move(fit));
}

bool isBetter(const RankedFit& a, const RankedFit& b) {
    return a.totalError < b.totalError;
}

/// Compares at the ranking degree, polishes those that may win, and ranks these anew.
void polishAndRank(std::vector<RankedFit>& fits) {
    std::sort(fits.begin(), fits.end(), isBetter);
    for (std::size_t i = 1; i < fits.size(); ++i) {
        fits[i].againstBest =
            comparePredictions(fits.front().predictionErrors, fits[i].predictionErrors);
    }
    const double worth = kWorthPolishing * fits.front().totalError;
    std::size_t count = 0;
    while (count < std::min(kMostPolished, fits.size()) && fits[count].totalError <= worth) {
        fits[count] = polish(fits[count].fit);
        ++count;
    }
    const auto end = fits.begin() + static_cast<std::ptrdiff_t>(count);
    std::sort(fits.begin(), end, isBetter);
    for (std::size_t i = 1; i < count; ++i) {
        fits[i].againstBest =
            comparePredictions(fits.front().predictionErrors, fits[i].predictionErrors);
    }
}

/// A minimum within half a turn a frame comes before one beyond unless the pictures leave no doubt.
void preferSlower(ShotAnalysis& analysis) {
    auto& fits = analysis.ranked;
    const auto isFast = [&](const RankedFit& ranked) {
        return ranked.fit.state().angularVelocity.norm() * analysis.frameInterval >
               2.0 * kPi * kMostTurnsPerFrame;
    };
    if (!isFast(fits.front())) {
        return;
    }
    const auto slow = std::find_if(fits.begin() + 1, fits.end(), [&](const RankedFit& other) {
        return !isFast(other) &&
               (other.againstBest.deficit < kSureDeficit || other.againstBest.ratio < kSureRatio);
    });
    if (slow != fits.end()) {
        std::rotate(fits.begin(), slow, slow + 1);
        for (RankedFit& fit : fits) {
            fit.againstBest =
                comparePredictions(fits.front().predictionErrors, fit.predictionErrors);
        }
    }
}

/// What too few frames a turn hide behind the best one: the alias that turns as stated.
void addAliasOfSense(const FitInput& input, ShotAnalysis& analysis) {
    const RankedFit& best = analysis.ranked.front();
    const double rate = best.fit.state().angularVelocity.norm();
    const double turn = 2.0 * kPi / analysis.frameInterval;
    if (!analysis.isEvenlySpaced || senseOf(input, best) > -kClearSense ||
        kFewFramesPerTurn * rate <= turn) {
        return;
    }
    RotationState state = best.fit.state();
    state.angularVelocity *= (rate - turn) / rate;
    PatternFit alias{best.fit.shot(), best.fit.light(), best.fit.degrees(), best.fit.priors(),
                     std::move(state)};
    alias.linearise();
    alias.refreshNuisance();
    RankedFit fit = polish(alias);
    fit.againstBest = comparePredictions(best.predictionErrors, fit.predictionErrors);
    analysis.ranked.push_back(std::move(fit));
}

/// Of minima that the pictures cannot tell apart, one that turns as stated comes first.
void preferSense(const FitInput& input, ShotAnalysis& analysis) {
    auto& fits = analysis.ranked;
    if (senseOf(input, fits.front()) > -kClearSense) {
        return;
    }
    addAliasOfSense(input, analysis);
    auto chosen = fits.end();
    for (auto other = fits.begin() + 1; other != fits.end(); ++other) {
        const bool isMeant =
            senseOf(input, *other) >= kClearSense && !isDecided(other->againstBest);
        if (isMeant &&
            (chosen == fits.end() || other->againstBest.deficit < chosen->againstBest.deficit)) {
            chosen = other;
        }
    }
    if (chosen != fits.end()) {
        std::rotate(fits.begin(), chosen, chosen + 1);
        for (RankedFit& fit : fits) {
            fit.againstBest =
                comparePredictions(fits.front().predictionErrors, fit.predictionErrors);
        }
    }
}

void measureSpacing(ShotAnalysis& analysis) {
    const auto& frames = analysis.samples.frames;
    analysis.frameInterval = frames.back().time - frames.front().time;
    for (std::size_t f = 1; f < frames.size(); ++f) {
        analysis.frameInterval =
            std::min(analysis.frameInterval, frames[f].time - frames[f - 1].time);
    }
    analysis.isEvenlySpaced = true;
    for (std::size_t f = 1; f < frames.size(); ++f) {
        const double steps = (frames[f].time - frames.front().time) / analysis.frameInterval;
        // A thirtieth of an interval off: an alias would be out by 12 degrees there, and be seen.
        analysis.isEvenlySpaced &= std::abs(steps - std::round(steps)) < 1.0 / 30.0;
    }
}

/// What a ball of one colour would leave unexplained that mirrors its surroundings as well as the
/// best one does.
void comparePlainBall(ShotAnalysis& analysis) {
    const RankedFit& best = analysis.ranked.front();
    PatternFit plain{best.fit.shot(), best.fit.light(), kPlainDegrees, best.fit.priors(),
                     best.fit.state()};
    plain.linearise();
    plain.refreshNuisance();
    plain.linearise();
    const std::vector<double> errors = predictFrames(plain);
    analysis.plainError = sumOf(errors);
    analysis.againstPlain = comparePredictions(best.predictionErrors, errors);
}

std::vector<Eigen::Vector3d> searchStarts(const FitInput& input, const ShotSamples& coarse,
                                          const ShotLight& light,
                                          const std::vector<SeenFrame>& seen,
                                          const ShotAnalysis& analysis, std::stop_token stop) {
    const Interval<Rpm>& range = input.options.searchRange;
    double high = toRadiansPerSecond(range.high).radiansPerSecond;
    if (analysis.isEvenlySpaced) {
        high = std::min(high, kPi / analysis.frameInterval);
    }
    const auto peaks = searchRotation(searchFrames(coarse, light, seen),
                                      {toRadiansPerSecond(range.low), {high}}, kSearchPeaks, stop);
    std::vector<Eigen::Vector3d> starts;
    for (const SearchPeak& peak : peaks) {
        starts.push_back(peak.angularVelocity);
    }
    // The half-turn twin of the best: a band looks the same after half a turn.
    if (!starts.empty() && analysis.isEvenlySpaced) {
        const double rate = starts.front().norm();
        const Eigen::Vector3d axis = starts.front() / rate;
        starts.push_back((rate - kPi / analysis.frameInterval) * axis);
    }
    return starts;
}

}  // namespace

double senseOf(const FitInput& input, const RankedFit& ranked) {
    if (!input.options.sense) {
        return 0.0;
    }
    const Vector3& stated = input.options.sense->along;
    const Eigen::Vector3d along(stated.x, stated.y, stated.z);
    const Eigen::Vector3d& spin = ranked.fit.state().angularVelocity;
    const double length = along.norm() * spin.norm();
    return length > 0.0 ? along.dot(spin) / length : 0.0;
}

FocalPrior focalPriorOf(const FitCamera& camera) {
    const double half = 0.5 * std::max(camera.widthPx, camera.heightPx);
    if (!camera.fieldOfView) {
        return {std::log(half) - kPhoneLogTan, kPhoneLogTanSigma};
    }
    const double angle = camera.fieldOfView->value.radians;
    // d ln tan(a/2) / da = 1/sin a; a tiny spread keeps the equations regular.
    return {std::log(half / std::tan(0.5 * angle)),
            std::max(1e-4, camera.fieldOfView->sigma.radians / std::sin(angle))};
}

void analyseShot(const FitInput& input, const FocalPrior& prior, std::stop_token stop,
                 const FitProgress& progress, ShotAnalysis& analysis) {
    const RotationPriors priors{prior.logFocal, prior.sigma};
    const ShotSamples coarse = collectSamples(input, std::exp(prior.logFocal), kCoarseBlocks);
    const auto seenCoarsely = seenFramesOf(coarse);
    const ShotLight coarseLight = lightFromMean(coarse, seenCoarsely);
    measureSpacing(analysis);
    const auto seen = seenFramesOf(analysis.samples);
    const ShotLight fineLight = lightFromMean(analysis.samples, seen);
    const auto report = [&](double share) {
        if (progress) {
            progress(share);
        }
    };
    const auto tried = searchStarts(input, coarse, coarseLight, seenCoarsely, analysis, stop);
    report(0.3);
    if (stop.stop_requested()) {
        return;
    }
    const std::vector<Draft> drafts = refineDrafts(coarse, coarseLight, priors, tried);
    for (std::size_t i = 0; i < std::min(kFineFits, drafts.size()); ++i) {
        report(0.5 + 0.1 * static_cast<double>(i));
        if (stop.stop_requested()) {
            analysis.ranked.clear();
            return;
        }
        if (i < 2 || drafts[i].error < kWorthRefining * drafts.front().error) {
            analysis.ranked.push_back(refine(analysis.samples, fineLight, priors, drafts[i]));
        }
    }
    polishAndRank(analysis.ranked);
    preferSlower(analysis);
    if (input.options.sense && !analysis.ranked.empty()) {
        preferSense(input, analysis);
    }
    if (!analysis.ranked.empty()) {
        comparePlainBall(analysis);
    }
}

}  // namespace core::spin::fit
