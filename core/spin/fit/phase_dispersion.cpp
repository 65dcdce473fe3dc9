#include "core/spin/fit/phase_dispersion.h"

namespace core::spin::fit {

double dispersionStatistic(double total, double between, double samples,
                           double cellsInUse) noexcept {
    if (samples <= cellsInUse || total <= 0.0) {
        return 1.0;
    }
    return (total - between) / (samples - cellsInUse) * (samples - 1.0) / total;
}

}  // namespace core::spin::fit
