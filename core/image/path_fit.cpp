#include "core/image/path_fit.h"

#include <algorithm>
#include <cmath>

#include "core/base/words.h"

namespace core::image {

namespace {

// Order of the shared unknowns.
constexpr int kX = 0;
constexpr int kY = 4;
constexpr int kDepth = 8;
constexpr int kShutter = 10;
constexpr int kFocal = 11;
constexpr int kEdge = 12;
constexpr int kReadoutTime = 13;
constexpr int kShared = 14;

constexpr double kDeviationPx = 0.08;  // of a centre from a path of degree three: air, sensor
constexpr double kCubicRadii = 0.15;   // change of the acceleration over half the flight, prior
constexpr double kDepthSlope = 0.3;    // relative change of the size over half the flight, prior
constexpr double kFocalSpread = 0.2;   // ln; phones film at 45 to 80 degrees across
constexpr double kKnownFocalSpread = 1e-6;
constexpr double kEdgeMiddlePx = 1.6;
constexpr double kEdgeSpread = 0.35;   // ln
constexpr double kHeldReadout = 1e-9;  // s
constexpr double kLooseReadout = 0.1;  // s: weak beside anything that outlines tell
// Amplitude of what light, lens and coder may add to an outline in the shape of a shear, in all
// frames alike. From rendered shots of known readout.
constexpr double kCommonBulgePx = 0.08;
constexpr double kFirstInflation = 6.0;
// Neighbouring frames see much the same background and light: as if of two only one counted.
constexpr double kErrTogether = 2.0;
constexpr double kMaxCentreStepPx = 3.0;
constexpr double kSettledPx = 0.05;
constexpr double kCoarseSettledPx = 0.3;
constexpr std::size_t kCoarseStride = 3;
constexpr double kOutlierChi2 = 9.0;  // two degrees of freedom: 1.1 % of honest frames

PointPx turned(const FrameMotion& m, PointPx v) {
    return {m.a * v.x - m.b * v.y, m.b * v.x + m.a * v.y};
}

}  // namespace

PathFit::PathFit(PathFitSetup setup, std::vector<PathFrame> frames, SharedState start,
                 Seconds reference, Seconds span)
    : m_setup{setup},
      m_frames{std::move(frames)},
      m_shared{start},
      m_reference{reference},
      m_span{span},
      m_inflation{kFirstInflation} {}

BallPath PathFit::path() const {
    BallPath path;
    path.referenceTime = m_reference;
    path.principalPoint = m_setup.picture.principalPoint();
    double unit = 1.0;
    for (int k = 0; k < 4; ++k) {
        path.x[static_cast<std::size_t>(k)] = m_shared.x[k] / unit;
        path.y[static_cast<std::size_t>(k)] = m_shared.y[k] / unit;
        if (k < 2) {
            path.inverseRadius[static_cast<std::size_t>(k)] = m_shared.inverseRadius[k] / unit;
        }
        unit *= m_span.seconds;
    }
    return path;
}

// The ball's row is read some time after the first one; a few rounds settle it.
OutlineState PathFit::predict(const PathFrame& frame) const {
    const BallPath route = path();
    const PointPx middle = m_setup.picture.principalPoint();
    OutlineState state;
    double time = frame.time.seconds;
    for (int round = 0; round < 3; ++round) {
        state.centre = frame.motion.apply(route.centreAt({time}), middle);
        time = frame.time.seconds + m_shared.readoutSeconds * m_setup.rows.at(state.centre);
    }
    state.velocity = turned(frame.motion, route.velocityAt({time}));
    state.centre.x += frame.deviation.x;
    state.centre.y += frame.deviation.y;
    state.logAxialRadius = std::log(route.axialRadiusPxAt({time}));
    state.exposureSeconds = m_shared.exposureSeconds;
    state.logFocal = m_shared.logFocal;
    state.logEdge = m_shared.logEdge;
    state.readoutSeconds = m_shared.readoutSeconds;
    state.rowPerPx = m_setup.rows.perPx();
    return state;
}

OutlineEquations PathFit::probe(PathFrame& frame) const {
    return outlineEquations(frame.patch, m_setup.picture, predict(frame));
}

PathFit::Jacobian PathFit::jacobian(const PathFrame& frame) const {
    const double row = m_setup.rows.at(frame.state.centre);
    const double time = frame.time.seconds + m_shared.readoutSeconds * row;
    const double tau = (time - m_reference.seconds) / m_span.seconds;
    const double depth = m_shared.inverseRadius[0] + m_shared.inverseRadius[1] * tau;
    const BallPath route = path();
    const PointPx at = route.centreAt({time});
    const PointPx off{at.x - route.principalPoint.x, at.y - route.principalPoint.y};
    // A centre that is moved is seen at another row and time, and so moves on a little.
    const PointPx v = frame.state.velocity;
    const PointPx g = m_setup.rows.perPx();
    const double readout = m_shared.readoutSeconds;
    const double gain = readout / std::max(0.1, 1.0 - readout * (g.x * v.x + g.y * v.y));
    Jacobian j = Jacobian::Zero(kOutlineParameters, kShared);
    const auto setCentre = [&](int column, PointPx d) {
        const double later = gain * (g.x * d.x + g.y * d.y);
        j(kCentreX, column) = d.x + v.x * later;
        j(kCentreY, column) = d.y + v.y * later;
    };
    double power = 1.0;
    for (int k = 0; k < 4; ++k) {
        setCentre(kX + k, turned(frame.motion, {power / depth, 0.0}));
        setCentre(kY + k, turned(frame.motion, {0.0, power / depth}));
        if (k < 2) {
            setCentre(kDepth + k,
                      turned(frame.motion, {-off.x * power / depth, -off.y * power / depth}));
            j(kLogRadius, kDepth + k) = -power / depth;
        }
        power *= tau;
    }
    j(kExposure, kShutter) = 1.0;
    j(kLogFocal, kFocal) = 1.0;
    j(kLogEdge, kEdge) = 1.0;
    setCentre(kReadoutTime, {v.x * row, v.y * row});
    j(kReadout, kReadoutTime) = 1.0;
    return j;
}

void PathFit::evaluate(std::optional<double> edgePx) {
    m_edgeIsFree = !edgePx.has_value();
    if (edgePx) {
        m_shared.logEdge = std::log(*edgePx);
    }
    for (PathFrame& frame : m_frames) {
        frame.state = predict(frame);
        frame.equations = frame.isUsed ? outlineEquations(frame.patch, m_setup.picture, frame.state,
                                                          m_edgeIsFree ? 1 : kCoarseStride)
                                       : OutlineEquations{};
    }
}

void PathFit::addPriors(Eigen::MatrixXd& normal, Eigen::VectorXd& right) const {
    const auto hold = [&](int at, double value, double mean, double sigma) {
        normal(at, at) += 1.0 / (sigma * sigma);
        right[at] -= (value - mean) / (sigma * sigma);
    };
    hold(kX + 3, m_shared.x[3], 0.0, kCubicRadii);
    hold(kY + 3, m_shared.y[3], 0.0, kCubicRadii);
    hold(kDepth + 1, m_shared.inverseRadius[1], 0.0, kDepthSlope * m_shared.inverseRadius[0]);
    hold(kShutter, m_shared.exposureSeconds, 0.2 * m_setup.intervalSeconds,
         0.3 * m_setup.intervalSeconds);
    hold(kFocal, m_shared.logFocal, std::log(m_setup.picture.focalPx),
         m_setup.isFocalKnown ? kKnownFocalSpread : kFocalSpread);
    hold(kEdge, m_shared.logEdge, m_edgeIsFree ? std::log(kEdgeMiddlePx) : m_shared.logEdge,
         m_edgeIsFree ? kEdgeSpread : 1e-6);
    const bool isHeld = !m_readoutIsFree || !m_edgeIsFree;
    hold(kReadoutTime, m_shared.readoutSeconds, isHeld ? m_shared.readoutSeconds : 0.0,
         isHeld ? kHeldReadout : kLooseReadout);
    for (std::size_t i = 0; i < m_frames.size(); ++i) {
        const int at = kShared + 2 * static_cast<int>(i);
        hold(at, m_frames[i].deviation.x, 0.0, kDeviationPx);
        hold(at + 1, m_frames[i].deviation.y, 0.0, kDeviationPx);
    }
}

void PathFit::buildSystem(Eigen::MatrixXd& normal, Eigen::VectorXd& right) const {
    const int size = kShared + 2 * static_cast<int>(m_frames.size());
    normal = Eigen::MatrixXd::Zero(size, size);
    right = Eigen::VectorXd::Zero(size);
    for (std::size_t i = 0; i < m_frames.size(); ++i) {
        const PathFrame& frame = m_frames[i];
        const int at = kShared + 2 * static_cast<int>(i);
        OutlineMatrix information = frame.equations.information * (frame.weight / m_inflation);
        OutlineVector gradient = frame.equations.gradient * (frame.weight / m_inflation);
        if (frame.held) {
            const double w = 1.0 / (frame.held->sigmaPx * frame.held->sigmaPx);
            information(kCentreX, kCentreX) += w;
            information(kCentreY, kCentreY) += w;
            gradient[kCentreX] += w * (frame.state.centre.x - frame.held->centre.x);
            gradient[kCentreY] += w * (frame.state.centre.y - frame.held->centre.y);
        }
        const Jacobian j = jacobian(frame);
        const Eigen::MatrixXd weighted = information * j;
        normal.topLeftCorner(kShared, kShared).noalias() += j.transpose() * weighted;
        right.head(kShared).noalias() -= j.transpose() * gradient;
        normal.block(at, 0, 2, kShared) += weighted.topRows(2);
        normal.block(0, at, kShared, 2) += weighted.topRows(2).transpose();
        normal.block(at, at, 2, 2) += information.topLeftCorner(2, 2);
        right.segment(at, 2) -= gradient.head(2);
    }
    addPriors(normal, right);
}

double PathFit::apply(const Eigen::VectorXd& step) {
    double largest = 0.0;
    for (std::size_t i = 0; i < m_frames.size(); ++i) {
        const Eigen::VectorXd moved = jacobian(m_frames[i]) * step.head(kShared);
        if (m_frames[i].isUsed) {
            largest = std::max(largest, std::hypot(moved[kCentreX], moved[kCentreY]));
        }
    }
    double share = largest > kMaxCentreStepPx ? kMaxCentreStepPx / largest : 1.0;
    constexpr double kMaxSizeStep = 0.1;
    constexpr double kMaxReadoutStep = 0.004;
    const double size = std::abs(step[kDepth] / m_shared.inverseRadius[0]);
    share = size * share > kMaxSizeStep ? kMaxSizeStep / size : share;
    const double readoutStep = std::abs(step[kReadoutTime]);
    share = readoutStep * share > kMaxReadoutStep ? kMaxReadoutStep / readoutStep : share;
    m_shared.readoutSeconds += share * step[kReadoutTime];
    m_shared.x += share * step.segment(kX, 4);
    m_shared.y += share * step.segment(kY, 4);
    m_shared.inverseRadius += share * step.segment(kDepth, 2);
    m_shared.exposureSeconds =
        std::clamp(m_shared.exposureSeconds + share * step[kShutter], 0.0, m_setup.intervalSeconds);
    constexpr double kMaxLogStep = 0.15;
    m_shared.logFocal += std::clamp(share * step[kFocal], -kMaxLogStep, kMaxLogStep);
    m_shared.logEdge += std::clamp(share * step[kEdge], -kMaxLogStep, kMaxLogStep);
    for (std::size_t i = 0; i < m_frames.size(); ++i) {
        const int at = kShared + 2 * static_cast<int>(i);
        m_frames[i].deviation.x += share * step[at];
        m_frames[i].deviation.y += share * step[at + 1];
    }
    return share * largest;
}

Result<void> PathFit::iterate(int maxSteps, std::optional<double> edgePx,
                              const std::stop_token& stop) {
    Eigen::MatrixXd normal;
    Eigen::VectorXd right;
    for (int k = 0; k < maxSteps; ++k) {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, said("Following the ball was stopped."));
        }
        evaluate(edgePx);
        buildSystem(normal, right);
        if (apply(normal.ldlt().solve(right)) < (edgePx ? kCoarseSettledPx : kSettledPx)) {
            break;
        }
    }
    return ok();
}

