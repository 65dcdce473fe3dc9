#include "core/image/outline_fit.h"

#include <algorithm>
#include <cmath>

namespace core::image {

namespace {

constexpr double kSectorPx = 8.0;  // length of a sector along the outline
constexpr int kMinSectors = 12;
constexpr int kMaxSectors = 64;
// Of the radius; shading bends towards the rim, so what lies inside would only bias the colours
// there.
constexpr double kInnermost = 0.9;
constexpr double kHuber = 2.0;  // times the noise
constexpr double kMinNoiseLevels = 0.8;
constexpr double kColourRidge = 1e-3;  // keeps empty sectors solvable

using Row = Eigen::Matrix<double, kOutlineParameters, 1>;

/// Cover of a pixel and its derivatives, with its place in the pattern of colours.
struct Cover {
    PatchPixel* pixel{};
    double cover{};
    Row slope = Row::Zero();
    int sector{};
    Eigen::Vector3d basis =
        Eigen::Vector3d::Zero();  ///< cover times (1, depth below the edge, angle in the sector)
};

/// The swept outline, prepared for many pixels.
class SweptOutline {
public:
    SweptOutline(const Camera& picture, const OutlineState& state) : m_state{state} {
        const double focal = std::exp(state.logFocal);
        m_axialRadius = std::exp(state.logAxialRadius);
        const PointPx middle = picture.principalPoint();
        const double ux = state.centre.x - middle.x;
        const double uy = state.centre.y - middle.y;
        const double z2 = std::max(4.0, std::pow(focal / m_axialRadius, 2));
        const double offAxis = std::hypot(ux, uy);
        const double slope = offAxis / focal;
        m_shift = {ux / (z2 - 1.0), uy / (z2 - 1.0)};
        m_minor = focal / std::sqrt(z2 - 1.0);
        m_major = focal * std::sqrt(z2 * (1.0 + slope * slope) - 1.0) / (z2 - 1.0);
        m_majorByLogFocal = -m_axialRadius * slope * slope / std::sqrt(1.0 + slope * slope);
        m_ex = offAxis > 0.0 ? ux / offAxis : 1.0;
        m_ey = offAxis > 0.0 ? uy / offAxis : 0.0;
        m_half = std::exp(state.logEdge);
        m_smear = {state.velocity.x * state.exposureSeconds,
                   state.velocity.y * state.exposureSeconds};
        const double length = std::hypot(m_smear.x, m_smear.y);
        m_steps = std::clamp(static_cast<int>(std::ceil(length / (0.9 * m_half))), 1, 40);
    }

    [[nodiscard]] double meanRadius() const { return std::sqrt(m_major * m_minor); }
    [[nodiscard]] double smearLength() const { return std::hypot(m_smear.x, m_smear.y); }
    [[nodiscard]] double halfWidth() const { return m_half; }

    struct Local {
        double along{};  ///< in the ellipse's axes, pixels from its centre
        double across{};
        double rho{};  ///< 1 on the outline
    };

    [[nodiscard]] Local local(double x, double y, double phase) const {
        // A row read later shows the ball farther on its way: take that out first.
        const double late = m_state.readoutSeconds * rowsBelowCentre(x, y);
        const double dx =
            x - m_state.centre.x - m_state.velocity.x * late - m_shift.x - m_smear.x * phase;
        const double dy =
            y - m_state.centre.y - m_state.velocity.y * late - m_shift.y - m_smear.y * phase;
        Local at;
        at.along = m_ex * dx + m_ey * dy;
        at.across = -m_ey * dx + m_ex * dy;
        const double a = at.along / m_major;
        const double b = at.across / m_minor;
        at.rho = std::sqrt(a * a + b * b);
        return at;
    }

    /// rho: of the pixel at mid exposure.
    void coverOf(Cover& out, double rho) const {
        const double x = out.pixel->x;
        const double y = out.pixel->y;
        const double reach = m_half + 0.5 * smearLength();
        if ((1.0 - rho) * m_minor >= reach) {
            out.cover = 1.0;
            return;
        }
        if ((rho - 1.0) * m_minor >= reach) {
            return;
        }
        for (int k = 0; k < m_steps; ++k) {
            addPhase((k + 0.5) / m_steps - 0.5, x, y, out);
        }
        out.cover /= m_steps;
        out.slope /= m_steps;
    }

private:
    /// Of all rows, the share read between the centre's and this place's.
    [[nodiscard]] double rowsBelowCentre(double x, double y) const {
        return m_state.rowPerPx.x * (x - m_state.centre.x) +
               m_state.rowPerPx.y * (y - m_state.centre.y);
    }

