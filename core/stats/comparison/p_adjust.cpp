#include "core/stats/comparison/p_adjust.h"

#include <algorithm>
#include <numeric>
#include <string>

#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

// Factor of the p value at a rank (from one, smallest first) among n.
double factorAt(Adjustment method, double rank, double n) {
    double harmonic = 0.0;
    switch (method) {
        case Adjustment::Bonferroni:
            return n;
        case Adjustment::Holm:
        case Adjustment::Hochberg:
            return n - rank + 1.0;
        case Adjustment::BenjaminiHochberg:
            return n / rank;
        case Adjustment::BenjaminiYekutieli:
            for (double i = 1.0; i <= n; i += 1.0) {
                harmonic += 1.0 / i;
            }
            return harmonic * n / rank;
    }
    return n;
}

}  // namespace

Result<std::vector<double>> adjustPValues(std::span<const double> pValues, Adjustment method) {
    BOOST_OUTCOME_TRY(checkValues(pValues, "Adjustment of p values", 1));
    for (const double p : pValues) {
        if (p < 0.0 || p > 1.0) {
            return fail(ErrorCode::OutOfRange, "Adjustment of p values: " + std::to_string(p) +
                                                   " does not lie between 0 and 1.");
        }
    }
    std::vector<std::size_t> order(pValues.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::sort(order.begin(), order.end(),
              [&](std::size_t a, std::size_t b) { return pValues[a] < pValues[b]; });
    std::vector<double> sorted;
    for (std::size_t i = 0; i < order.size(); ++i) {
        const double factor =
            factorAt(method, static_cast<double>(i + 1), static_cast<double>(pValues.size()));
        sorted.push_back(std::min(1.0, factor * pValues[order[i]]));
    }
    // Step down keeps the largest so far, step up the smallest still to come.
    if (method == Adjustment::Holm) {
        for (std::size_t i = 1; i < sorted.size(); ++i) {
            sorted[i] = std::max(sorted[i], sorted[i - 1]);
        }
    } else if (method != Adjustment::Bonferroni) {
        for (std::size_t i = sorted.size() - 1; i > 0; --i) {
            sorted[i - 1] = std::min(sorted[i - 1], sorted[i]);
        }
    }
    std::vector<double> adjusted(pValues.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        adjusted[order[i]] = sorted[i];
    }
    return adjusted;
}

}  // namespace core::stats
