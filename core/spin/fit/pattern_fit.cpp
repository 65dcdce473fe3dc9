#include "core/spin/fit/pattern_fit.h"

#include <Eigen/Cholesky>
#include <Eigen/Geometry>
#include <algorithm>
#include <cmath>

#include "core/spin/fit/rotation.h"

namespace core::spin::fit {

namespace {

constexpr double kLargestTurnStep =
    0.6;                                // rad over half the shot; beyond it the linearisation fails
constexpr double kOutlierSigmas = 3.0;  // where the Cauchy weight has fallen to one half
constexpr double kLeastVariance = 0.02;  // of the light (255 is white): what coding rounds off

/// Rows turned by an angle of their own (rad) about a unit axis (Rodrigues).
Eigen::MatrixX3f turnedAbout(const Eigen::Vector3f& axis, const Eigen::VectorXf& angle,
                             const Eigen::MatrixX3f& rows) {
    Eigen::MatrixX3f turned(rows.rows(), 3);
    for (Eigen::Index i = 0; i < rows.rows(); ++i) {
        const Eigen::Vector3f p = rows.row(i).transpose();
        const float c = std::cos(angle(i));
        turned.row(i) =
            (c * p + std::sin(angle(i)) * axis.cross(p) + (1.0F - c) * axis.dot(p) * axis)
                .transpose();
    }
    return turned;
}

/// Row by row.
Eigen::MatrixX3f crossOf(const Eigen::MatrixX3f& a, const Eigen::MatrixX3f& b) {
    Eigen::MatrixX3f cross(a.rows(), 3);
    for (int k = 0; k < 3; ++k) {
        const int l = (k + 1) % 3;
        const int m = (k + 2) % 3;
        cross.col(k) = a.col(l).cwiseProduct(b.col(m)) - a.col(m).cwiseProduct(b.col(l));
    }
    return cross;
}

}  // namespace

/// Camera and place of one frame at the current state.
struct PatternFit::FrameGeometry {
    Pinhole camera;
    SphereImage place;
};

PatternFit::PatternFit(const ShotSamples& shot, ShotLight light, int degree,
                       const RotationPriors& priors, RotationState start)
    : m_shot{&shot},
      m_light{std::move(light)},
      m_basis{degree},
      m_generators{rotationGenerators(degree)},
      m_priors{priors},
      m_state{std::move(start)},
      m_ridge{m_basis.size()},
      m_channelWeights{Eigen::VectorXd::Constant(m_light.channels(), 1e-2)},
      m_seen(shot.frames.size()),
      m_turned(shot.frames.size()),
      m_basisValues(shot.frames.size()),
      m_equations(shot.frames.size()) {
    for (const FrameSamples& frame : shot.frames) {
        m_outlierWeights.emplace_back(Eigen::VectorXf::Ones(frame.weight.size()));
    }
    for (int i = 0; i < m_basis.size(); ++i) {
        // Patterns with edges have power falling as l^-2 to l^-3; 0.01 stands for noise over signal
        // variance with neighbouring samples alike. It matters only where the surface is not seen.
        const int l = degreeOfIndex(i);
        m_ridge(i) = 0.01 * (2 * l + 1) * (l * l + 1) / 4.0;
    }
}

PatternFit::FrameGeometry PatternFit::geometryOf(std::size_t frame) const {
    FrameGeometry g{m_shot->camera, m_shot->frames[frame].place};
    g.camera.focalPx = std::exp(m_state.logFocal);
    g.place.centrePx += m_state.shiftPx[frame];
    return g;
}

Eigen::VectorXf PatternFit::delays(std::size_t f, std::size_t instant) const {
    const FrameSamples& frame = m_shot->frames[f];
    const auto offset = static_cast<float>(instantsOf(frame)[instant].offset);
    return frame.lateS +
           static_cast<float>(m_shot->exposure) * (frame.middle + offset * frame.cover);
}

Eigen::MatrixX3f PatternFit::turnedBack(std::size_t f, std::size_t instant,
                                        const Eigen::MatrixX3f& directions) const {
    const Eigen::Vector3d& omega = m_state.angularVelocity;
    const double rate = std::max(omega.norm(), 1e-9);
    const Eigen::Matrix3f turn = rotationFromVector(omega * m_shot->frames[f].time).cast<float>();
    return turnedAbout((omega / rate).cast<float>(), -static_cast<float>(rate) * delays(f, instant),
                       directions) *
           turn;
}

void PatternFit::evaluateBasis(std::size_t f) {
    const FrameGeometry g = geometryOf(f);
    m_seen[f] = seenBy(g.camera, g.place, m_shot->frames[f]);
    m_turned[f].clear();
    Eigen::MatrixXf& basis = m_basisValues[f];
    basis.setZero(m_shot->frames[f].pointPx.rows(), m_basis.size());
    for (std::size_t j = 0; j < m_seen[f].size(); ++j) {
        const SeenInstant& seen = m_seen[f][j];
        m_turned[f].push_back(turnedBack(f, j, seen.direction));
        m_basis.addTo(m_turned[f].back(), seen.share.cwiseProduct(shadingAt(m_light, seen)), basis);
    }
}

void PatternFit::solvePattern() {
    const int n = m_basis.size();
    Eigen::MatrixXd gram = Eigen::MatrixXd::Zero(n, n);
    Eigen::MatrixXd right = Eigen::MatrixXd::Zero(n, m_light.channels());
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        evaluateBasis(f);
        const Eigen::MatrixXf z = reflected(m_light, f, m_seen[f]);
        const Eigen::VectorXf w = fitWeights(f);
        const Eigen::MatrixXf scaled = w.cwiseSqrt().asDiagonal() * m_basisValues[f];
        Eigen::MatrixXf frameGram = Eigen::MatrixXf::Zero(n, n);
        frameGram.selfadjointView<Eigen::Lower>().rankUpdate(scaled.transpose());
        FrameEquations& eq = m_equations[f];
        eq.gram = frameGram.cast<double>().selfadjointView<Eigen::Lower>();
        const Eigen::MatrixXf weighted = w.asDiagonal() * z;
        eq.right = (m_basisValues[f].transpose() * weighted).cast<double>();
        gram += eq.gram;
        right += eq.right;
    }
    gram.diagonal() += m_ridge;
    m_coefficients = gram.llt().solve(right);
}