    void addPhase(double phase, double x, double y, Cover& out) const {
        const Local at = local(x, y, phase);
        const double radial = (at.rho - 1.0) * m_minor;  // never farther than the true distance
        if (radial >= m_half) {
            return;
        }
        if (radial <= -m_half) {
            out.cover += 1.0;
            return;
        }
        const double ga = at.along / (m_major * m_major);
        const double gb = at.across / (m_minor * m_minor);
        const double steepness = std::sqrt(ga * ga + gb * gb);
        const double distance = (at.rho - 1.0) * at.rho / steepness;
        const double z = std::clamp(distance / m_half, -1.0, 1.0);
        out.cover += 0.5 - 0.75 * z + 0.25 * z * z * z;
        const double fall = 0.75 * (1.0 - z * z) / m_half;  // -d cover / d distance
        const double na = ga / steepness;
        const double nb = gb / steepness;
        const double nx = m_ex * na - m_ey * nb;
        const double ny = m_ey * na + m_ex * nb;
        const double along = m_state.velocity.x * nx + m_state.velocity.y * ny;
        const double perRow = m_state.readoutSeconds * along;
        out.slope[kCentreX] += fall * (nx - perRow * m_state.rowPerPx.x);
        out.slope[kCentreY] += fall * (ny - perRow * m_state.rowPerPx.y);
        out.slope[kReadout] += fall * along * rowsBelowCentre(x, y);
        out.slope[kLogRadius] += fall * (na * at.along + nb * at.across);
        out.slope[kExposure] += fall * phase * along;
        out.slope[kLogFocal] += fall * (na * at.along / m_major * m_majorByLogFocal -
                                        2.0 * (nx * m_shift.x + ny * m_shift.y));
        out.slope[kLogEdge] += fall * distance;
    }

