#pragma once

/// Phase dispersion minimisation: R. F. Stellingwerf, Astrophysical Journal 224 (1978) 953.
namespace core::spin::fit {

/// Theta = s^2 / sigma^2 (his eq. 3) from sums of squares: the pooled variance inside the cells
/// over the variance of all samples. total: squares about the mean of all; between: the part
/// explained by the cells' means. About 1 for a wrong period, towards 0 for the right one. Returns
/// 1 when there are not more samples than cells in use, or no variance.
[[nodiscard]] double dispersionStatistic(double total, double between, double samples,
                                         double cellsInUse) noexcept;

}  // namespace core::spin::fit
