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

/// Rows filled up with zeros, as kernels.h wants them.
Eigen::MatrixXf filledUpRows(const Eigen::MatrixXf& rows) {
    Eigen::MatrixXf filled(filledUp(rows.rows()), rows.cols());
    filled.topRows(rows.rows()) = rows;
    filled.bottomRows(filled.rows() - rows.rows()).setZero();
    return filled;
}

}  // namespace

/// Camera and place of one frame at the current state.
struct PatternFit::FrameGeometry {
    Pinhole camera;
    SphereImage place;
};

PatternFit::PatternFit(const ShotSamples& shot, ShotLight light, FitDegrees degrees,
                       const RotationPriors& priors, RotationState start)
    : m_shot{&shot},
      m_light{std::move(light)},
      m_basis{degrees.pattern},
      m_mirror{degrees.mirrored},
      m_generators{rotationGenerators(degrees.pattern)},
      m_priors{priors},
      m_state{std::move(start)},
      m_ridge{m_basis.size() + m_mirror.size()},
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
    // Lamps are sharp: all degrees alike. Readings hardly change from a tenth of it to ten times.
    constexpr double kMirrorRidge = 0.1;
    for (int i = 0; i < m_mirror.size(); ++i) {
        m_ridge(m_basis.size() + i) = kMirrorRidge * (2 * degreeOfIndex(i) + 1);
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

Eigen::MatrixX3f PatternFit::turned(std::size_t f, const Eigen::VectorXf& delay, Turn turn,
                                    const Eigen::MatrixX3f& rows) const {
    const Eigen::Vector3d& omega = m_state.angularVelocity;
    const double rate = std::max(omega.norm(), 1e-9);
    const Eigen::Vector3f axis = (omega / rate).cast<float>();
    const Eigen::Matrix3f whole = rotationFromVector(omega * m_shot->frames[f].time).cast<float>();
    const auto ratePerS = static_cast<float>(rate);
    const bool isDelayed = !delay.isZero(0.0F);
    if (turn == Turn::Forward) {
        const Eigen::MatrixX3f forward = rows * whole.transpose();
        return isDelayed ? turnedAbout(axis, ratePerS * delay, forward) : forward;
    }
    if (isDelayed) {
        return turnedAbout(axis, -ratePerS * delay, rows) * whole;
    }
    return rows * whole;
}

void PatternFit::evaluateBasis(std::size_t f) {
    const FrameGeometry g = geometryOf(f);
    m_seen[f] = seenBy(g.camera, g.place, m_shot->frames[f]);
    m_turned[f].clear();
    const Eigen::Vector3d centre = ballCentre(g.camera, g.place);
    const Eigen::Index rows = filledUp(m_shot->frames[f].pointPx.rows());
    Eigen::MatrixXf pattern = Eigen::MatrixXf::Zero(rows, m_basis.size());
    Eigen::MatrixXf mirror = Eigen::MatrixXf::Zero(rows, m_mirror.size());
    for (std::size_t j = 0; j < m_seen[f].size(); ++j) {
        const SeenInstant& seen = m_seen[f][j];
        m_turned[f].push_back(turned(f, delays(f, j), Turn::Back, seen.direction));
        m_basis.addTo(m_turned[f].back(), seen.share.cwiseProduct(shadingAt(m_light, seen)),
                      pattern);
        m_mirror.addTo(mirrorDirections(seen.direction, centre), seen.share, mirror);
    }
    m_basisValues[f].resize(rows, m_ridge.size());
    m_basisValues[f] << pattern, mirror;
}

void PatternFit::solvePattern() {
    const Eigen::Index n = m_ridge.size();
    Eigen::MatrixXd gram = Eigen::MatrixXd::Zero(n, n);
    Eigen::MatrixXd right = Eigen::MatrixXd::Zero(n, m_light.channels());
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        evaluateBasis(f);
        const Eigen::MatrixXf z = reflected(m_light, f, m_seen[f]);
        const Eigen::VectorXf w = fitWeights(f);
        Eigen::MatrixXf scaled = m_basisValues[f];
        scaled.topRows(w.size()) = w.cwiseSqrt().asDiagonal() * m_basisValues[f].topRows(w.size());
        FrameEquations& eq = m_equations[f];
        eq.gram = lowerGram(scaled).cast<double>().selfadjointView<Eigen::Lower>();
        eq.right = productOf(m_basisValues[f], filledUpRows(w.asDiagonal() * z)).cast<double>();
        gram += eq.gram;
        right += eq.right;
    }
    gram.diagonal() += m_ridge;
    m_coefficients = gram.llt().solve(right);
}

