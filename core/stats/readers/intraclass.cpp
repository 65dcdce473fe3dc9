#include "core/stats/readers/intraclass.h"

#include "core/base/words.h"
#include "core/stats/comparison/crossed_anova.h"
#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

// Sizes and mean squares under their names in the paper.
struct Squares {
    double n{};  // shots
    double k{};  // readers
    double bms{};
    double wms{};
    double jms{};
    double ems{};
};

// Consistency (F - 1)/(F + k - 1) at an F value; equation of the paper for the ends of ICC(1,1) and
// ICC(3,1).
double single(double f, double k) {
    return (f - 1.0) / (f + k - 1.0);
}

double average(double f) {
    return 1.0 - 1.0 / f;
}

// Ends of F / F0 for a ratio with the given degrees of freedom.
Interval<double> ratioEnds(double f, RatioDof dof, Confidence confidence) {
    const Probability tail{0.5 * confidence.alpha()};
    const RatioDof swapped{dof.denominator, dof.numerator};
    return {f / FDistribution{dof}.upperQuantile(tail),
            f * FDistribution{swapped}.upperQuantile(tail)};
}

// ICC(2,1): Shrout and Fleiss 1979, p. 424, after Satterthwaite.
IntraclassCorrelation randomSingle(const Squares& s, Confidence confidence) {
    const double value =
        (s.bms - s.ems) / (s.bms + (s.k - 1.0) * s.ems + s.k * (s.jms - s.ems) / s.n);
    const double fj = s.jms / s.ems;
    const double a = s.k * value * fj;
    const double b = s.n * (1.0 + (s.k - 1.0) * value) - s.k * value;
    const double dof =
        (s.k - 1.0) * (s.n - 1.0) * (a + b) * (a + b) / ((s.n - 1.0) * a * a + b * b);
    const Probability tail{0.5 * confidence.alpha()};
    const double upperF = FDistribution{{{s.n - 1.0}, {dof}}}.upperQuantile(tail);
    const double lowerF = FDistribution{{{dof}, {s.n - 1.0}}}.upperQuantile(tail);
    const double other = s.k * s.jms + (s.k * s.n - s.k - s.n) * s.ems;
    return {value,
            {s.n * (s.bms - upperF * s.ems) / (upperF * other + s.n * s.bms),
             s.n * (lowerF * s.bms - s.ems) / (other + s.n * lowerF * s.bms)}};
}

// Mean of k readings from one reading (Spearman and Brown).
double stepUp(double value, double k) {
    return k * value / (1.0 + (k - 1.0) * value);
}

Result<Squares> squaresOf(const ReaderTable& table) {
    BOOST_OUTCOME_TRY(checkTable(table, toSay("Intraclass correlation")));
    if (table.repeats != 1) {
        return fail(ErrorCode::InvalidInput,
                    said("Intraclass correlation: give one reading of each shot by each reader, "
                         "for example the mean of the repeats."));
    }
    const CrossedSums sums = crossedSums(table);
    const auto n = static_cast<double>(table.shots);
    const auto k = static_cast<double>(table.readers);
    const Squares squares{.n = n,
                          .k = k,
                          .bms = sums.shots / (n - 1.0),
                          .wms = (sums.readers + sums.interaction) / (n * (k - 1.0)),
                          .jms = sums.readers / (k - 1.0),
                          .ems = sums.interaction / ((n - 1.0) * (k - 1.0))};
    if (!(squares.ems > 0.0)) {
        return fail(ErrorCode::Untrustworthy,
                    said("Intraclass correlation: the readers differ by a constant or not at all, "
                         "so no error is left to estimate. Use more shots or finer readings."));
    }
    return squares;
}

}  // namespace

Result<IntraclassForms> intraclassCorrelations(const ReaderTable& table, Confidence confidence) {
    BOOST_OUTCOME_TRY(checkConfidence(confidence));
    BOOST_OUTCOME_TRY(s, squaresOf(table));
    const double oneWayF = s.bms / s.wms;
    const double fixedF = s.bms / s.ems;
    const auto oneWay = ratioEnds(oneWayF, {{s.n - 1.0}, {s.n * (s.k - 1.0)}}, confidence);
    const auto fixed = ratioEnds(fixedF, {{s.n - 1.0}, {(s.n - 1.0) * (s.k - 1.0)}}, confidence);
    const auto random = randomSingle(s, confidence);
    const double randomAverage = (s.bms - s.ems) / (s.bms + (s.jms - s.ems) / s.n);
    return IntraclassForms{
        .oneWaySingle = {single(oneWayF, s.k), {single(oneWay.low, s.k), single(oneWay.high, s.k)}},
        .randomSingle = random,
        .fixedSingle = {single(fixedF, s.k), {single(fixed.low, s.k), single(fixed.high, s.k)}},
        .oneWayAverage = {average(oneWayF), {average(oneWay.low), average(oneWay.high)}},
        .randomAverage = {randomAverage,
                          {stepUp(random.interval.low, s.k), stepUp(random.interval.high, s.k)}},
        .fixedAverage = {average(fixedF), {average(fixed.low), average(fixed.high)}},
        .meanSquareShots = s.bms,
        .meanSquareWithin = s.wms,
        .meanSquareReaders = s.jms,
        .meanSquareError = s.ems};
}

}  // namespace core::stats
