#include "core/stats/comparison/cochran.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"

namespace core::stats {

Result<CochranResult> cochranTest(std::span<const ScatterOfCell> cells) {
    std::vector<double> variances;
    double squares = 0.0;
    double dof = 0.0;
    for (const ScatterOfCell& cell : cells) {
        BOOST_OUTCOME_TRY(checkPositive(cell.dof.value, toSay("Cochran test: degrees of freedom")));
        if (cell.variance < 0.0) {
            return fail(ErrorCode::OutOfRange, said("Cochran test: a variance is negative."));
        }
        variances.push_back(cell.variance);
        squares += cell.variance * cell.dof.value;
        dof += cell.dof.value;
    }
    BOOST_OUTCOME_TRY(checkValues(variances, toSay("Cochran test"), 2));
    CochranResult result{.pValue = 1.0};
    const auto count = static_cast<double>(cells.size());
    double sum = 0.0;
    for (const double variance : variances) {
        sum += variance;
    }
    for (std::size_t i = 0; i < cells.size(); ++i) {
        const double othersDof = dof - cells[i].dof.value;
        const double others = std::max(
            (squares - cells[i].variance * cells[i].dof.value) / othersDof, cells[i].leastOfOthers);
        if (!(cells[i].variance > others)) {
            continue;  // never the largest
        }
        const double p =
            others > 0.0
                ? std::min(1.0, count * FDistribution{{cells[i].dof, {othersDof}}}.upperTail(
                                            cells[i].variance / others))
                : 0.0;
        if (p < result.pValue) {
            result = {i, cells[i].variance / sum, p, OutlierWord::Ordinary};
        }
    }
    if (result.pValue < 0.05) {
        result.word = result.pValue < 0.01 ? OutlierWord::Outlier : OutlierWord::Straggler;
    }
    return result;
}

}  // namespace core::stats
