#pragma once

#include <optional>
#include <string>

#include "core/base/units.h"
#include "core/media/file/clip_index.h"

namespace core::media {

/// What a file says of the lens it was filmed through.
struct LensData {
    std::string tag;                   ///< the key, as in the file
    double equivalentFocalLengthMm{};  ///< of a frame of 36 mm x 24 mm, by the diagonals
};

/// The lens of a clip: phones write a key that ends in "focal_length.35mm_equivalent" into the list
/// of QuickTime metadata (seen in files, no published source); the value means what
/// FocalLengthIn35mmFilm means in Exif (CIPA DC-008, tag A405). Absent when no such tag stands in
/// the file or its value is no focal length between 5 and 1000 mm.
[[nodiscard]] std::optional<LensData> lensOf(const StreamFacts& facts);

/// Angle across the longer side of a picture of this size, 2 atan(s/d * D/2f) with s the longer
/// side, d the diagonal of the picture in px, D = 43.27 mm the diagonal of 36 mm x 24 mm and f the
/// equivalent focal length. The standard uncertainty is that of the scale, taken as 8 %: a video
/// mode crops and steadies the picture by an amount that the tag does not tell (common practice,
/// no source).
[[nodiscard]] Measured<Radians> fieldOfViewAcrossLongerSide(double equivalentFocalLengthMm,
                                                            int widthPx, int heightPx);

/// What the lens data say and what they are used for, a sentence for the reviewer.
[[nodiscard]] std::string lensWords(const LensData& lens, int widthPx, int heightPx);

}  // namespace core::media
