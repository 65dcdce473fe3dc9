#pragma once

#include <optional>
#include <stop_token>

#include "core/findings/bands.h"
#include "core/findings/compared_means.h"
#include "core/stats/model/studentized_range.h"

namespace core::findings {

/// What a comparison is judged by.
struct ComparisonContext {
    std::optional<Rpm> step;
    const Bands* bands{};
    std::uint64_t seed{};
    int draws{};
    std::stop_token stop;
    const Comparison* earlier{};  ///< of the same scope, judged by the same step; may be null
};

/// Errors: OutOfRange for a number of draws out of range; Cancelled.
Result<Comparison> compare(const ComparedMeans& compared,
                           const std::vector<ImplementFinding>& implements,
                           const ComparisonContext& context);

/// All pairs of comparable means, in the order of the means.
std::vector<PairFinding> comparePairs(const ComparedMeans& compared,
                                      const std::vector<ImplementFinding>& implements,
                                      const ComparisonContext& context);

}  // namespace core::findings