void PathFit::holdReadout(Seconds readout) {
    // The path begins later by as much as the balls are now seen later, so that they stay in place.
    double rows = 0.0;
    for (const PathFrame& frame : m_frames) {
        rows += m_setup.rows.at(predict(frame).centre) / static_cast<double>(m_frames.size());
    }
    m_reference.seconds += rows * (readout.seconds - m_shared.readoutSeconds);
    m_shared.readoutSeconds = readout.seconds;
    m_readoutIsFree = false;
}

std::optional<ReadoutEstimate> PathFit::readoutEstimate() const {
    constexpr double kLeastTold = 0.5;  // of the loose prior's width
    // A bulge of b px is the shear of a readout of 2 b / (|v| |g| r).
    double bulges = 0.0;
    double used = 0.0;
    const PointPx g = m_setup.rows.perPx();
    for (const PathFrame& frame : m_frames) {
        if (frame.isUsed) {
            const double speed = std::hypot(frame.state.velocity.x, frame.state.velocity.y);
            bulges += speed * std::exp(frame.state.logAxialRadius);
            used += 1.0;
        }
    }
    if (!(m_readoutSigma > 0.0) || m_readoutSigma > kLeastTold * kLooseReadout || bulges <= 0.0) {
        return std::nullopt;
    }
    const double common = 2.0 * kCommonBulgePx * used / (bulges * std::hypot(g.x, g.y));
    return ReadoutEstimate{{m_shared.readoutSeconds}, {m_readoutSigma}, {common}};
}

