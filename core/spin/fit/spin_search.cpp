#include "core/spin/fit/spin_search.h"

#include <Eigen/Geometry>
#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/expects.h"
#include "core/spin/fit/phase_dispersion.h"

namespace core::spin::fit {

namespace {

constexpr int kBands = 12;      // 15 degrees of latitude each
constexpr int kEquator = 24;    // cells on the widest ring: 15 degrees of longitude each
constexpr int kFine = 2;        // shifts are rounded to half a cell
constexpr int kHalfAxes = 128;  // axes on the half sphere: about 13 degrees apart
constexpr double kTurnStep = 0.1;
constexpr double kDistinctTurns = 1.0 / 3.0;
const double kDistinctAxisCosine = std::cos(25.0 * kPi / 180.0);

struct Rings {
    std::array<int, kBands> cells{};  // fine cells of each ring
    std::array<int, kBands> start{};  // in a single map
    int total{};
};

Rings makeRings() {
    Rings rings;
    for (int b = 0; b < kBands; ++b) {
        const double latitude = kPi * ((b + 0.5) / kBands - 0.5);
        const auto i = static_cast<std::size_t>(b);
        rings.cells[i] =
            kFine * std::max(3, static_cast<int>(std::lround(kEquator * std::cos(latitude))));
        rings.start[i] = rings.total;
        rings.total += rings.cells[i];
    }
    return rings;
}

/// Sums of one frame in the rings of one axis; each ring stands twice in a row, so that a shifted
/// ring is one contiguous run.
using FrameMap = std::vector<float>;

template <int kLanes>
void fillMap(const SearchFrame& frame, const Eigen::Matrix3f& axisFrame, const Rings& rings,
             FrameMap& map) {
    std::fill(map.begin(), map.end(), 0.0F);
    constexpr auto kPiF = static_cast<float>(kPi);
    for (Eigen::Index i = 0; i < frame.direction.rows(); ++i) {
        const Eigen::Vector3f p = axisFrame * frame.direction.row(i).transpose();
        const float latitude = std::asin(std::clamp(p.z(), -1.0F, 1.0F));
        const int band =
            std::clamp(static_cast<int>((latitude / kPiF + 0.5F) * kBands), 0, kBands - 1);
        const auto b = static_cast<std::size_t>(band);
        const float turn = std::atan2(p.y(), p.x()) / (2.0F * kPiF) + 0.5F;
        const int cell = std::clamp(static_cast<int>(turn * static_cast<float>(rings.cells[b])), 0,
                                    rings.cells[b] - 1);
        const float w = frame.weight(i);
        for (const int at : {cell, cell + rings.cells[b]}) {
            float* sums = &map[static_cast<std::size_t>(kLanes * (2 * rings.start[b] + at))];
            for (int k = 0; k + 1 < kLanes; ++k) {
                sums[k] += w * frame.colour(i, k);
            }
            sums[kLanes - 1] += w;
        }
    }
}

void addRun(const float* from, float* to, int count) {
    for (int i = 0; i < count; ++i) {
        to[i] += from[i];
    }
}

/// Adds a frame's map, turned back by `turns`, to the sums.
template <int kLanes>
void addShifted(const FrameMap& map, double turns, const Rings& rings, std::vector<float>& sums) {
    const double fraction = turns - std::floor(turns);
    for (std::size_t b = 0; b < kBands; ++b) {
        const int n = rings.cells[b];
        const int shift = static_cast<int>(fraction * n + 0.5) % n;
        addRun(&map[static_cast<std::size_t>(kLanes * (2 * rings.start[b] + shift))],
               &sums[static_cast<std::size_t>(kLanes * rings.start[b])], kLanes * n);
    }
}

struct Explained {
    double between{};
    double cells{};
};

/// Squares explained by the cells' means. Fine cells are joined in pairs here.
template <int kLanes>
Explained explainedBy(const std::vector<float>& sums, int total) {
    Explained result;
    for (int c = 0; c < total; c += kFine) {
        std::array<float, static_cast<std::size_t>(kLanes)> cell{};
        for (int k = 0; k < kFine * kLanes; ++k) {
            cell[static_cast<std::size_t>(k % kLanes)] +=
                sums[static_cast<std::size_t>(c * kLanes + k)];
        }
        const float weight = cell.back();
        if (weight > 0.0F) {
            float squares = 0.0F;
            for (std::size_t k = 0; k + 1 < cell.size(); ++k) {
                squares += cell[k] * cell[k];
            }
            result.between += static_cast<double>(squares / weight);
            result.cells += 1.0;
        }
    }
    return result;
}

/// Axes of the half sphere z >= 0, evenly spread (golden-angle spiral).
std::vector<Eigen::Vector3d> halfSphereAxes() {
    std::vector<Eigen::Vector3d> axes;
    const double golden = kPi * (3.0 - std::sqrt(5.0));
    for (int i = 0; i < kHalfAxes; ++i) {
        const double z = (i + 0.5) / kHalfAxes;
        const double r = std::sqrt(1.0 - z * z);
        axes.emplace_back(r * std::cos(golden * i), r * std::sin(golden * i), z);
    }
    return axes;
}

Eigen::Matrix3f frameAbout(const Eigen::Vector3d& axis) {
    const Eigen::Vector3d helper =
        std::abs(axis.x()) < 0.7 ? Eigen::Vector3d::UnitX() : Eigen::Vector3d::UnitY();
    const Eigen::Vector3d e1 = helper.cross(axis).normalized();
    Eigen::Matrix3d rows;
    rows << e1.transpose(), axis.cross(e1).transpose(), axis.transpose();
    return rows.cast<float>();
}

bool isDistinct(const SearchPeak& a, const SearchPeak& b, double duration) {
    const double na = a.angularVelocity.norm();
    const double nb = b.angularVelocity.norm();
    return a.angularVelocity.dot(b.angularVelocity) < kDistinctAxisCosine * na * nb ||
           std::abs(na - nb) * duration > 2.0 * kPi * kDistinctTurns;
}

std::vector<SearchPeak> distinctBest(std::vector<SearchPeak> all, double duration, int count) {
    std::sort(all.begin(), all.end(),
              [](const SearchPeak& a, const SearchPeak& b) { return a.dispersion < b.dispersion; });
    std::vector<SearchPeak> best;
    for (const SearchPeak& peak : all) {
        if (static_cast<int>(best.size()) == count) {
            break;
        }
        if (std::all_of(best.begin(), best.end(),
                        [&](const SearchPeak& b) { return isDistinct(peak, b, duration); })) {
            best.push_back(peak);
        }
    }
    return best;
}

struct Totals {
    double squares{};
    double samples{};
};

Totals totalsOf(const std::vector<SearchFrame>& frames) {
    Totals totals;
    for (const SearchFrame& frame : frames) {
        const Eigen::VectorXf squares = frame.colour.rowwise().squaredNorm();
        totals.squares += static_cast<double>(squares.dot(frame.weight));
        totals.samples += static_cast<double>(frame.colour.rows());
    }
    return totals;
}

/// The sums of a cell are kLanes numbers: the channels and the weight.
template <int kLanes>
std::vector<SearchPeak> searchAxes(const std::vector<SearchFrame>& frames,
                                   const Interval<RadiansPerSecond>& range,
                                   const std::stop_token& stop) {
    const Rings rings = makeRings();
    const Totals totals = totalsOf(frames);
    const double step = 2.0 * kPi * kTurnStep / (frames.back().time - frames.front().time);
    std::vector<FrameMap> maps(frames.size(),
                               FrameMap(static_cast<std::size_t>(2 * kLanes * rings.total)));
    std::vector<float> sums(static_cast<std::size_t>(kLanes * rings.total));
    std::vector<SearchPeak> all;
    const auto tryRate = [&](const Eigen::Vector3d& axis, double rate) {
        std::fill(sums.begin(), sums.end(), 0.0F);
        for (std::size_t f = 0; f < frames.size(); ++f) {
            addShifted<kLanes>(maps[f], rate * frames[f].time / (2.0 * kPi), rings, sums);
        }
        const Explained explained = explainedBy<kLanes>(sums, rings.total);
        all.push_back({rate * axis, dispersionStatistic(totals.squares, explained.between,
                                                        totals.samples, explained.cells)});
    };
    for (const Eigen::Vector3d& axis : halfSphereAxes()) {
        if (stop.stop_requested()) {
            return {};
        }
        for (std::size_t f = 0; f < frames.size(); ++f) {
            fillMap<kLanes>(frames[f], frameAbout(axis), rings, maps[f]);
        }
        for (double rate = range.low.radiansPerSecond;
             rate <= range.high.radiansPerSecond + 0.5 * step; rate += step) {
            tryRate(axis, rate);
            tryRate(axis, -rate);
        }
    }
    return all;
}

}  // namespace

std::vector<SearchPeak> searchRotation(const std::vector<SearchFrame>& frames,
                                       Interval<RadiansPerSecond> range, int count,
                                       std::stop_token stop) {
    const Eigen::Index channels = frames.front().colour.cols();
    CORE_EXPECTS(channels >= 1 && channels <= 3);
    auto all = channels == 1   ? searchAxes<2>(frames, range, stop)
               : channels == 2 ? searchAxes<3>(frames, range, stop)
                               : searchAxes<4>(frames, range, stop);
    return distinctBest(std::move(all), frames.back().time - frames.front().time, count);
}

}  // namespace core::spin::fit
