#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "core/spin/fit/pattern_fit.h"

namespace core::spin::fit {

namespace {

constexpr double kHeld = 1e12;  // precision of a parameter that is held

/// Normal equations of the pattern's coefficients c and the nonlinear unknowns u:
/// [gram + ridge, cross; cross', info] [dc; du] = [pull; gradient].
struct JointSystem {
    Eigen::MatrixXd gram;
    Eigen::MatrixXd pull;   // coefficients x channels
    Eigen::MatrixXd cross;  // coefficients x (unknowns of channel 0, of channel 1, ...)
    Eigen::MatrixXd info;
    Eigen::VectorXd gradient;
};

void addFrame(const PatternFit& fit, std::size_t f, JointSystem& system) {
    const FrameEquations& eq = fit.equations()[f];
    const Eigen::Index own = kGlobalUnknowns + 2 * static_cast<Eigen::Index>(f);
    const Eigen::Index unknowns = system.gradient.size();
    system.gram += eq.gram;
    system.pull += eq.right - eq.gram * fit.coefficients();
    for (std::size_t k = 0; k < eq.cross.size(); ++k) {
        const Eigen::Index first = static_cast<Eigen::Index>(k) * unknowns;
        system.cross.middleCols(first, kGlobalUnknowns) += eq.cross[k].leftCols(kGlobalUnknowns);
        system.cross.middleCols(first + own, 2) += eq.cross[k].rightCols(2);
    }
    system.info.topLeftCorner<kGlobalUnknowns, kGlobalUnknowns>() +=
        eq.info.topLeftCorner<kGlobalUnknowns, kGlobalUnknowns>();
    system.info.block(0, own, kGlobalUnknowns, 2) += eq.info.topRightCorner<kGlobalUnknowns, 2>();
    system.info.block(own, 0, 2, kGlobalUnknowns) += eq.info.bottomLeftCorner<2, kGlobalUnknowns>();
    system.info.block(own, own, 2, 2) += eq.info.bottomRightCorner<2, 2>();
    system.gradient.head<kGlobalUnknowns>() += eq.gradient.head<kGlobalUnknowns>();
    system.gradient.segment<2>(own) += eq.gradient.tail<2>();
}

void addPriors(const PatternFit& fit, JointSystem& system) {
    for (std::size_t f = 0; f < fit.equations().size(); ++f) {
        const Eigen::Index own = kGlobalUnknowns + 2 * static_cast<Eigen::Index>(f);
        const double sigma = std::max(kLeastCentrePx, fit.shot().frames[f].centreSigmaPx);
        system.info.diagonal().segment<2>(own).array() += 1.0 / (sigma * sigma);
        system.gradient.segment<2>(own) -= fit.state().shiftPx[f] / (sigma * sigma);
    }
    const RotationPriors& priors = fit.priors();
    const double focal = priors.logFocalSigma > 0.0 ? std::pow(priors.logFocalSigma, -2) : kHeld;
    system.info(3, 3) += focal;
    system.gradient(3) -= focal * (fit.state().logFocal - priors.logFocal);
    system.info(4, 4) += kHeld;
}

}  // namespace

ReducedStep solveReduced(const PatternFit& fit, std::span<const int> without) {
    const auto frames = static_cast<Eigen::Index>(fit.equations().size());
    const Eigen::Index unknowns = kGlobalUnknowns + 2 * frames;
    const Eigen::Index channels = fit.coefficients().cols();
    JointSystem system{fit.ridge().asDiagonal(), -(fit.ridge().asDiagonal() * fit.coefficients()),
                       Eigen::MatrixXd::Zero(fit.coefficients().rows(), unknowns * channels),
                       Eigen::MatrixXd::Zero(unknowns, unknowns), Eigen::VectorXd::Zero(unknowns)};
    for (int f = 0; f < frames; ++f) {
        if (std::find(without.begin(), without.end(), f) == without.end()) {
            addFrame(fit, static_cast<std::size_t>(f), system);
        }
    }
    addPriors(fit, system);
    const Eigen::LLT<Eigen::MatrixXd> factor{system.gram};
    const Eigen::MatrixXd half = factor.matrixL().solve(system.cross);
    const Eigen::MatrixXd halfPull = factor.matrixL().solve(system.pull);
    for (Eigen::Index k = 0; k < channels; ++k) {
        const auto b = half.middleCols(k * unknowns, unknowns);
        const double w = fit.channelWeights()(k) / fit.inflation();
        system.info.noalias() -= w * b.transpose() * b;
        system.gradient.noalias() -= w * b.transpose() * halfPull.col(k);
    }
    const Eigen::LDLT<Eigen::MatrixXd> reduced{system.info};
    return {reduced.solve(system.gradient),
            reduced.solve(Eigen::MatrixXd::Identity(unknowns, unknowns))};
}

}  // namespace core::spin::fit
