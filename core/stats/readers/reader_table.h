#pragma once

#include <cstddef>
#include <span>

namespace core::stats {

/// Readings of the same shots by the same readers, the same number of times each.
struct ReaderTable {
    std::size_t shots{};
    std::size_t readers{};
    std::size_t repeats{1};
    /// shots x readers x repeats values, the last running fastest.
    std::span<const double> values{};
};

}  // namespace core::stats
