#pragma once

#include <algorithm>
#include <vector>

namespace core::image {

/// Of an even number of values the upper one of the middle; at least one value.
[[nodiscard]] inline double medianOf(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    return *middle;
}

}  // namespace core::image
