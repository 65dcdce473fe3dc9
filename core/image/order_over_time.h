#pragma once

#include <opencv2/core.hpp>
#include <vector>

namespace core::image {

/// Order statistics over time, pixel by pixel and channel by channel: afterwards the first picture
/// holds the smallest value at every place, the last the largest, the middle one the median. The
/// pictures have one size and type. Internal to core/image.
void sortOverTime(std::vector<cv::Mat>& pictures);

}  // namespace core::image
