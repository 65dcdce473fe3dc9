#pragma once

#include "core/base/result.h"
#include "core/stats/comparison/one_way.h"
#include "core/stats/readers/reader_table.h"

namespace core::stats {

/// Variances of a crossed study of readings, none below zero.
struct GaugeComponents {
    double repeatability{};    ///< the same reader reads the same shot again
    double reproducibility{};  ///< between readers, the interaction included
    double interaction{};      ///< readers disagree about single shots; zero when pooled
    double shots{};            ///< the shots themselves

    [[nodiscard]] double gauge() const noexcept { return repeatability + reproducibility; }
    [[nodiscard]] double total() const noexcept { return gauge() + shots; }
};

/// One line of the analysis of variance.
struct GaugeLine {
    double sumSquares{};
    double meanSquare{};
};

/// Crossed study of readings: shots x readers x repeats, all random.
struct GaugeStudy {
    GaugeLine shots{};
    GaugeLine readers{};
    GaugeLine interaction{};
    GaugeLine repeats{};
    VarianceRatioTest shotsTest{};        ///< over the interaction
    VarianceRatioTest readersTest{};      ///< over the interaction
    VarianceRatioTest interactionTest{};  ///< over the repeats
    GaugeComponents withInteraction{};
    GaugeComponents pooled{};  ///< interaction and repeats as one error
    /// The interaction is not shown (p above 0.25): use `pooled`, else `withInteraction`.
    bool isPooledAdvised{};
};

/// Repeatability and reproducibility by analysis of variance: AIAG, Measurement Systems Analysis,
/// 4th ed. 2010, ch. III; Montgomery, Introduction to Statistical Quality Control, 8.7. The limit
/// of 0.25 for pooling is a common one (from memory). Errors: InvalidInput for a table that is not
/// complete or fewer than two shots, readers or repeats; NotFinite; Untrustworthy when repeats
/// never differ.
Result<GaugeStudy> analyseGauge(const ReaderTable& table);

}  // namespace core::stats
