#pragma once

#include <optional>
#include <span>

#include "core/base/units.h"

/// The readout time of a rolling shutter as the pictures tell it.
///
/// A sensor whose rows are read one after the other during T shows the place p of the picture at
/// t0 + T s(p), where s runs from 0 at the row read first to 1 at the row read last (the geometry
/// of a rolling shutter: C. Geyer, M. Meingast, S. Sastry, Geometric models of rolling-shutter
/// cameras, OMNIVIS 2005). A ball whose centre c moves by v pixels a second is therefore drawn
/// with the point o of its still outline at c + (I + T v g') o to first order, g being the gradient
/// of s: sheared where it moves along the rows, stretched where it moves across them. Derived here:
///   - the shear grows with the speed, is odd in the row and the same in all frames of a flight;
///   - the smear of an exposure e lengthens the outline along v on both sides alike and makes those
///     edges soft: e is fitted beside T, and their correlation is in the uncertainty;
///   - the perspective of a ball off the axis lengthens it away from the picture's middle, so that
///     its part that looks like shear changes sign on the way: ln f is fitted beside T;
///   - shading is left to the free colours of the fit; what of gloss, dark limbs and lens remains
///     is an outline that is off by some tenth of a pixel, with two bulges and two hollows at
///     worst, in all frames alike. It cannot be told from shear and is `commonSigma`.
/// The path itself tells next to nothing: a readout only rescales the time along it and adds an
/// acceleration of T |v| times that of the fall in rows, far below what drag may be.
namespace core::image {

/// What the outlines of one flight, or of several, say: a normal likelihood. The value may be
/// negative or beyond what a camera can have. Plain data.
struct ReadoutEstimate {
    Seconds value;
    Seconds ownSigma;     ///< of this flight alone: averages out over flights
    Seconds commonSigma;  ///< of what flights in the same light have in common

    [[nodiscard]] Seconds sigma() const noexcept;
    bool operator==(const ReadoutEstimate&) const = default;
};

/// No camera is taken to read its rows for longer than this, nor for longer than a frame interval.
inline constexpr Seconds kLongestReadout{0.012};

/// frameInterval: in capture time.
[[nodiscard]] Seconds longestReadout(Seconds frameInterval) noexcept;

/// What is known of a readout time, prior and likelihood together.
struct ReadoutKnowledge {
    Seconds mean;
    Seconds sigma;
    Interval<Seconds> interval95;  ///< the shortest that holds 95 %
};

/// Even prior from 0 to `longest`, times the normal likelihood of the estimate; the prior alone
/// without one. An estimate outside by more than two of its sigmas contradicts the prior; its sigma
/// is then taken as half its distance.
[[nodiscard]] ReadoutKnowledge readoutKnowledge(const std::optional<ReadoutEstimate>& estimate,
                                                Seconds longest);

/// One estimate from several flights of one camera in one mode: their own parts weighted by the
/// inverse of their variances (JCGM 100:2008, 5.1; weights take a tenth of the common part as own),
/// the common parts not averaged. Estimates farther from the weighted median than three of their
/// sigmas get less weight (Huber's), and where they scatter more than they say, the own part grows
/// by the Birge ratio (R. T. Birge, Phys. Rev. 40 (1932) 207). Absent for none.
[[nodiscard]] std::optional<ReadoutEstimate> pooledReadout(
    std::span<const ReadoutEstimate> estimates);

}  // namespace core::image
