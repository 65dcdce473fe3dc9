#pragma once

namespace core::timebase {

/// Standard acceleration of free fall in m/s² (3rd CGPM, 1901; SI Brochure).
inline constexpr double kStandardGravity = 9.80665;

/// What the fall of a ball says of the capture rate that it was computed with.
enum class FallVerdict {
    Fits,        ///< within a factor of two of free fall: lift and drag do that
    DoesNotFit,  ///< a factor of three off or more, and more than three standard uncertainties from
                 ///< what fits: a wrong rate does that, nothing in the air
    CannotTell,  ///< between the two, not well known, or the ball does not fall
};

/// The rule of the gravity check. A rate wrong by two is wrong by four in acceleration; drag and
/// lift change it by tens of per cent, so this catches factors and not per cents. Nothing is said
/// when the relative standard uncertainty is above 30 %.
[[nodiscard]] FallVerdict judgeFall(double downwardMPerS2, double sigmaMPerS2) noexcept;

}  // namespace core::timebase
