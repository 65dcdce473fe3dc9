#pragma once

#include <string>
#include <string_view>

#include "core/reading/read_shot.h"

/// What the pictures of a shot said, kept so that it need not be read again: track, fit, pattern
/// and flight. A cache, not a record: what counts in a project is in its readings.
namespace core::reading {

/// A few ten kilobytes of CBOR (RFC 8949).
[[nodiscard]] std::string toArchive(const PictureReading& reading);

/// Errors: Damaged when the bytes are not such an archive.
Result<PictureReading> fromArchive(std::string_view bytes);

}  // namespace core::reading