std::vector<Eigen::MatrixXf> PatternFit::patternOf(std::size_t f) const {
    const Eigen::MatrixXf coefficients = patternCoefficients().cast<float>();
    std::vector<Eigen::MatrixXf> pattern;
    for (const Eigen::MatrixX3f& q : m_turned[f]) {
        pattern.emplace_back(m_basis.sums(q, coefficients));
    }
    return pattern;
}

Eigen::MatrixXf PatternFit::mirrored(std::size_t f) const {
    return m_basisValues[f].topRows(m_shot->frames[f].pointPx.rows()).rightCols(m_mirror.size()) *
           m_coefficients.bottomRows(m_mirror.size()).cast<float>();
}

std::vector<Levers> PatternFit::leversOf(std::size_t f) const {
    const FrameSamples& frame = m_shot->frames[f];
    const FrameGeometry g = geometryOf(f);
    const MovingBall ball{g.camera, g.place, frame.smearPx};
    constexpr double kStepPx = 0.2;
    const double relative = kStepPx / g.place.radiusPx;
    Pinhole zoomed = g.camera;
    zoomed.focalPx *= std::exp(relative);
    const SphereImage larger{g.place.centrePx, g.place.radiusPx * std::exp(relative)};
    const SphereImage right{g.place.centrePx + Eigen::Vector2d{kStepPx, 0.0}, g.place.radiusPx};
    const SphereImage below{g.place.centrePx + Eigen::Vector2d{0.0, kStepPx}, g.place.radiusPx};
    const std::array<BallChange, 4> changes{
        ball.changeTo(MovingBall{zoomed, g.place, frame.smearPx}, relative, Zoom::Yes),
        ball.changeTo(MovingBall{g.camera, larger, frame.smearPx}, relative, Zoom::No),
        ball.changeTo(MovingBall{g.camera, right, frame.smearPx}, kStepPx, Zoom::No),
        ball.changeTo(MovingBall{g.camera, below, frame.smearPx}, kStepPx, Zoom::No)};
    std::vector<Levers> levers;
    for (const CoveredInstant& instant : instantsOf(frame)) {
        levers.push_back(ball.levers(frame, instant, changes));
    }
    return levers;
}

/// Coefficients x columns: of the pattern's channels, then of q x grad of each, x y z.
Eigen::MatrixXf PatternFit::valuesAndSlopes() const {
    const Eigen::MatrixXd coefficients = patternCoefficients();
    const Eigen::Index channels = coefficients.cols();
    Eigen::MatrixXf all(m_basis.size(), 4 * channels);
    all.leftCols(channels) = coefficients.cast<float>();
    for (Eigen::Index k = 0; k < channels; ++k) {
        for (Eigen::Index a = 0; a < 3; ++a) {
            all.col(channels + 3 * k + a) =
                (m_generators[static_cast<std::size_t>(a)] * coefficients.col(k)).cast<float>();
        }
    }
    return all;
}