    OutlineState m_state;
    double m_axialRadius{};
    double m_minor{};
    double m_major{};
    double m_majorByLogFocal{};
    double m_ex{1.0};
    double m_ey{};
    double m_half{1.0};
    PointPx m_shift;
    PointPx m_smear;
    int m_steps{1};
};

/// Colours of one sector: a plane for each channel, and the sums that eliminate them.
struct Sector {
    Eigen::Matrix3d normal = Eigen::Matrix3d::Identity() * kColourRidge;
    Eigen::Matrix3d right = Eigen::Matrix3d::Zero();  ///< one column a channel
    Eigen::Matrix3d colour = Eigen::Matrix3d::Zero();
    std::array<Eigen::Matrix<double, 3, kOutlineParameters>, 3> cross;
    Sector() { cross.fill(Eigen::Matrix<double, 3, kOutlineParameters>::Zero()); }
};

std::vector<Cover> coversOf(BallPatch& patch, const SweptOutline& outline,
                            const OutlineState& state, int sectors, std::size_t stride,
                            OutlineEquations& out) {
    const double radius = outline.meanRadius();
    const double sweep = 0.5 * outline.smearLength();
    const double inner = std::max(0.0, kInnermost - (sweep + outline.halfWidth()) / radius);
    const double outer = 1.0 + (sweep + outline.halfWidth() + 3.0) / (0.8 * radius);
    double inside = 0.0;
    double insideChanged = 0.0;
    double around = 0.0;
    double aroundChanged = 0.0;
    std::vector<Cover> covers;
    covers.reserve(patch.pixels.size());
    for (std::size_t i = 0; i < patch.pixels.size(); i += stride) {
        PatchPixel& pixel = patch.pixels[i];
        const auto at = outline.local(pixel.x, pixel.y, 0.0);
        const double changed = pixel.change > patch.changedLevels ? 1.0 : 0.0;
        if (at.rho > outer) {
            around += 1.0;
            aroundChanged += changed;
            continue;
        }
        if (at.rho < 0.9) {
            inside += 1.0;
            insideChanged += changed;
        }
        if (at.rho < inner) {
            continue;
        }
        Cover one;
        one.pixel = &pixel;
        outline.coverOf(one, at.rho);
        if (one.cover <= 0.0) {
            around += 1.0;
            aroundChanged += changed;
            covers.push_back(one);  // tells the noise of the background
            continue;
        }
        const double turn = (std::atan2(static_cast<double>(pixel.y) - state.centre.y,
                                        static_cast<double>(pixel.x) - state.centre.x) /
                                 (2.0 * kPi) +
                             0.5) *
                            sectors;
        one.sector = std::min(sectors - 1, static_cast<int>(turn));
        one.basis = one.cover * Eigen::Vector3d(1.0, 1.0 - at.rho, turn - one.sector - 0.5);
        covers.push_back(one);
    }
    out.changedInside = inside > 0.0 ? insideChanged / inside : 0.0;
    out.changedAround = around > 0.0 ? aroundChanged / around : 0.0;
    return covers;
}

Eigen::Vector3d toVector(const std::array<float, 3>& light) {
    return Eigen::Vector3d(light[0], light[1], light[2]);
}

void solveColours(const std::vector<Cover>& covers, std::vector<Sector>& sectors) {
    for (const Cover& one : covers) {
        if (one.cover > 0.0) {
            Sector& sector = sectors[static_cast<std::size_t>(one.sector)];
            const Eigen::Vector3d own =
                toVector(one.pixel->seen) - (1.0 - one.cover) * toVector(one.pixel->background);
            const Eigen::Vector3d weighted =
                static_cast<double>(one.pixel->weight * one.pixel->robust) * one.basis;
            sector.normal.noalias() += weighted * one.basis.transpose();
            sector.right.noalias() += weighted * own.transpose();
        }
    }
    for (Sector& sector : sectors) {
        sector.colour = sector.normal.ldlt().solve(sector.right);
    }
}

/// Sums over the pixels of a frame, colours not yet eliminated.
struct Sums {
    OutlineMatrix information = OutlineMatrix::Zero();
    OutlineVector gradient = OutlineVector::Zero();
    double cost{};
    std::vector<float> sizes;  ///< of the residuals, levels of 255, one a pixel
};

Sums sumUp(const std::vector<Cover>& covers, std::vector<Sector>& sectors) {
    Sums sums;
    sums.sizes.reserve(covers.size());
    for (const Cover& one : covers) {
        Sector& sector = sectors[static_cast<std::size_t>(one.sector)];
        const Eigen::Vector3d behind = toVector(one.pixel->background);
        const Eigen::Vector3d drawn = sector.colour.transpose() * one.basis;
        const Eigen::Vector3d residual =
            toVector(one.pixel->seen) - (1.0 - one.cover) * behind - drawn;
        const double weight = one.pixel->weight;
        const double used = weight * static_cast<double>(one.pixel->robust);
        const double square = weight * residual.squaredNorm();
        sums.cost += 0.5 * square * static_cast<double>(one.pixel->robust);
        sums.sizes.push_back(static_cast<float>(std::sqrt(square / 3.0)));
        constexpr double kFaintest = 0.02;
        if (one.cover < 1.0 && one.cover > kFaintest) {
            const Eigen::Vector3d contrast = drawn / one.cover - behind;
            sums.information.noalias() +=
                (used * contrast.squaredNorm() * one.slope) * one.slope.transpose();
            sums.gradient -= used * contrast.dot(residual) * one.slope;
            for (int c = 0; c < 3; ++c) {
                sector.cross[static_cast<std::size_t>(c)].noalias() +=
                    (used * contrast[c] * one.basis) * one.slope.transpose();
            }
        }
    }
    for (const Sector& sector : sectors) {
        const auto solver = sector.normal.ldlt();
        for (const auto& cross : sector.cross) {
            sums.information.noalias() -= cross.transpose() * solver.solve(cross);
        }
    }
    return sums;
}

}  // namespace

OutlineEquations outlineEquations(BallPatch& patch, const Camera& picture,
                                  const OutlineState& state, std::size_t stride) {
    const SweptOutline outline(picture, state);
    OutlineEquations out;
    const int count =
        std::clamp(static_cast<int>(std::lround(2.0 * kPi * outline.meanRadius() / kSectorPx)),
                   kMinSectors, kMaxSectors);
    std::vector<Cover> covers = coversOf(patch, outline, state, count, stride, out);
    if (covers.empty()) {
        return out;
    }
    std::vector<Sector> sectors(static_cast<std::size_t>(count));
    solveColours(covers, sectors);
    const Sums sums = sumUp(covers, sectors);

    std::vector<float> sorted = sums.sizes;
    const auto middle = sorted.begin() + static_cast<std::ptrdiff_t>(sorted.size() / 2);
    std::nth_element(sorted.begin(), middle, sorted.end());
    // Median of the length of three normal components over sqrt(3): 0.888 sigma (chi, 3 d.o.f.).
    const double noise = std::max(kMinNoiseLevels, static_cast<double>(*middle) / 0.888);
    for (std::size_t i = 0; i < covers.size(); ++i) {
        const double size = static_cast<double>(sums.sizes[i]) / noise;
        covers[i].pixel->robust = static_cast<float>(size <= kHuber ? 1.0 : kHuber / size);
    }
    const double scale = static_cast<double>(stride) / (noise * noise);
    out.information = sums.information * scale;
    out.gradient = sums.gradient * scale;
    out.cost = sums.cost * scale;
    out.noiseLevels = noise;
    return out;
}

}  // namespace core::image
