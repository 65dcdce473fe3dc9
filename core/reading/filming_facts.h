#pragma once

#include <optional>

#include "core/base/units.h"
#include "core/image/flight_facts.h"
#include "core/image/track_ball.h"
#include "core/project/model.h"

namespace core::reading {

/// What is known of camera and ball when a clip was filmed: what readings by marks and from the
/// pictures rest on alike. Everything may be left open.
struct FilmingFacts {
    /// Across the longer side of the picture; absent: the fit estimates it from the pictures.
    std::optional<Measured<Radians>> fieldOfView;
    /// From the row read first to the last; zero for a global shutter; absent: estimated from the
    /// pictures.
    std::optional<Seconds> readout;
    image::RowOrder rowOrder{image::RowOrder::Down};
    std::optional<Seconds> exposure;  ///< absent: as the smear of the ball says
    std::optional<Measured<image::Metres>> ballDiameter;
    /// The marking looks the same after 1/markingSymmetry of a turn (1: unique).
    int markingSymmetry{1};
    /// Decides where the pictures leave two senses of turning; see requestOf().
    project::Stroke stroke{project::Stroke::NotKnown};
};

/// The facts of a clip of this session, without the stroke, which is a shot's.
///
/// The field of view is the one that the tester states (across the width of the picture as shown),
/// else that of the lens data in the file. The standard uncertainty of a stated one is 1 degree,
/// or 2 % of it where that is more: the number is rounded, and the crop of a video mode, which
/// scales with the picture, is seldom known better. That of a ball's diameter is 1 %, by which
/// balls of one make differ. (Common practice, no source, all three.)
[[nodiscard]] FilmingFacts factsOf(const project::Session& session, const project::Clip& clip);

/// In pixels of a picture of this size; absent when the field of view is not known.
[[nodiscard]] std::optional<double> focalLengthPx(const FilmingFacts& facts, int widthPx,
                                                  int heightPx);

/// The options that facts mean for the tracking of a picture of this size.
[[nodiscard]] image::TrackOptions trackOptions(const FilmingFacts& facts, int widthPx,
                                               int heightPx);

}  // namespace core::reading
