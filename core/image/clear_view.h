#pragma once

#include <cstddef>
#include <opencv2/core.hpp>
#include <vector>

#include "core/image/ball_patch.h"

/// What a place looks like without the ball. Internal to core/image.
namespace core::image {

/// Rgb8 pixels of a box of the frame. Errors: those of the source.
[[nodiscard]] Result<cv::Mat> region(FrameSource& source, timebase::FrameIndex index,
                                     const cv::Rect& box);

/// Up to seven frames, those nearest to frame `at` in time, in which the ball (balls, one a frame)
/// keeps clear of the box. Empty when there is none.
[[nodiscard]] std::vector<std::size_t> clearFrames(const std::vector<SweptDisc>& balls,
                                                   std::size_t at, const cv::Rect& box);

/// The median over these frames, one at least, of the place that the box of frame `at` shows.
/// Errors: those of the source.
[[nodiscard]] Result<cv::Mat> medianOf(const PlacedPictures& pictures,
                                       const std::vector<std::size_t>& which, std::size_t at,
                                       const cv::Rect& box);

}  // namespace core::image