bool PathFit::weighFrames() {
    double chi2 = 0.0;
    double scatter2 = 0.0;
    double count = 0.0;
    std::vector<std::pair<PathFrame*, double>> distances;
    std::vector<double> sorted;
    for (PathFrame& frame : m_frames) {
        const Eigen::Matrix2d information = frame.equations.information.topLeftCorner<2, 2>();
        if (!frame.isUsed || information.determinant() < 1e-9) {
            continue;
        }
        const Eigen::Vector2d own = -information.inverse() * frame.equations.gradient.head<2>();
        frame.ownOffset = {own[0] + frame.deviation.x, own[1] + frame.deviation.y};
        const Eigen::Vector2d offset(frame.ownOffset.x, frame.ownOffset.y);
        const Eigen::Matrix2d covariance =
            information.inverse() * m_inflation +
            Eigen::Matrix2d::Identity() * kDeviationPx * kDeviationPx;
        frame.ownSigmaPx = std::sqrt(0.5 * covariance.trace());
        const double distance = offset.dot(covariance.inverse() * offset);
        distances.emplace_back(&frame, distance);
        sorted.push_back(distance);
    }
    if (sorted.empty()) {
        return false;
    }
    const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
    std::nth_element(sorted.begin(), middle, sorted.end());
    constexpr double kMedianChi2 = 1.386;  // two degrees of freedom
    const double typical = std::max(*middle / kMedianChi2, 0.05);
    for (const auto& [frame, distance] : distances) {
        frame->weight = std::min(1.0, kOutlierChi2 * typical / distance);
        chi2 += frame->weight * distance;
        scatter2 +=
            frame->weight * 0.5 *
            (frame->ownOffset.x * frame->ownOffset.x + frame->ownOffset.y * frame->ownOffset.y);
        count += frame->weight;
    }
    // The path takes eight of the 2 n degrees of freedom.
    const double freedom = std::max(0.5, 1.0 - 4.0 / count);
    m_scatterPx = std::sqrt(scatter2 / (count * freedom));
    m_inflation = std::clamp(m_inflation * chi2 / (2.0 * count * freedom), 1.0, 400.0);
    return true;
}

