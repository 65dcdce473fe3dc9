#include "core/stats/readers/gauge_study.h"

#include <algorithm>
#include <limits>

#include "core/base/words.h"
#include "core/stats/comparison/crossed_anova.h"

namespace core::stats {
namespace {

constexpr double kPoolingLimit = 0.25;

// Counts as doubles under their usual letters.
struct Sizes {
    double shots{};
    double readers{};
    double repeats{};
};

// Zero over zero, as when readers agree to a constant, tests nothing: F = 0.
VarianceRatioTest ratio(double over, double under, RatioDof dof) {
    if (!(under > 0.0)) {
        const bool isAny = over > 0.0;
        return {isAny ? std::numeric_limits<double>::infinity() : 0.0, dof, isAny ? 0.0 : 1.0};
    }
    return {over / under, dof, FDistribution{dof}.upperTail(over / under)};
}

double component(double difference, double divisor) {
    return std::max(0.0, difference / divisor);
}

// Expected mean squares of the random model, each solved for its component.
GaugeComponents components(const GaugeStudy& study, const Sizes& sizes) {
    GaugeComponents result{.repeatability = study.repeats.meanSquare};
    result.interaction =
        component(study.interaction.meanSquare - study.repeats.meanSquare, sizes.repeats);
    result.reproducibility =
        result.interaction + component(study.readers.meanSquare - study.interaction.meanSquare,
                                       sizes.shots * sizes.repeats);
    result.shots = component(study.shots.meanSquare - study.interaction.meanSquare,
                             sizes.readers * sizes.repeats);
    return result;
}

GaugeComponents pooledComponents(const GaugeStudy& study, const Sizes& sizes) {
    const double dof = (sizes.shots - 1.0) * (sizes.readers - 1.0) +
                       sizes.shots * sizes.readers * (sizes.repeats - 1.0);
    const double error = (study.interaction.sumSquares + study.repeats.sumSquares) / dof;
    GaugeComponents result{.repeatability = error};
    result.reproducibility =
        component(study.readers.meanSquare - error, sizes.shots * sizes.repeats);
    result.shots = component(study.shots.meanSquare - error, sizes.readers * sizes.repeats);
    return result;
}

}  // namespace

Result<GaugeStudy> analyseGauge(const ReaderTable& table) {
    BOOST_OUTCOME_TRY(checkTable(table, toSay("Gauge study")));
    if (table.repeats < 2) {
        return fail(ErrorCode::InvalidInput,
                    said("Gauge study: every reader must have read every shot at least twice."));
    }
    const Sizes sizes{static_cast<double>(table.shots), static_cast<double>(table.readers),
                      static_cast<double>(table.repeats)};
    const CrossedSums sums = crossedSums(table);
    if (!(sums.repeats > 0.0)) {
        return fail(ErrorCode::Untrustworthy,
                    said("Gauge study: repeated readings never differ, so repeatability cannot be "
                         "estimated. Use readings with finer resolution."));
    }
    const double shotDof = sizes.shots - 1.0;
    const double readerDof = sizes.readers - 1.0;
    const double repeatDof = sizes.shots * sizes.readers * (sizes.repeats - 1.0);
    GaugeStudy study{.shots = {sums.shots, sums.shots / shotDof},
                     .readers = {sums.readers, sums.readers / readerDof},
                     .interaction = {sums.interaction, sums.interaction / (shotDof * readerDof)},
                     .repeats = {sums.repeats, sums.repeats / repeatDof}};
    const double interaction = study.interaction.meanSquare;
    const DegreesOfFreedom interactionDof{shotDof * readerDof};
    study.shotsTest = ratio(study.shots.meanSquare, interaction, {{shotDof}, interactionDof});
    study.readersTest = ratio(study.readers.meanSquare, interaction, {{readerDof}, interactionDof});
    study.interactionTest =
        ratio(interaction, study.repeats.meanSquare, {interactionDof, {repeatDof}});
    study.isPooledAdvised = study.interactionTest.pValue > kPoolingLimit;
    study.withInteraction = components(study, sizes);
    study.pooled = pooledComponents(study, sizes);
    return study;
}

}  // namespace core::stats