std::vector<Eigen::MatrixXf> PatternFit::patternOf(std::size_t f) const {
    std::vector<Eigen::MatrixXf> pattern;
    for (const Eigen::MatrixX3f& q : m_turned[f]) {
        pattern.emplace_back(m_basis.at(q) * m_coefficients.cast<float>());
    }
    return pattern;
}

std::vector<PatternFit::Levers> PatternFit::leversOf(std::size_t f) const {
    const FrameSamples& frame = m_shot->frames[f];
    const FrameGeometry g = geometryOf(f);
    constexpr double kStepPx = 0.2;
    const double relative = kStepPx / g.place.radiusPx;
    Pinhole zoomed = g.camera;
    zoomed.focalPx *= std::exp(relative);
    const SphereImage larger{g.place.centrePx, g.place.radiusPx * std::exp(relative)};
    const SphereImage right{g.place.centrePx + Eigen::Vector2d{kStepPx, 0.0}, g.place.radiusPx};
    const SphereImage below{g.place.centrePx + Eigen::Vector2d{0.0, kStepPx}, g.place.radiusPx};
    const std::array<MovingBall, 4> balls{
        MovingBall{zoomed, g.place, frame.smearPx}, MovingBall{g.camera, larger, frame.smearPx},
        MovingBall{g.camera, right, frame.smearPx}, MovingBall{g.camera, below, frame.smearPx}};
    const std::array<double, 4> steps{relative, relative, kStepPx, kStepPx};
    std::vector<Levers> levers(m_seen[f].size());
    for (std::size_t j = 0; j < m_seen[f].size(); ++j) {
        for (std::size_t k = 0; k < balls.size(); ++k) {
            const Eigen::MatrixX3f moved =
                balls[k].seenBy(frame, instantsOf(frame)[j]) - m_seen[f][j].direction;
            levers[j][k] = crossOf(m_turned[f][j], turnedBack(f, j, moved)) *
                           static_cast<float>(1.0 / steps[k]);
        }
    }
    return levers;
}

std::vector<Eigen::MatrixXf> PatternFit::jacobians(std::size_t f) const {
    const double time = m_shot->frames[f].time;
    const Eigen::Vector3d turnVector = m_state.angularVelocity * time;
    // A rotation vector omega (t + d) turns by -(t J(omega t) + d R(omega t)') per omega, nearly.
    const Eigen::Matrix3f perRate = (-time * rightJacobian(turnVector)).cast<float>();
    const Eigen::Matrix3f perDelay = -rotationFromVector(turnVector).transpose().cast<float>();
    const Eigen::MatrixXf slopes = [&] {  // coefficients x (3 per channel): of q x grad A
        Eigen::MatrixXf all(m_basis.size(), 3 * m_light.channels());
        for (int k = 0; k < m_light.channels(); ++k) {
            for (int a = 0; a < 3; ++a) {
                all.col(3 * k + a) =
                    (m_generators[static_cast<std::size_t>(a)] * m_coefficients.col(k))
                        .cast<float>();
            }
        }
        return all;
    }();
    const auto levers = leversOf(f);
    const Eigen::Index n = m_shot->frames[f].pointPx.rows();
    std::vector<Eigen::MatrixXf> jacobian(static_cast<std::size_t>(m_light.channels()),
                                          Eigen::MatrixXf::Zero(n, kFrameUnknowns));
    for (std::size_t j = 0; j < m_seen[f].size(); ++j) {
        const SeenInstant& seen = m_seen[f][j];
        const Eigen::VectorXf shaded = seen.share.cwiseProduct(shadingAt(m_light, seen));
        const Eigen::MatrixXf all = shaded.asDiagonal() * (m_basis.at(m_turned[f][j]) * slopes);
        const Eigen::VectorXf delay = delays(f, j);
        for (std::size_t k = 0; k < jacobian.size(); ++k) {
            const auto slope = all.middleCols<3>(3 * static_cast<Eigen::Index>(k));
            jacobian[k].leftCols(3) += slope * perRate + delay.asDiagonal() * slope * perDelay;
            for (std::size_t u = 0; u < levers[j].size(); ++u) {
                jacobian[k].col(3 + static_cast<Eigen::Index>(u)) +=
                    slope.cwiseProduct(levers[j][u]).rowwise().sum();
            }
        }
    }
    return jacobian;
}

