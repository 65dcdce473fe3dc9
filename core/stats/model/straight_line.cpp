#include "core/stats/model/straight_line.h"

#include <cmath>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"
#include "core/stats/sample/co_moments.h"

namespace core::stats {

double StraightLine::errorAt(double x) const noexcept {
    const double arm = (x - centre) * slope.standardError;
    return std::sqrt(residualDeviation * residualDeviation / static_cast<double>(count) +
                     arm * arm);
}

Result<StraightLine> fitStraightLine(const PairedValues& pairs, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    BOOST_OUTCOME_TRY(checkPairs(pairs, toSay("Straight line"), 3));
    const CoMoments moments = coMomentsOf(pairs);
    if (!(moments.x.sumSquares > 0.0L)) {
        return fail(ErrorCode::InvalidInput,
                    said("Straight line: all x are equal, so there is no slope. Add other x."));
    }
    // The residual sum from the residuals themselves: no difference of large sums.
    long double residual = 0.0L;
    for (std::size_t i = 0; i < pairs.x.size(); ++i) {
        const long double error =
            static_cast<long double>(pairs.y[i]) - moments.y.mean -
            moments.slope() * (static_cast<long double>(pairs.x[i]) - moments.x.mean);
        residual += error * error;
    }
    if (!(residual > 0.0L)) {
        return fail(ErrorCode::Untrustworthy,
                    said("Straight line: all points lie on it, so its uncertainty is not known. "
                         "Use readings with finer resolution."));
    }
    const double dof = static_cast<double>(pairs.x.size()) - 2.0;
    const auto variance = static_cast<double>(residual / static_cast<long double>(dof));
    const EstimatedMeans slope{.means = {static_cast<double>(moments.slope())},
                               .covariance = {variance / static_cast<double>(moments.x.sumSquares)},
                               .dof = {dof}};
    const double one[] = {1.0};
    BOOST_OUTCOME_TRY(judged, contrast(slope, one, confidence));
    StraightLine line{
        .centre = static_cast<double>(moments.x.mean),
        .valueAtCentre = static_cast<double>(moments.y.mean),
        .intercept = static_cast<double>(moments.y.mean - moments.slope() * moments.x.mean),
        .slope = judged,
        .residualDeviation = std::sqrt(variance),
        .count = pairs.x.size()};
    line.interceptError = line.errorAt(0.0);
    return line;
}

}  // namespace core::stats
