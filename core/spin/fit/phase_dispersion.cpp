#include "core/spin/fit/phase_dispersion.h"

#include <vector>

#include "core/base/expects.h"

namespace core::spin::fit {

double dispersionStatistic(double total, double between, double samples,
                           double cellsInUse) noexcept {
    if (samples <= cellsInUse || total <= 0.0) {
        return 1.0;
    }
    return (total - between) / (samples - cellsInUse) * (samples - 1.0) / total;
}

double phaseDispersion(std::span<const double> values, std::span<const int> cells, int cellCount) {
    CORE_EXPECTS(values.size() == cells.size() && cellCount > 0);
    std::vector<double> sums(static_cast<std::size_t>(cellCount));
    std::vector<int> counts(static_cast<std::size_t>(cellCount));
    double mean = 0.0;
    for (const double value : values) {
        mean += value / static_cast<double>(values.size());
    }
    double total = 0.0;
    for (std::size_t i = 0; i < values.size(); ++i) {
        CORE_EXPECTS(cells[i] >= 0 && cells[i] < cellCount);
        const double deviation = values[i] - mean;
        total += deviation * deviation;
        sums[static_cast<std::size_t>(cells[i])] += deviation;
        ++counts[static_cast<std::size_t>(cells[i])];
    }
    double between = 0.0;
    int used = 0;
    for (std::size_t c = 0; c < sums.size(); ++c) {
        if (counts[c] > 0) {
            between += sums[c] * sums[c] / counts[c];
            ++used;
        }
    }
    return dispersionStatistic(total, between, static_cast<double>(values.size()), used);
}

}  // namespace core::spin::fit
