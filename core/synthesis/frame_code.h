#pragma once

#include <cstdint>
#include <optional>

#include "core/base/pixels.h"

namespace core::synthesis {

/// A frame's number as a row of blocks in the top left corner of the picture, so that a program can
/// tell which frame it was given after any encoder.
///
///   | white | black | 20 bits, highest first | 4 check bits |     white = 1, black = 0
///
/// The two blocks in front give the levels of white and black. Check bits: the five groups of four
/// bits of the number, exclusive-or, and 1001.
inline constexpr int kFrameCodeBlockPx = 8;
inline constexpr int kFrameCodeBlocks = 26;
inline constexpr std::int64_t kFrameCodeLimit = std::int64_t{1} << 20;

/// Needs an Rgb8 picture of at least 208 x 8 pixels and a number in [0, kFrameCodeLimit).
void drawFrameCode(PixelBuffer& picture, std::int64_t number);

/// Absent when there is no code, its white and black are too alike, or the check bits disagree.
[[nodiscard]] std::optional<std::int64_t> readFrameCode(const PixelView& picture);

}  // namespace core::synthesis
