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
    return basis.at(directions);
}

Eigen::MatrixX3f colourAxes(const ShotSamples& shot) {
    Eigen::Matrix3d moment = Eigen::Matrix3d::Zero();
    Eigen::Vector3d mean = Eigen::Vector3d::Zero();
    double count = 0.0;
    for (const FrameSamples& frame : shot.frames) {
        moment += (frame.light.transpose() * frame.light).cast<double>();
        mean += frame.light.colwise().sum().transpose().cast<double>();
        count += static_cast<double>(frame.light.rows());
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

/// Scales s to mean 1 over the samples.
void normalise(const std::vector<SeenFrame>& seen, ShotLight& light) {
    double sum = 0.0;
    double share = 0.0;
    for (const SeenFrame& frame : seen) {
        for (const SeenInstant& instant : frame) {
            const Eigen::VectorXf s = instant.terms * light.shading;
            sum += static_cast<double>(s.dot(instant.share));
            share += static_cast<double>(instant.share.sum());
        }
    }
    light.shading *= static_cast<float>(share / sum);
}

}  // namespace

Eigen::VectorXf shadingAt(const ShotLight& light, const SeenInstant& seen) {
    return (seen.terms * light.shading).cwiseMax(kDarkestShading).cwiseMin(kBrightestShading);
}

SeenFrame seenBy(const Pinhole& camera, const SphereImage& place, const FrameSamples& frame) {
    const MovingBall ball{camera, place, frame.smearPx};
    SeenFrame seen;
    for (const CoveredInstant& instant : instantsOf(frame)) {
        Eigen::MatrixX3f direction = ball.seenBy(frame, instant);
        Eigen::MatrixXf terms = lightTerms(direction);
        seen.push_back({std::move(direction), std::move(terms),
                        frame.cover * static_cast<float>(instant.weight)});
    }
    return seen;
}

Eigen::MatrixX3f mirrorDirections(const Eigen::MatrixX3f& directions,
                                  const Eigen::Vector3d& centre) {
    const Eigen::RowVector3f from = centre.transpose().cast<float>();
    const Eigen::MatrixX3f rays = (directions.rowwise() + from).rowwise().normalized();
    const Eigen::VectorXf along = 2.0F * rays.cwiseProduct(directions).rowwise().sum();
    return rays - along.asDiagonal() * directions;
}

Eigen::VectorXf meanShading(const ShotLight& light, const SeenFrame& seen) {
    Eigen::VectorXf sum = Eigen::VectorXf::Zero(seen.front().share.size());
    for (const SeenInstant& instant : seen) {
        sum += instant.share.cwiseProduct(shadingAt(light, instant));
    }
    return sum;
}

Eigen::MatrixXf reflected(const ShotLight& light, std::size_t frame, const SeenFrame& seen) {
    Eigen::MatrixXf rest = light.value[frame];
    for (const SeenInstant& instant : seen) {
        rest -= instant.share.asDiagonal() * (instant.terms * light.added);
    }
    return rest;
}

ShotLight lightFromMean(const ShotSamples& shot, const std::vector<SeenFrame>& seen) {
    ShotLight light;
    light.axes = colourAxes(shot);
    light.added = Eigen::MatrixXf::Zero(kTerms, light.channels());
    Eigen::VectorXd right = Eigen::VectorXd::Zero(kTerms);
    Eigen::MatrixXd gram = Eigen::MatrixXd::Zero(kTerms, kTerms);
    for (std::size_t f = 0; f < shot.frames.size(); ++f) {
        const FrameSamples& frame = shot.frames[f];
        light.value.emplace_back(frame.light * light.axes.transpose());
        Eigen::MatrixXf terms = Eigen::MatrixXf::Zero(frame.light.rows(), kTerms);
        for (const SeenInstant& instant : seen[f]) {
            terms += instant.share.asDiagonal() * instant.terms;
        }
        const Eigen::VectorXf brightness = frame.light.rowwise().mean();
        gram += (terms.transpose() * frame.weight.asDiagonal() * terms).cast<double>();
        right += (terms.transpose() * frame.weight.cwiseProduct(brightness)).cast<double>();
    }
    gram.diagonal().array() += 1e-3 * gram.trace() / kTerms;
    light.shading = gram.ldlt().solve(right).cast<float>();
    normalise(seen, light);
    return light;
}

namespace {

/// Normal equations of the shading followed by each channel's added light, all of the same terms.
struct LightEquations {
    Eigen::MatrixXd gram;
    Eigen::VectorXd right;
    double brightness{};  // weighted mean square of the pattern
};

LightEquations gatherEquations(const std::vector<SeenFrame>& seen,
                               const std::vector<std::vector<Eigen::MatrixXf>>& pattern,
                               const std::vector<Eigen::MatrixXf>& mirrored,
                               const std::vector<Eigen::VectorXf>& weights,
                               const Eigen::VectorXd& channelWeights, const ShotLight& light) {
    const int channels = light.channels();
    const Eigen::Index terms = light.added.rows();
    const Eigen::Index unknowns = terms * (1 + channels);
    LightEquations eq{Eigen::MatrixXd::Zero(unknowns, unknowns), Eigen::VectorXd::Zero(unknowns),
                      0.0};
    double total = 0.0;
    for (std::size_t f = 0; f < seen.size(); ++f) {
        const Eigen::Index n = weights[f].size();
        std::vector<Eigen::MatrixXf> shaded(static_cast<std::size_t>(channels),
                                            Eigen::MatrixXf::Zero(n, terms));  // by A_k
        Eigen::MatrixXf plain = Eigen::MatrixXf::Zero(n, terms);
        for (std::size_t j = 0; j < seen[f].size(); ++j) {
            const SeenInstant& instant = seen[f][j];
            const Eigen::MatrixXf lit = instant.share.asDiagonal() * instant.terms;
            plain += lit;
            for (int k = 0; k < channels; ++k) {
                const Eigen::VectorXf a = pattern[f][j].col(k);
                shaded[static_cast<std::size_t>(k)] += a.asDiagonal() * lit;
                eq.brightness +=
                    static_cast<double>(a.cwiseAbs2().cwiseProduct(weights[f]).dot(instant.share));
            }
        }
        const Eigen::MatrixXf weighted = weights[f].asDiagonal() * plain;
        const Eigen::MatrixXd inner = (plain.transpose() * weighted).cast<double>();
        for (int k = 0; k < channels; ++k) {
            const Eigen::MatrixXf& s = shaded[static_cast<std::size_t>(k)];
            const double wk = kIndependentShare * channelWeights(k);
            const Eigen::VectorXf wy =
                weights[f].cwiseProduct(light.value[f].col(k) - mirrored[f].col(k));
            const Eigen::Index at = terms * (1 + k);
            const Eigen::MatrixXd mixed = (s.transpose() * weighted).cast<double>();
            eq.gram.topLeftCorner(terms, terms) +=
                wk * (s.transpose() * weights[f].asDiagonal() * s).cast<double>();
            eq.gram.block(0, at, terms, terms) += wk * mixed;
            eq.gram.block(at, 0, terms, terms) += wk * mixed.transpose();
            eq.gram.block(at, at, terms, terms) += wk * inner;
            eq.right.head(terms) += wk * (s.transpose() * wy).cast<double>();
            eq.right.segment(at, terms) += wk * (plain.transpose() * wy).cast<double>();
        }
        total += static_cast<double>(weights[f].sum());
    }
    eq.brightness /= total;
    return eq;
}

}  // namespace

void updateLight(const std::vector<SeenFrame>& seen,
                 const std::vector<std::vector<Eigen::MatrixXf>>& pattern,
                 const std::vector<Eigen::MatrixXf>& mirrored,
                 const std::vector<Eigen::VectorXf>& weights, const Eigen::VectorXd& channelWeights,
                 ShotLight& light) {
    LightEquations eq = gatherEquations(seen, pattern, mirrored, weights, channelWeights, light);
    const Eigen::Index terms = light.added.rows();
    const double unit = std::sqrt(4.0 * kPi);  // the harmonic of degree 0 is 1/unit
    const double shadingPrecision = 1.0 / (kShadingSpread * kShadingSpread * unit * unit);
    const double addedPrecision = 1.0 / (kAddedSpread * kAddedSpread * unit * unit * eq.brightness);
    for (Eigen::Index i = 0; i < eq.right.size(); ++i) {
        const bool isConstant = i % terms == 0;
        eq.gram(i, i) += i < terms ? shadingPrecision : addedPrecision * (isConstant ? 100.0 : 1.0);
    }
    eq.right(0) += shadingPrecision * unit;  // prior mean of the shading: 1 everywhere
    const Eigen::VectorXf fitted = eq.gram.ldlt().solve(eq.right).cast<float>();
    light.shading = fitted.head(terms);
    for (int k = 0; k < light.channels(); ++k) {
        light.added.col(k) = fitted.segment(terms * (1 + k), terms);
    }
    normalise(seen, light);
}

}  // namespace core::spin::fit
