#include "core/spin/fit/pattern_fit.h"

#include <Eigen/Cholesky>
#include <algorithm>
#include <cmath>

#include "core/spin/fit/rotation.h"

namespace core::spin::fit {

namespace {

constexpr double kLargestTurnStep =
    0.6;                                // rad over half the shot; beyond it the linearisation fails
constexpr double kOutlierSigmas = 3.0;  // where the Cauchy weight has fallen to one half
constexpr double kNoticeableSmear =
    0.1;  // of the radius: below it one point stands for the exposure

struct QuadraturePoint {
    double offset;  // of the exposure time, from its middle
    double weight;
};
constexpr std::array<QuadraturePoint, 1> kInstant{{{0.0, 1.0}}};
constexpr std::array<QuadraturePoint, 3> kGauss3{{{-0.38729833462074169, 5.0 / 18.0},  // sqrt(0.15)
                                                  {0.0, 8.0 / 18.0},
                                                  {0.38729833462074169, 5.0 / 18.0}}};

std::span<const QuadraturePoint> quadratureFor(const FrameSamples& frame) {
    if (frame.smearPx.norm() > kNoticeableSmear * frame.place.radiusPx) {
        return kGauss3;
    }
    return kInstant;
}

/// Surface points of the samples as they lie at the frame's time: what is read later has turned on.
Eigen::MatrixX3f directionsAt(const Pinhole& camera, const SphereImage& place,
                              const FrameSamples& frame, const Eigen::Vector3d& angularVelocity) {
    const Eigen::Vector3d centre = ballCentre(camera, place);
    Eigen::MatrixX3f directions(frame.pointPx.rows(), 3);
    for (Eigen::Index i = 0; i < frame.pointPx.rows(); ++i) {
        const Eigen::Vector3d ray =
            rayThrough(camera, frame.pointPx.row(i).transpose().cast<double>());
        const Eigen::Vector3d seen = surfacePoint(ray, centre).direction;
        const double late = static_cast<double>(frame.lateS(i));
        directions.row(i) =
            (seen + late * seen.cross(angularVelocity)).normalized().transpose().cast<float>();
    }
    return directions;
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
      m_directions(shot.frames.size()),
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

void PatternFit::evaluateBasis(std::size_t f) {
    const FrameSamples& frame = m_shot->frames[f];
    const FrameGeometry g = geometryOf(f);
    const Eigen::Vector3d& omega = m_state.angularVelocity;
    m_directions[f] = directionsAt(g.camera, g.place, frame, omega);
    Eigen::MatrixXf& basis = m_basisValues[f];
    basis.setZero(frame.pointPx.rows(), m_basis.size());
    for (const QuadraturePoint& q : quadratureFor(frame)) {
        const Eigen::Matrix3f turn =
            rotationFromVector(omega * (frame.time + q.offset * m_shot->exposure)).cast<float>();
        if (q.offset == 0.0) {
            m_basis.addTo(m_directions[f] * turn, static_cast<float>(q.weight), basis);
        } else {
            const SphereImage moved{g.place.centrePx + q.offset * frame.smearPx, g.place.radiusPx};
            m_basis.addTo(directionsAt(g.camera, moved, frame, omega) * turn,
                          static_cast<float>(q.weight), basis);
        }
    }
}

void PatternFit::solvePattern() {
    const int n = m_basis.size();
    Eigen::MatrixXd gram = Eigen::MatrixXd::Zero(n, n);
    Eigen::MatrixXd right = Eigen::MatrixXd::Zero(n, m_light.channels());
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        evaluateBasis(f);
        const Eigen::MatrixXf z = m_light.flattened(f);
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

Eigen::MatrixXf PatternFit::patternOf(std::size_t f) const {
    return m_basisValues[f] * m_coefficients.cast<float>();
}

std::array<Eigen::MatrixX3f, 4> PatternFit::leversOf(std::size_t f,
                                                     const Eigen::Matrix3f& turn) const {
    const FrameSamples& frame = m_shot->frames[f];
    const Eigen::Vector3d& omega = m_state.angularVelocity;
    const FrameGeometry g = geometryOf(f);
    constexpr double kStepPx = 0.2;
    const double relative = kStepPx / g.place.radiusPx;
    Pinhole zoomed = g.camera;
    zoomed.focalPx *= std::exp(relative);
    const SphereImage larger{g.place.centrePx, g.place.radiusPx * std::exp(relative)};
    const SphereImage right{g.place.centrePx + Eigen::Vector2d{kStepPx, 0.0}, g.place.radiusPx};
    const SphereImage below{g.place.centrePx + Eigen::Vector2d{0.0, kStepPx}, g.place.radiusPx};
    std::array<Eigen::MatrixX3f, 4> levers{
        directionsAt(zoomed, g.place, frame, omega), directionsAt(g.camera, larger, frame, omega),
        directionsAt(g.camera, right, frame, omega), directionsAt(g.camera, below, frame, omega)};
    const std::array<double, 4> steps{relative, relative, kStepPx, kStepPx};
    const Eigen::MatrixX3f q = m_directions[f] * turn;
    for (std::size_t j = 0; j < 4; ++j) {
        const Eigen::MatrixX3f d =
            (levers[j] - m_directions[f]) * turn * static_cast<float>(1.0 / steps[j]);
        levers[j].col(0) = q.col(1).cwiseProduct(d.col(2)) - q.col(2).cwiseProduct(d.col(1));
        levers[j].col(1) = q.col(2).cwiseProduct(d.col(0)) - q.col(0).cwiseProduct(d.col(2));
        levers[j].col(2) = q.col(0).cwiseProduct(d.col(1)) - q.col(1).cwiseProduct(d.col(0));
    }
    return levers;
}

void PatternFit::lineariseFrame(std::size_t f) {
    const FrameSamples& frame = m_shot->frames[f];
    const Eigen::Vector3d turnVector = m_state.angularVelocity * frame.time;
    const Eigen::Matrix3f turn = rotationFromVector(turnVector).cast<float>();
    const Eigen::Matrix3f perRate = (-frame.time * rightJacobian(turnVector)).cast<float>();
    const auto levers = leversOf(f, turn);
    FrameEquations& eq = m_equations[f];
    eq.info.setZero();
    eq.gradient.setZero();
    eq.cross.resize(static_cast<std::size_t>(m_light.channels()));
    const Eigen::MatrixXf residual = m_light.flattened(f) - patternOf(f);
    const Eigen::VectorXf w = fitWeights(f);
    for (int k = 0; k < m_light.channels(); ++k) {
        Eigen::MatrixX3f slope(w.size(), 3);  // q x grad A
        for (int a = 0; a < 3; ++a) {
            const Eigen::VectorXd c =
                m_generators[static_cast<std::size_t>(a)] * m_coefficients.col(k);
            slope.col(a) = m_basisValues[f] * c.cast<float>();
        }
        Eigen::MatrixXf jacobian(w.size(), kFrameUnknowns);
        jacobian.leftCols(3) = slope * perRate;
        for (std::size_t j = 0; j < 4; ++j) {
            jacobian.col(3 + static_cast<Eigen::Index>(j)) =
                slope.cwiseProduct(levers[j]).rowwise().sum();
        }
        const Eigen::MatrixXf weighted = w.asDiagonal() * jacobian;
        const double scale = m_channelWeights(k) / m_inflation;
        eq.cross[static_cast<std::size_t>(k)] =
            (m_basisValues[f].transpose() * weighted).cast<double>();
        eq.info += scale * (jacobian.transpose() * weighted).cast<double>();
        eq.gradient += scale * (weighted.transpose() * residual.col(k)).cast<double>();
    }
}

Eigen::VectorXf PatternFit::fitWeights(std::size_t f) const {
    return m_shot->frames[f]
        .weight.cwiseProduct(m_outlierWeights[f])
        .cwiseProduct(m_light.shading[f].cwiseAbs2());
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
    std::vector<Eigen::MatrixXf> pattern;
    std::vector<Eigen::VectorXf> weights;
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        pattern.push_back(patternOf(f));
        weights.emplace_back(m_shot->frames[f].weight.cwiseProduct(m_outlierWeights[f]));
    }
    updateLight(m_directions, pattern, weights, m_channelWeights, m_light);
    Eigen::VectorXd squares = Eigen::VectorXd::Zero(m_light.channels());
    double total = 0.0;
    std::vector<Eigen::MatrixXf> residuals;
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        const Eigen::MatrixXf model =
            m_light.shading[f].asDiagonal() * pattern[f] + m_light.added[f];
        residuals.emplace_back(m_light.value[f] - model);
        squares += (residuals[f].cwiseAbs2().transpose() * weights[f]).cast<double>();
        total += static_cast<double>(weights[f].sum());
    }
    m_channelWeights = (squares.array() / total).max(0.25).inverse().matrix();
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
        m_light.flattened(f) - m_basisValues[f] * coefficients.cast<float>();
    const Eigen::VectorXf w = m_shot->frames[f].weight.cwiseProduct(m_light.shading[f].cwiseAbs2());
    return static_cast<double>((residual.cwiseAbs2().transpose() * w).sum());
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