PatternFit::Model PatternFit::modelOf(std::size_t f, const Eigen::MatrixXf& slopes) const {
    const double time = m_shot->frames[f].time;
    const Eigen::Vector3d turnVector = m_state.angularVelocity * time;
    // A rotation vector omega (t + d) turns by -(t J(omega t) + d R(omega t)') per omega, nearly.
    const Eigen::Matrix3f perRate = (-time * rightJacobian(turnVector)).cast<float>();
    const Eigen::Matrix3f perDelay = -rotationFromVector(turnVector).transpose().cast<float>();
    const auto levers = leversOf(f);
    const Eigen::Index n = m_shot->frames[f].pointPx.rows();
    const Eigen::Index channels = m_light.channels();
    Model model{mirrored(f), Eigen::MatrixXf::Zero(filledUp(n), kFrameUnknowns * channels)};
    for (std::size_t j = 0; j < m_seen[f].size(); ++j) {
        const SeenInstant& seen = m_seen[f][j];
        const Eigen::VectorXf shaded = seen.share.cwiseProduct(shadingAt(m_light, seen));
        const Eigen::MatrixXf all = shaded.asDiagonal() * m_basis.sums(m_turned[f][j], slopes);
        const Eigen::VectorXf delay = delays(f, j);
        model.light += all.leftCols(channels);
        for (Eigen::Index k = 0; k < channels; ++k) {
            const Eigen::MatrixX3f slope = all.middleCols<3>(channels + 3 * k);
            auto jacobian = model.jacobian.middleCols<kFrameUnknowns>(kFrameUnknowns * k);
            jacobian.topRows(n).leftCols<3>() +=
                slope * perRate + delay.asDiagonal() * slope * perDelay;
            // Turning back both sides of slope . (q x dq) instead of p x dp, of which there are
            // more.
            const Eigen::MatrixX3f before = turned(f, delay, Turn::Forward, slope);
            for (std::size_t u = 0; u < levers[j].size(); ++u) {
                jacobian.topRows(n).col(3 + static_cast<Eigen::Index>(u)) +=
                    before.cwiseProduct(levers[j][u]).rowwise().sum();
            }
        }
    }
    return model;
}

void PatternFit::lineariseFrame(std::size_t f, const Eigen::MatrixXf& slopes) {
    FrameEquations& eq = m_equations[f];
    eq.info.setZero();
    eq.gradient.setZero();
    eq.cross.clear();
    const Model model = modelOf(f, slopes);
    const Eigen::MatrixXf residual = reflected(m_light, f, m_seen[f]) - model.light;
    const Eigen::VectorXf w = fitWeights(f);
    const Eigen::Index n = w.size();
    Eigen::MatrixXf weighted = model.jacobian;
    weighted.topRows(n) = w.asDiagonal() * model.jacobian.topRows(n);
    const Eigen::MatrixXf cross = productOf(m_basisValues[f], weighted);
    for (Eigen::Index k = 0; k < m_light.channels(); ++k) {
        const auto of = model.jacobian.topRows(n).middleCols<kFrameUnknowns>(kFrameUnknowns * k);
        const auto by = weighted.topRows(n).middleCols<kFrameUnknowns>(kFrameUnknowns * k);
        const double scale = m_channelWeights(k) / m_inflation;
        eq.cross.emplace_back(cross.middleCols<kFrameUnknowns>(kFrameUnknowns * k).cast<double>());
        eq.info += scale * (of.transpose() * by).cast<double>();
        eq.gradient += scale * (by.transpose() * residual.col(k)).cast<double>();
    }
}

Eigen::VectorXf PatternFit::fitWeights(std::size_t f) const {
    return m_shot->frames[f].weight.cwiseProduct(m_outlierWeights[f]);
}

void PatternFit::linearise() {
    solvePattern();
    const Eigen::MatrixXf slopes = valuesAndSlopes();
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        lineariseFrame(f, slopes);
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
    std::vector<Eigen::MatrixXf> mirror;
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        pattern.push_back(patternOf(f));
        weights.push_back(fitWeights(f));
        mirror.push_back(mirrored(f));
    }
    updateLight(m_seen, pattern, mirror, weights, m_channelWeights, m_light);
    Eigen::VectorXd squares = Eigen::VectorXd::Zero(m_light.channels());
    double total = 0.0;
    std::vector<Eigen::MatrixXf> residuals;
    for (std::size_t f = 0; f < m_shot->frames.size(); ++f) {
        Eigen::MatrixXf residual = reflected(m_light, f, m_seen[f]) - mirror[f];
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
        reflected(m_light, f, m_seen[f]) -
        m_basisValues[f].topRows(m_shot->frames[f].weight.size()) * coefficients.cast<float>();
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
