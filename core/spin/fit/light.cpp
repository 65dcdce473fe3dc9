#include "core/spin/fit/light.h"

#include <Eigen/Cholesky>
#include <Eigen/Eigenvalues>
#include <algorithm>
#include <cmath>

#include "core/spin/fit/spherical_harmonics.h"

namespace core::spin::fit {

namespace {

constexpr int kTerms = 9;
constexpr double kLeastChannelShare =
    0.01;  // of the strongest channel's variance; less is chroma noise
constexpr float kDarkestShading = 0.15F;  // darker parts would blow up noise
constexpr float kBrightestShading = 4.0F;
// Neighbouring residuals are alike (edges, compression): a sample counts as a quarter against the
// priors. Prior spreads: shading terms half the mean light, added light a twentieth of it.
constexpr double kIndependentShare = 0.25;
constexpr double kShadingSpread = 0.5;
constexpr double kAddedSpread = 0.05;

Eigen::MatrixXf lightTerms(const Eigen::MatrixX3f& directions) {
    static const HarmonicBasis basis{2};
    Eigen::MatrixXf terms = Eigen::MatrixXf::Zero(directions.rows(), kTerms);
    basis.addTo(directions, 1.0F, terms);
    return terms;
}

Eigen::MatrixX3f colourAxes(const ShotSamples& shot) {
    Eigen::Matrix3d moment = Eigen::Matrix3d::Zero();
    Eigen::Vector3d mean = Eigen::Vector3d::Zero();
    double count = 0.0;
    for (const FrameSamples& frame : shot.frames) {
        moment += (frame.colour.transpose() * frame.colour).cast<double>();
        mean += frame.colour.colwise().sum().transpose().cast<double>();
        count += static_cast<double>(frame.colour.rows());
    }
    mean /= count;
    const Eigen::Matrix3d covariance = moment / count - mean * mean.transpose();
    const Eigen::SelfAdjointEigenSolver<Eigen::Matrix3d> solver{covariance};
    Eigen::Index used = 1;
    while (used < 3 &&
           solver.eigenvalues()(2 - used) > kLeastChannelShare * solver.eigenvalues()(2)) {
        ++used;
    }
    return solver.eigenvectors().rightCols(used).rowwise().reverse().transpose().cast<float>();
}

void normalise(ShotLight& light) {
    double sum = 0.0;
    double count = 0.0;
    for (const Eigen::VectorXf& s : light.shading) {
        sum += static_cast<double>(s.sum());
        count += static_cast<double>(s.size());
    }
    const auto scale = static_cast<float>(count / sum);
    for (Eigen::VectorXf& s : light.shading) {
        s = (s * scale).cwiseMax(kDarkestShading).cwiseMin(kBrightestShading);
    }
}

}  // namespace

Eigen::MatrixXf ShotLight::flattened(std::size_t frame) const {
    return ((value[frame] - added[frame]).array().colwise() / shading[frame].array()).matrix();
}

ShotLight lightFromMean(const ShotSamples& shot, const std::vector<Eigen::MatrixX3f>& directions) {
    ShotLight light;
    light.axes = colourAxes(shot);
    Eigen::VectorXd right = Eigen::VectorXd::Zero(kTerms);
    Eigen::MatrixXd gram = Eigen::MatrixXd::Zero(kTerms, kTerms);
    for (std::size_t f = 0; f < shot.frames.size(); ++f) {
        const FrameSamples& frame = shot.frames[f];
        light.value.emplace_back(frame.colour * light.axes.transpose());
        light.added.emplace_back(Eigen::MatrixXf::Zero(frame.colour.rows(), light.channels()));
        const Eigen::MatrixXf terms = lightTerms(directions[f]);
        const Eigen::VectorXf brightness = frame.colour.rowwise().mean();
        gram += (terms.transpose() * frame.weight.asDiagonal() * terms).cast<double>();
        right += (terms.transpose() * frame.weight.cwiseProduct(brightness)).cast<double>();
    }
    gram.diagonal().array() += 1e-3 * gram.trace() / kTerms;
    const Eigen::VectorXf fitted = gram.ldlt().solve(right).cast<float>();
    for (const Eigen::MatrixX3f& p : directions) {
        light.shading.emplace_back(lightTerms(p) * fitted);
    }
    normalise(light);
    return light;
}

namespace {

/// Normal equations of the shading (kTerms) followed by each channel's added light (kTerms each).
struct LightEquations {
    Eigen::MatrixXd gram;
    Eigen::VectorXd right;
    double brightness{};  // weighted mean square of the pattern
};

LightEquations gatherEquations(const std::vector<Eigen::MatrixX3f>& directions,
                               const std::vector<Eigen::MatrixXf>& pattern,
                               const std::vector<Eigen::VectorXf>& weights,
                               const Eigen::VectorXd& channelWeights, const ShotLight& light) {
    const int channels = light.channels();
    const int unknowns = kTerms * (1 + channels);
    LightEquations eq{Eigen::MatrixXd::Zero(unknowns, unknowns), Eigen::VectorXd::Zero(unknowns),
                      0.0};
    double total = 0.0;
    for (std::size_t f = 0; f < directions.size(); ++f) {
        const Eigen::MatrixXf terms = lightTerms(directions[f]);
        const Eigen::MatrixXf inner = terms.transpose() * weights[f].asDiagonal() * terms;
        for (int k = 0; k < channels; ++k) {
            const double wk = kIndependentShare * channelWeights(k);
            const Eigen::VectorXf a = pattern[f].col(k);
            const Eigen::VectorXf wa = weights[f].cwiseProduct(a);
            const Eigen::VectorXf y = light.value[f].col(k);
            const int at = kTerms * (1 + k);
            const Eigen::MatrixXf aa = terms.transpose() * wa.cwiseProduct(a).asDiagonal() * terms;
            const Eigen::MatrixXf ag = terms.transpose() * wa.asDiagonal() * terms;
            eq.gram.topLeftCorner(kTerms, kTerms) += wk * aa.cast<double>();
            eq.gram.block(0, at, kTerms, kTerms) += wk * ag.cast<double>();
            eq.gram.block(at, 0, kTerms, kTerms) += wk * ag.transpose().cast<double>();
            eq.gram.block(at, at, kTerms, kTerms) += wk * inner.cast<double>();
            eq.right.head(kTerms) += wk * (terms.transpose() * wa.cwiseProduct(y)).cast<double>();
            eq.right.segment(at, kTerms) +=
                wk * (terms.transpose() * weights[f].cwiseProduct(y)).cast<double>();
            eq.brightness += static_cast<double>(wa.dot(a));
        }
        total += static_cast<double>(weights[f].sum());
    }
    eq.brightness /= total;
    return eq;
}

}  // namespace

void updateLight(const std::vector<Eigen::MatrixX3f>& directions,
                 const std::vector<Eigen::MatrixXf>& pattern,
                 const std::vector<Eigen::VectorXf>& weights, const Eigen::VectorXd& channelWeights,
                 ShotLight& light) {
    LightEquations eq = gatherEquations(directions, pattern, weights, channelWeights, light);
    const double unit = std::sqrt(4.0 * kPi);  // the harmonic of degree 0 is 1/unit
    const double shadingPrecision = 1.0 / (kShadingSpread * kShadingSpread * unit * unit);
    const double addedPrecision = 1.0 / (kAddedSpread * kAddedSpread * unit * unit * eq.brightness);
    for (Eigen::Index i = 0; i < eq.right.size(); ++i) {
        const bool isConstant = i % kTerms == 0;
        eq.gram(i, i) +=
            i < kTerms ? shadingPrecision : addedPrecision * (isConstant ? 100.0 : 1.0);
    }
    eq.right(0) += shadingPrecision * unit;  // prior mean of the shading: 1 everywhere
    const Eigen::VectorXf fitted = eq.gram.ldlt().solve(eq.right).cast<float>();
    for (std::size_t f = 0; f < directions.size(); ++f) {
        const Eigen::MatrixXf terms = lightTerms(directions[f]);
        light.shading[f] = terms * fitted.head(kTerms);
        for (int k = 0; k < light.channels(); ++k) {
            light.added[f].col(k) = terms * fitted.segment(kTerms * (1 + k), kTerms);
        }
    }
    normalise(light);
}

}  // namespace core::spin::fit
