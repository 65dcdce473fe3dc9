#pragma once

#include "core/base/result.h"
#include "core/base/units.h"

namespace core::stats {

/// Smallest difference that matters to the tester, greater than zero.
struct NoticeableStep {
    double size{};
};

/// What can be said of a difference against a noticeable step.
enum class StepVerdict {
    DiffersByAtLeast,  ///< the whole interval lies beyond the step on one side
    DiffersByLess,     ///< it differs, and by less than the step
    Equivalent,        ///< less than the step, and not shown to differ
    NotSettled,        ///< the interval holds the step on either side
};

/// Intervals of one difference within its family.
struct DifferenceIntervals {
    Interval<double> ofDifference{};  ///< level 1 - alpha: leaves out zero if it differs
    /// Level 1 - 2 alpha: lies inside the step if equivalent (two one-sided tests, Schuirmann 1987,
    /// J. Pharmacokinet. Biopharm. 15:657-680).
    Interval<double> ofEquivalence{};
};

/// The four verdicts. An end that lies exactly on the step counts as beyond it.
/// Errors: OutOfRange for a step of zero or less; NotFinite.
Result<StepVerdict> judgeStep(const DifferenceIntervals& intervals, NoticeableStep step);

}  // namespace core::stats
