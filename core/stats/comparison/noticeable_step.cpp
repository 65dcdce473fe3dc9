#include "core/stats/comparison/noticeable_step.h"

#include "core/base/words.h"
#include "core/stats/sample/checks.h"

namespace core::stats {

Result<StepVerdict> judgeStep(const DifferenceIntervals& intervals, NoticeableStep step) {
    BOOST_OUTCOME_TRY(checkPositive(step.size, toSay("The noticeable step")));
    const auto& difference = intervals.ofDifference;
    const auto& equivalence = intervals.ofEquivalence;
    if (difference.low >= step.size || difference.high <= -step.size) {
        return StepVerdict::DiffersByAtLeast;
    }
    if (equivalence.low <= -step.size || equivalence.high >= step.size) {
        return StepVerdict::NotSettled;
    }
    return difference.low > 0.0 || difference.high < 0.0 ? StepVerdict::DiffersByLess
                                                         : StepVerdict::Equivalent;
}

}  // namespace core::stats