void PathFit::assess() {
    evaluate(m_edgeIsFree ? std::nullopt : std::optional{std::exp(m_shared.logEdge)});
    if (!weighFrames()) {
        return;
    }
    const double inflation = m_inflation;
    m_inflation *= kErrTogether;
    Eigen::MatrixXd normal;
    Eigen::VectorXd right;
    buildSystem(normal, right);
    m_inflation = inflation;
    const Eigen::MatrixXd covariance =
        normal.ldlt().solve(Eigen::MatrixXd::Identity(normal.rows(), normal.cols()));
    m_exposureSigma = std::sqrt(covariance(kShutter, kShutter));
    m_logFocalSigma = std::sqrt(covariance(kFocal, kFocal));
    m_readoutSigma =
        m_readoutIsFree && m_edgeIsFree ? std::sqrt(covariance(kReadoutTime, kReadoutTime)) : 0.0;
    for (std::size_t i = 0; i < m_frames.size(); ++i) {
        Eigen::MatrixXd j = Eigen::MatrixXd::Zero(3, normal.cols());
        j.leftCols(kShared) = jacobian(m_frames[i]).topRows(3);
        j(0, kShared + 2 * static_cast<int>(i)) = 1.0;
        j(1, kShared + 2 * static_cast<int>(i) + 1) = 1.0;
        m_frames[i].covariance = j * covariance * j.transpose();
    }
}

}  // namespace core::image