void PatternFit::lineariseFrame(std::size_t f) {
    FrameEquations& eq = m_equations[f];
    eq.info.setZero();
    eq.gradient.setZero();
    eq.cross.clear();
    const Eigen::MatrixXf residual =
        reflected(m_light, f, m_seen[f]) - m_basisValues[f] * m_coefficients.cast<float>();
    const Eigen::VectorXf w = fitWeights(f);
    const auto jacobian = jacobians(f);
    for (int k = 0; k < m_light.channels(); ++k) {
        const Eigen::MatrixXf& of = jacobian[static_cast<std::size_t>(k)];
        const Eigen::MatrixXf weighted = w.asDiagonal() * of;
        const double scale = m_channelWeights(k) / m_inflation;
        eq.cross.emplace_back((m_basisValues[f].transpose() * weighted).cast<double>());
        eq.info += scale * (of.transpose() * weighted).cast<double>();
        eq.gradient += scale * (weighted.transpose() * residual.col(k)).cast<double>();
    }
}

Eigen::VectorXf PatternFit::fitWeights(std::size_t f) const {
    return m_shot->frames[f].weight.cwiseProduct(m_outlierWeights[f]);
}

void PatternFit::linearise() {
    solvePattern();
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        lineariseFrame(f);
    }
}

double PatternFit::step() {
    linearise();
    const Eigen::VectorXd change = solveReduced(*this).change;
    const double halfDuration =
        std::max(std::abs(m_shot->frames.front().time), std::abs(m_shot->frames.back().time));
    const double turned = change.head(3).norm() * halfDuration;
    const double share = std::min(1.0, kLargestTurnStep / std::max(turned, 1e-12));
    m_state.angularVelocity += share * change.head<3>();
    m_state.logFocal += share * std::clamp(change(3), -0.2, 0.2);
    for (std::size_t f = 0; f < m_state.shiftPx.size(); ++f) {
        m_state.shiftPx[f] +=
            share * change.segment<2>(kGlobalUnknowns + 2 * static_cast<Eigen::Index>(f));
    }
    return turned;
}

void PatternFit::refreshNuisance() {
    std::vector<std::vector<Eigen::MatrixXf>> pattern;
    std::vector<Eigen::VectorXf> weights;
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        pattern.push_back(patternOf(f));
        weights.push_back(fitWeights(f));
    }
    updateLight(m_seen, pattern, weights, m_channelWeights, m_light);
    Eigen::VectorXd squares = Eigen::VectorXd::Zero(m_light.channels());
    double total = 0.0;
    std::vector<Eigen::MatrixXf> residuals;
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        Eigen::MatrixXf residual = reflected(m_light, f, m_seen[f]);
        for (std::size_t j = 0; j < m_seen[f].size(); ++j) {
            const SeenInstant& seen = m_seen[f][j];
            residual -=
                seen.share.cwiseProduct(shadingAt(m_light, seen)).asDiagonal() * pattern[f][j];
        }
        squares += (residual.cwiseAbs2().transpose() * weights[f]).cast<double>();
        total += static_cast<double>(weights[f].sum());
        residuals.push_back(std::move(residual));
    }
    m_channelWeights = (squares.array() / total).max(kLeastVariance).inverse().matrix();
    const Eigen::VectorXf scale =
        m_channelWeights.cast<float>() /
        static_cast<float>(kOutlierSigmas * kOutlierSigmas * m_light.channels());
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        m_outlierWeights[f] =
            (1.0F + (residuals[f].cwiseAbs2() * scale).array()).inverse().matrix();
    }
}

double PatternFit::squaredError(std::size_t f, const Eigen::MatrixXd& coefficients) const {
    const Eigen::MatrixXf residual =
        reflected(m_light, f, m_seen[f]) - m_basisValues[f] * coefficients.cast<float>();
    return static_cast<double>((residual.cwiseAbs2().transpose() * m_shot->frames[f].weight).sum());
}

double PatternFit::attitudeInflation() const {
    double sum = 0.0;
    double count = 0.0;
    for (const FrameEquations& eq : m_equations) {
        const Eigen::Matrix3d info = eq.info.topLeftCorner<3, 3>();
        if (info.trace() > 0.0) {
            const Eigen::Vector3d gradient = eq.gradient.head<3>();
            sum += gradient.dot(info.ldlt().solve(gradient)) / 3.0 * m_inflation;
            count += 1.0;
        }
    }
    return std::max(1.0, sum / std::max(1.0, count));
}

}  // namespace core::spin::fit
