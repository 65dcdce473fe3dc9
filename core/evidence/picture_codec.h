#pragma once

#include <string>
#include <string_view>

#include "core/base/pixels.h"
#include "core/base/result.h"

/// The kept pictures of a shot: made from its film, looked at without it, let go again.
namespace core::evidence {

/// Media type of what encodePicture() writes.
inline constexpr std::string_view kPictureCodec = "image/webp";

/// A picture of three bytes a pixel as lossy WebP (RFC 9649) of a quality at which a mark on the
/// ball stays where it was. Errors: WriteFailed.
Result<std::string> encodePicture(PixelView picture);
/// Errors: Unsupported for another codec; Damaged when the bytes are no such picture.
Result<PixelBuffer> decodePicture(std::string_view codec, std::string_view bytes);

}  // namespace core::evidence
