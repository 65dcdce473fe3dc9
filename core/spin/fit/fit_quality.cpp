#include "core/spin/fit/fit_quality.h"

#include <Eigen/Cholesky>
#include <Eigen/LU>
#include <algorithm>
#include <cmath>
#include <numeric>

#include "core/spin/fit/rotation.h"

namespace core::spin::fit {

std::vector<double> predictFrames(const PatternFit& fit) {
    const auto& equations = fit.equations();
    Eigen::MatrixXd gram = fit.ridge().asDiagonal();
    Eigen::MatrixXd right =
        Eigen::MatrixXd::Zero(fit.coefficients().rows(), fit.coefficients().cols());
    for (const FrameEquations& eq : equations) {
        gram += eq.gram;
        right += eq.right;
    }
    std::vector<double> errors;
    for (std::size_t f = 0; f < equations.size(); ++f) {
        const Eigen::MatrixXd c =
            (gram - equations[f].gram).llt().solve(right - equations[f].right);
        errors.push_back(fit.squaredError(f, c));
    }
    return errors;
}

namespace {

// Set on rendered shots of varied conditions: readings beyond 5 % with these limits in force are
// below 0.5 %.
constexpr double kLeastRatio = 1.04;  // by which factor the next minimum's error must be larger

}  // namespace

bool isDecided(const PredictionContrast& against) noexcept {
    return against.deficit >= kLeastDeficit && against.ratio >= kLeastRatio;
}

PredictionContrast comparePredictions(const std::vector<double>& best,
                                      const std::vector<double>& other) {
    const auto n = static_cast<double>(best.size());
    constexpr double kNothing = 1e-30;  // a frame without any error
    std::vector<double> logRatios;
    for (std::size_t f = 0; f < best.size(); ++f) {
        logRatios.push_back(std::log(std::max(other[f], kNothing) / std::max(best[f], kNothing)));
    }
    const double mean = std::accumulate(logRatios.begin(), logRatios.end(), 0.0) / n;
    double variance = 0.0;
    for (const double ratio : logRatios) {
        variance += std::pow(ratio - mean, 2) / (n - 1.0);
    }
    const double sumBest = std::accumulate(best.begin(), best.end(), 0.0);
    const double sumOther = std::accumulate(other.begin(), other.end(), 0.0);
    return {sumOther / sumBest, mean / std::sqrt(std::max(variance / n, kNothing))};
}

namespace {

constexpr int kLongestRun = 3;    // runs of one to three frames are left out
constexpr int kFewestGroups = 6;  // fewer give no variance worth the name

using GlobalMatrix = Eigen::Matrix<double, kGlobalUnknowns, kGlobalUnknowns>;

/// Delete-group jackknife with groups of `length` neighbouring frames.
GlobalMatrix groupJackknife(const PatternFit& fit, int length) {
    const int frames = static_cast<int>(fit.equations().size());
    std::vector<Eigen::Matrix<double, kGlobalUnknowns, 1>> changes;
    Eigen::Matrix<double, kGlobalUnknowns, 1> mean =
        Eigen::Matrix<double, kGlobalUnknowns, 1>::Zero();
    for (int first = 0; first < frames; first += length) {
        std::vector<int> without;
        for (int f = first; f < std::min(frames, first + length); ++f) {
            without.push_back(f);
        }
        changes.emplace_back(solveReduced(fit, without).change.head<kGlobalUnknowns>());
        mean += changes.back();
    }
    const auto groups = static_cast<double>(changes.size());
    mean /= groups;
    GlobalMatrix covariance = GlobalMatrix::Zero();
    for (const auto& change : changes) {
        covariance += (groups - 1.0) / groups * (change - mean) * (change - mean).transpose();
    }
    return covariance;
}

/// Covariance of the global unknowns from what the centres' errors have in common: a track is a
/// smooth path, so that its error is one too and leaving frames out does not show it. An error of
/// third degree in time is four independent parts (Legendre's polynomials), each with a quarter of
/// the centres' variance. full: of all frames.
GlobalMatrix fromSmoothCentreErrors(const PatternFit& fit, const ReducedStep& full) {
    const auto& frames = fit.shot().frames;
    const double middle = 0.5 * (frames.front().time + frames.back().time);
    const double half = 0.5 * (frames.back().time - frames.front().time);
    GlobalMatrix covariance = GlobalMatrix::Zero();
    for (Eigen::Index coordinate = 0; coordinate < 2; ++coordinate) {
        Eigen::Matrix<double, kGlobalUnknowns, 4> follow =
            Eigen::Matrix<double, kGlobalUnknowns, 4>::Zero();
        for (std::size_t f = 0; f < frames.size(); ++f) {
            const double t = (frames[f].time - middle) / half;
            const Eigen::RowVector4d parts{1.0, std::sqrt(3.0) * t,
                                           std::sqrt(5.0) * (1.5 * t * t - 0.5),
                                           std::sqrt(7.0) * (2.5 * t * t * t - 1.5 * t)};
            // A centre that is known to be elsewhere by e pulls with e / variance.
            const double pull = 0.5 / std::max(kLeastCentrePx, frames[f].centreSigmaPx);
            const Eigen::Index own =
                kGlobalUnknowns + 2 * static_cast<Eigen::Index>(f) + coordinate;
            follow += pull * full.covariance.col(own).head<kGlobalUnknowns>() * parts;
        }
        covariance += follow * follow.transpose();
    }
    return covariance;
}

}  // namespace

JackknifeResult jackknife(const PatternFit& fit) {
    const int frames = static_cast<int>(fit.equations().size());
    const int shortest = std::max(1, (frames + 23) / 24);  // at most two dozen solutions
    JackknifeResult result;
    double largest = -1.0;
    for (int length = shortest; length <= kLongestRun * shortest; ++length) {
        const int groups = (frames + length - 1) / length;
        if (length > shortest && groups < kFewestGroups) {
            break;
        }
        const GlobalMatrix covariance = groupJackknife(fit, length);
        const Eigen::Vector3d& omega = fit.state().angularVelocity;
        const double along = omega.dot(covariance.topLeftCorner<3, 3>() * omega);
        if (along > largest) {
            largest = along;
            result.covariance = covariance;
        }
    }
    result.degreesOfFreedom = std::max(1.0, (frames + shortest - 1) / shortest - 3.0);
    // What is known from outside does not scatter when frames are left out: the field of view's
    // prior, and the radius, which is held. covariance(:, j)/covariance(j, j) is how the others
    // follow j.
    const ReducedStep full = solveReduced(fit, {});
    const auto columnOf = [&](Eigen::Index unknown) {
        return Eigen::Matrix<double, kGlobalUnknowns, 1>{
            full.covariance.col(unknown).head<kGlobalUnknowns>()};
    };
    if (fit.priors().logFocalSigma > 0.0) {
        const double sigma = fit.priors().logFocalSigma;
        const auto column = columnOf(3);
        result.covariance += column * column.transpose() / (sigma * sigma);
        const Eigen::Matrix<double, kGlobalUnknowns, 1> follow = column / column(3);
        result.covariance +=
            follow * follow.transpose() * std::pow(std::min(kModelLogFocalSigma, sigma), 2);
    }
    result.covariance += fromSmoothCentreErrors(fit, full);
    const Eigen::Matrix<double, kGlobalUnknowns, 1> follow = columnOf(4) / full.covariance(4, 4);
    result.covariance += follow * follow.transpose() * std::pow(fit.shot().relativeRadiusSigma, 2);
    return result;
}

std::vector<Eigen::Vector3d> attitudeDeviations(const PatternFit& fit) {
    std::vector<Eigen::Vector3d> deviations;
    for (std::size_t f = 0; f < fit.equations().size(); ++f) {
        const FrameEquations& eq = fit.equations()[f];
        const double time = fit.shot().frames[f].time;
        const Eigen::Vector3d turn = fit.state().angularVelocity * time;
        // A small rotation e in camera coordinates changes the rotation vector by
        // d = (R J)^-1 e, and omega by d/t; no frame stands at t = 0.
        const Eigen::Matrix3d lever =
            (rotationFromVector(turn) * rightJacobian(turn) * time).inverse();
        const Eigen::Matrix3d info = lever.transpose() * eq.info.topLeftCorner<3, 3>() * lever +
                                     1e-9 * Eigen::Matrix3d::Identity();
        const Eigen::Vector3d gradient = lever.transpose() * eq.gradient.head<3>();
        deviations.emplace_back(info.ldlt().solve(gradient));
    }
    return deviations;
}

}  // namespace core::spin::fit
