#pragma once

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/stats/model/distributions.h"
#include "core/stats/readers/reader_table.h"

namespace core::stats {

/// An intraclass correlation with its interval.
struct IntraclassCorrelation {
    double value{};
    Interval<double> interval{};
};

/// The six forms of Shrout and Fleiss for shots (targets) read by readers (judges).
struct IntraclassForms {
    IntraclassCorrelation oneWaySingle{};   ///< ICC(1,1): other readers for each shot
    IntraclassCorrelation randomSingle{};   ///< ICC(2,1): readers sampled, agreement of one
    IntraclassCorrelation fixedSingle{};    ///< ICC(3,1): these readers, consistency of one
    IntraclassCorrelation oneWayAverage{};  ///< ICC(1,k): mean of k readings
    IntraclassCorrelation randomAverage{};  ///< ICC(2,k)
    IntraclassCorrelation fixedAverage{};   ///< ICC(3,k)
    double meanSquareShots{};
    double meanSquareWithin{};
    double meanSquareReaders{};
    double meanSquareError{};
};

/// Shrout and Fleiss 1979, Psychol. Bull. 86:420-428, with their intervals. One reading of each
/// shot by each reader. Errors: InvalidInput for fewer than two shots or readers, repeats other
/// than 1 or a wrong number of values; NotFinite; Untrustworthy when readers differ by a constant
/// only, so no error is left; OutOfRange for a level outside (0, 1).
Result<IntraclassForms> intraclassCorrelations(const ReaderTable& table,
                                               Confidence confidence = {});

}  // namespace core::stats
