#pragma once

#include <array>
#include <cstdint>
#include <vector>

#include "core/synthesis/light_transfer.h"
#include "core/synthesis/scene.h"

namespace core::synthesis {

/// Whether the mark (the part not in the base colour) covers the place p of the ball's own unit
/// sphere. `hiddenPole` is the place of the dot of Marking::Hidden and is ignored otherwise.
[[nodiscard]] bool isMarked(Marking marking, const std::array<float, 3>& p,
                            const std::array<float, 3>& hiddenPole) noexcept;

/// The colours of one ball's surface. Immutable.
class BallSurface {
public:
    BallSurface(const Flight& flight, std::uint64_t seed);

    [[nodiscard]] bool isMarkedAt(const std::array<float, 3>& p) const noexcept {
        return isMarked(m_marking, p, m_hiddenPole);
    }
    /// Share of the light that the surface throws back, per channel. p is a unit vector in the
    /// ball's own frame.
    [[nodiscard]] LinearColour albedo(const std::array<float, 3>& p) const noexcept;

private:
    Marking m_marking;
    LinearColour m_base;
    LinearColour m_mark;
    std::array<float, 3> m_hiddenPole{};
    std::vector<float> m_grain;  ///< six faces of a cube, row-major
};

}  // namespace core::synthesis
