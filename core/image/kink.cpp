#include "core/image/kink.h"

#include <Eigen/Dense>
#include <algorithm>
#include <cmath>
#include <limits>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/image/median.h"

namespace core::image {

namespace {

constexpr std::size_t kFewestBefore = 3;
constexpr std::size_t kFewestAfter = 2;
constexpr std::size_t kFewestForKink = 6;
constexpr double kCubicShare = 0.03;     // of half the way: drag, lens distortion
constexpr double kQuarticShare = 0.006;  // the same
constexpr double kMostScatters = 5.0;    // for which one frame counts
constexpr double kBelieved = 36.0;       // misfit taken away, in squared scatters
constexpr double kBelievedOverShift = 25.0;
constexpr double kLeastTurn = 0.05;     // change of velocity over velocity
constexpr double kFasterOff = 1.25;     // speeds after and before a strike
constexpr double kTurnedBack = 0.8;     // the same when it turns back; walls give back less
constexpr int kReweighting = 12;        // of reweighting
constexpr int kSmooth = 5;              // powers of time, from the zeroth
constexpr int kUnknowns = kSmooth + 1;  // and what is added
constexpr double kSharpest = 0.005;     // of a frame interval, to which a kink is placed

double speedOf(PointPx v) {
    return std::hypot(v.x, v.y);
}

/// A path of fourth degree, with something added from an instant on.
enum class Added { Nothing, Turn, Shift };

/// The points as they are fitted: time in half spans, place times relative depth.
class KinkPath {
public:
    explicit KinkPath(std::span<const PathPoint> points);

    using Weights = std::vector<double>;
    using Row = Eigen::Matrix<double, kUnknowns, 1>;
    using Normal = Eigen::Matrix<double, kUnknowns, kUnknowns>;
    using Coefficients = Eigen::Matrix<double, kUnknowns, 2>;

    struct Fit {
        Coefficients coefficients;
        Added added{Added::Nothing};
        double at{};
    };

    [[nodiscard]] std::size_t size() const { return m_tau.size(); }
    [[nodiscard]] double tau(std::size_t k) const { return m_tau[k]; }
    [[nodiscard]] Eigen::Vector2d residual(const Fit& fit, std::size_t k) const {
        return m_places[k] - value(fit, m_tau[k]);
    }
    /// Least sum of distances: wrong frames pull little, and no scatter need be known.
    [[nodiscard]] Fit robust(Added added, double at) const;
    [[nodiscard]] double sumOfDistances(const Fit& fit) const;
    [[nodiscard]] double scatterAbout(const Fit& fit) const;
    /// Least misfit with each frame counted as kMostScatters at most, from a robust fit onwards.
    [[nodiscard]] double misfit(Fit fit, double scatter) const;
    [[nodiscard]] Kink kinkOf(const Fit& fit, std::size_t after) const;
    /// How far a further point lies from a fit, in standard deviations of its scatter and of the
    /// path there.
    [[nodiscard]] double strayOf(const Fit& fit, const PathPoint& point) const;
    [[nodiscard]] double leastScatter() const { return m_leastScatter; }

private:
    [[nodiscard]] static Row row(Added added, double at, double tau);
    /// Of the third and fourth powers, in their standard deviations.
    [[nodiscard]] Eigen::Vector2d bentBy(const Fit& fit) const {
        return {fit.coefficients.row(3).norm() / (kCubicShare * m_halfWay),
                fit.coefficients.row(4).norm() / (kQuarticShare * m_halfWay)};
    }
    [[nodiscard]] Eigen::Vector2d value(const Fit& fit, double tau) const {
        return fit.coefficients.transpose() * row(fit.added, fit.at, tau);
    }
    [[nodiscard]] Normal normalOf(Added added, double at, const Weights& weights) const;
    [[nodiscard]] Coefficients solve(Added added, double at, const Weights& weights) const;
    [[nodiscard]] double depth(double tau) const { return 1.0 + m_depthSlope * tau; }

