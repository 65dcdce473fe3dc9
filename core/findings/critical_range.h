#pragma once

#include <vector>

#include "core/stats/model/studentized_range.h"

namespace core::findings {

/// Quantiles of the studentized range for many degrees of freedom between two of them: a Chebyshev
/// series of log q in 1/dof, since each quantile by itself is a search. Agrees with the
/// distribution to seven digits and more. Immutable.
class CriticalRange {
public:
    /// 1 <= least <= greatest, greatest may be infinite.
    CriticalRange(const stats::StudentizedRange& range, stats::Probability alpha,
                  stats::DegreesOfFreedom least, stats::DegreesOfFreedom greatest);

    /// dof between least and greatest.
    [[nodiscard]] double at(stats::DegreesOfFreedom dof) const noexcept;

private:
    /// Coefficients through the quantiles at so many Chebyshev points.
    [[nodiscard]] std::vector<double> seriesOf(const stats::StudentizedRange& range,
                                               stats::Probability alpha, std::size_t nodes) const;

    double m_low;   // least 1/dof
    double m_high;  // greatest 1/dof
    std::vector<double> m_series;
};

}  // namespace core::findings