    Seconds m_middle;
    double m_halfSpan{};
    double m_depthSlope{};
    double m_halfWay{};
    double m_leastScatter{};
    PointPx m_origin;
    std::vector<double> m_tau;
    std::vector<Eigen::Vector2d> m_places;
};

KinkPath::KinkPath(std::span<const PathPoint> points) {
    m_middle = {0.5 * (points.front().time.seconds + points.back().time.seconds)};
    m_halfSpan = 0.5 * (points.back().time.seconds - points.front().time.seconds);
    std::vector<double> slopes;
    std::vector<double> radii;
    std::vector<double> scatters;
    for (const PathPoint& point : points) {
        m_tau.push_back((point.time.seconds - m_middle.seconds) / m_halfSpan);
        radii.push_back(point.radiusPx);
        scatters.push_back(point.sigmaPx);
    }
    const double radius = medianOf(radii);
    m_leastScatter = medianOf(scatters);
    for (std::size_t i = 0; i < size(); ++i) {
        for (std::size_t j = i + 1; j < size(); ++j) {
            slopes.push_back(radius * (1.0 / radii[j] - 1.0 / radii[i]) / (m_tau[j] - m_tau[i]));
        }
    }
    constexpr double kSteepest = 0.6;  // depth stays positive, whatever the sizes say
    m_depthSlope = std::clamp(medianOf(std::move(slopes)), -kSteepest, kSteepest);
    m_origin = points[size() / 2].centre;
    for (std::size_t k = 0; k < size(); ++k) {
        const PointPx& at = points[k].centre;
        m_places.emplace_back(depth(m_tau[k]) * (at.x - m_origin.x),
                              depth(m_tau[k]) * (at.y - m_origin.y));
        m_halfWay += k > 0 ? 0.5 * (m_places[k] - m_places[k - 1]).norm() : 0.0;
    }
    m_halfWay = std::max(m_halfWay, 1.0);
}

KinkPath::Row KinkPath::row(Added added, double at, double tau) {
    Row row = Row::Zero();
    double power = 1.0;
    for (int k = 0; k < kSmooth; ++k) {
        row[k] = power;
        power *= tau;
    }
    if (added == Added::Turn) {
        row[kSmooth] = std::max(0.0, tau - at);
    } else if (added == Added::Shift) {
        row[kSmooth] = tau > at ? 1.0 : 0.0;
    }
    return row;
}

// Weights are in units of the least scatter.
KinkPath::Normal KinkPath::normalOf(Added added, double at, const Weights& weights) const {
    Normal normal = Normal::Zero();
    for (std::size_t k = 0; k < size(); ++k) {
        const Row b = row(added, at, m_tau[k]);
        normal.noalias() += (weights[k] * b) * b.transpose();
    }
    normal(3, 3) += std::pow(m_leastScatter / (kCubicShare * m_halfWay), 2);
    normal(4, 4) += std::pow(m_leastScatter / (kQuarticShare * m_halfWay), 2);
    if (added == Added::Nothing) {
        normal(kSmooth, kSmooth) = 1.0;  // stays zero
    }
    return normal;
}

KinkPath::Coefficients KinkPath::solve(Added added, double at, const Weights& weights) const {
    Coefficients right = Coefficients::Zero();
    for (std::size_t k = 0; k < size(); ++k) {
        right.noalias() += (weights[k] * row(added, at, m_tau[k])) * m_places[k].transpose();
    }
    return normalOf(added, at, weights).ldlt().solve(right);
}

KinkPath::Fit KinkPath::robust(Added added, double at) const {
    Weights weights(size(), 1.0);
    Fit fit{{}, added, at};
    for (int round = 0; round < kReweighting; ++round) {
        fit.coefficients = solve(added, at, weights);
        for (std::size_t k = 0; k < size(); ++k) {
            const double distance = residual(fit, k).norm();
            weights[k] = 1.0 / std::max(distance / m_leastScatter, 1.0);
        }
    }
    return fit;
}

double KinkPath::sumOfDistances(const Fit& fit) const {
    double sum = 0.0;
    for (std::size_t k = 0; k < size(); ++k) {
        sum += residual(fit, k).norm();
    }
    return sum;
}

double KinkPath::scatterAbout(const Fit& fit) const {
    std::vector<double> distances;
    for (std::size_t k = 0; k < size(); ++k) {
        distances.push_back(residual(fit, k).norm());
    }
    // A least sum of distances runs through about as many points as it has free unknowns.
    constexpr std::ptrdiff_t kRunThrough = 4;
    std::sort(distances.begin(), distances.end());
    distances.erase(distances.begin(), distances.begin() + kRunThrough);
    constexpr double kMedianRayleigh = 1.1774;
    return std::max(medianOf(std::move(distances)) / kMedianRayleigh, m_leastScatter);
}

double KinkPath::misfit(Fit fit, double scatter) const {
    const auto weighted = [&](double distance) {
        return distance > kMostScatters * scatter ? 0.0 : std::pow(m_leastScatter / scatter, 2);
    };
    const auto total = [&](const Fit& one) {
        double sum = bentBy(one).squaredNorm();
        for (std::size_t k = 0; k < size(); ++k) {
            sum += std::min(residual(one, k).squaredNorm() / (scatter * scatter),
                            kMostScatters * kMostScatters);
        }
        return sum;
    };
    double least = total(fit);
    for (int round = 0; round < kReweighting; ++round) {
        Weights weights;
        for (std::size_t k = 0; k < size(); ++k) {
            weights.push_back(weighted(residual(fit, k).norm()) + 1e-9);
        }
        fit.coefficients = solve(fit.added, fit.at, weights);
        least = std::min(least, total(fit));
    }
    return least;
}

Kink KinkPath::kinkOf(const Fit& fit, std::size_t after) const {
    const double tau = fit.at;
    const auto& c = fit.coefficients;
    Eigen::Vector2d before = Eigen::Vector2d::Zero();
    double power = 1.0;
    for (int k = 1; k < kSmooth; ++k) {
        before += k * power * c.row(k).transpose();
        power *= tau;
    }
    const Eigen::Vector2d later = before + c.row(kSmooth).transpose();
    const Eigen::Vector2d place = value(fit, tau);
    // Picture place is place over depth; depth has the same slope on both sides.
    const auto seen = [&](const Eigen::Vector2d& velocity) {
        const Eigen::Vector2d v =
            (velocity - place * m_depthSlope / depth(tau)) / depth(tau) / m_halfSpan;
        return PointPx{v.x(), v.y()};
    };
    return {{m_middle.seconds + tau * m_halfSpan}, after, seen(before), seen(later)};
}

double KinkPath::strayOf(const Fit& fit, const PathPoint& point) const {
    const double tau = (point.time.seconds - m_middle.seconds) / m_halfSpan;
    const Eigen::Vector2d place{depth(tau) * (point.centre.x - m_origin.x),
                                depth(tau) * (point.centre.y - m_origin.y)};
    const Row b = row(fit.added, fit.at, tau);
    const Normal normal = normalOf(fit.added, fit.at, Weights(size(), 1.0));
    const double variance = 1.0 + b.dot(normal.ldlt().solve(b));
    return (place - value(fit, tau)).norm() / (scatterAbout(fit) * std::sqrt(variance));
}

/// The turn that leaves the least sum of distances, first between all frames, then sharply.
KinkPath::Fit bestTurn(const KinkPath& path, std::size_t& after) {
    KinkPath::Fit best;
    double least = 0.0;
    const auto attempt = [&](double at, std::size_t next) {
        const KinkPath::Fit fit = path.robust(Added::Turn, at);
        const double sum = path.sumOfDistances(fit);
        if (best.added == Added::Nothing || sum < least) {
            least = sum;
            best = fit;
            after = next;
        }
    };
    for (std::size_t next = kFewestBefore; next + kFewestAfter <= path.size(); ++next) {
        attempt(0.5 * (path.tau(next - 1) + path.tau(next)), next);
    }
    const std::size_t rough = after;
    constexpr double kShare = 0.2;
    for (std::size_t next = std::max(rough - 1, kFewestBefore);
         next <= rough + 1 && next + kFewestAfter <= path.size(); ++next) {
        const double from = path.tau(next - 1);
        for (double share = 0.5 * kShare; share < 1.0; share += kShare) {
            attempt(from + share * (path.tau(next) - from), next);
        }
    }
    for (double share = 0.25 * kShare; share > kSharpest; share *= 0.5) {
        const double middle = best.at;
        const double step = share * (path.tau(after) - path.tau(after - 1));
        attempt(std::max(middle - step, path.tau(after - 1)), after);
        attempt(std::min(middle + step, path.tau(after)), after);
    }
    return best;
}

/// A smooth path whose frames from some frame on lie elsewhere.
double leastMisfitWithShift(const KinkPath& path, double scatter) {
    double least = std::numeric_limits<double>::infinity();
    for (std::size_t next = 1; next < path.size(); ++next) {
        const double at = 0.5 * (path.tau(next - 1) + path.tau(next));
        least = std::min(least, path.misfit(path.robust(Added::Shift, at), scatter));
    }
    return least;
}

std::optional<Kink> strongestKink(std::span<const PathPoint> points) {
    if (points.size() < kFewestForKink) {
        return std::nullopt;
    }
    const KinkPath path(points);
    const KinkPath::Fit smooth = path.robust(Added::Nothing, 0.0);
    double largest = 0.0;
    for (std::size_t k = 0; k < path.size(); ++k) {
        largest = std::max(largest, path.residual(smooth, k).norm());
    }
    if (largest < 2.0 * path.leastScatter()) {
        return std::nullopt;
    }
    std::size_t after = 0;
    const KinkPath::Fit turn = bestTurn(path, after);
    const double scatter = path.scatterAbout(turn);
    const double withTurn = path.misfit(turn, scatter);
    if (path.misfit(smooth, scatter) - withTurn < kBelieved) {
        return std::nullopt;
    }
    const Kink kink = path.kinkOf(turn, after);
    const PointPx change{kink.velocityAfter.x - kink.velocityBefore.x,
                         kink.velocityAfter.y - kink.velocityBefore.y};
    if (speedOf(change) <
        kLeastTurn * std::max(speedOf(kink.velocityBefore), speedOf(kink.velocityAfter))) {
        return std::nullopt;
    }
    return leastMisfitWithShift(path, scatter) - withTurn < kBelievedOverShift
               ? std::nullopt
               : std::optional{kink};
}

void addKinks(std::span<const PathPoint> points, std::size_t begin, std::vector<Kink>& kinks) {
    auto kink = strongestKink(points);
    if (!kink) {
        return;
    }
    const std::size_t at = kink->after;
    addKinks(points.first(at), begin, kinks);
    kink->after += begin;
    kinks.push_back(*kink);
    addKinks(points.subspan(at), begin + at, kinks);
}

}  // namespace

bool isStruck(PointPx before, PointPx after) noexcept {
    const double gain = speedOf(after) / std::max(speedOf(before), 1e-9);
    return gain >= kFasterOff || (before.x * after.x < 0.0 && gain >= kTurnedBack);
}

bool Kink::isStrike() const noexcept {
    return isStruck(velocityBefore, velocityAfter);
}

std::vector<Kink> findKinks(std::span<const PathPoint> points) {
    std::vector<Kink> kinks;
    addKinks(points, 0, kinks);
    return kinks;
}

std::optional<std::size_t> strayEnd(std::span<const PathPoint> points) {
    constexpr double kStrayScatters = 6.0;
    constexpr std::size_t kMostStray = 2;
    for (std::size_t stray = kMostStray; stray > 0; --stray) {
        if (points.size() < kFewestForKink + stray) {
            continue;
        }
        const std::size_t kept = points.size() - stray;
        const KinkPath path(points.first(kept));
        const auto smooth = path.robust(Added::Nothing, 0.0);
        const auto further = points.subspan(kept);
        if (std::all_of(further.begin(), further.end(), [&](const PathPoint& point) {
                return path.strayOf(smooth, point) > kStrayScatters;
            })) {
            return kept;
        }
    }
    return std::nullopt;
}

PathPart shotAmong(std::span<const Kink> kinks, std::size_t points) {
    PathPart part{0, points};
    for (std::size_t k = 0; k < kinks.size(); ++k) {
        if (kinks[k].isStrike()) {
            part = {kinks[k].after, points};
        } else {
            part.end = std::min(part.end, kinks[k].after);
        }
    }
    return part;
}

std::string tooFewBeforeKink(std::size_t frames, timebase::FrameIndex kink) {
    return saidOf(
        frames,
        "Only {} frame shows the whole ball before its path turns abruptly in frame {} (it "
        "bounces, or meets a net, a racket or a hand), which changes its spin. A reading needs {}: "
        "film so that the ball is longer in view before it bounces, or with more frames a second.",
        "Only {} frames show the whole ball before its path turns abruptly in frame {} (it "
        "bounces, or meets a net, a racket or a hand), which changes its spin. A reading needs {}: "
        "film so that the ball is longer in view before it bounces, or with more frames a second.",
        frames, kink.value, kFewestBeforeKink);
}

std::string cutAtKink(timebase::FrameIndex kink) {
    return toKeep(
        "The ball's path turns abruptly in frame {} (it bounces, or meets a net, a racket or a "
        "hand), which changes its spin: only the frames before it were read.",
        kink.value);
}

}  // namespace core::image
