#pragma once

#include <cstddef>
#include <optional>
#include <span>
#include <vector>

#include "core/stats/sample/reading_likelihood.h"

namespace core::stats {

/// A normal law of true values.
struct NormalLaw {
    double mean{};
    double deviation{};  ///< greater than zero
};

/// log of an integral of likelihood times density, and its derivatives by the law's parameters.
struct LogLikelihood {
    double value{};
    double byMean{};
    double byDeviation{};
};

/// One reading against a normal law of the true value. Immutable.
class ReadingAgainstLaw {
public:
    explicit ReadingAgainstLaw(const ReadingLikelihood& reading);
    [[nodiscard]] LogLikelihood under(const NormalLaw& law) const;

private:
    [[nodiscard]] LogLikelihood boundedUnder(const NormalLaw& law) const;

    ReadingLikelihood m_reading;
    std::vector<LikelihoodNode> m_fromLeft;
    std::vector<LikelihoodNode> m_fromRight;  ///< of the mirror image, its nodes negated
};

/// A sample of readings against a normal law, equal readings taken together. Immutable.
class SampleLikelihood {
public:
    /// The reading `free`, if any, may lie anywhere: it counts as if the mean were its own value.
    explicit SampleLikelihood(std::span<const ReadingLikelihood> readings,
                              std::optional<std::size_t> free = {});

    [[nodiscard]] LogLikelihood under(const NormalLaw& law) const;

    struct Profile {
        double value{};
        double byMean{};     ///< of the profile, by the envelope theorem
        double deviation{};  ///< the likeliest one
    };
    /// The likeliest deviation for a mean, between the least and the greatest one. There may be two
    /// summits, one at the least deviation, where the readings' coarseness explains all. `guess`
    /// only saves time.
    [[nodiscard]] Profile profileAt(double mean, double guess) const;

    /// Mean and deviation that are likeliest.
    [[nodiscard]] NormalLaw likeliest() const;

    [[nodiscard]] double leastDeviation() const noexcept { return m_least; }
    /// Range of what the readings allow.
    [[nodiscard]] Interval<double> range() const noexcept { return m_range; }

private:
    /// The summit that is reached from a deviation.
    [[nodiscard]] Profile climb(double mean, double from) const;

    struct Group {
        ReadingAgainstLaw reading;
        double count{};
        std::optional<double> ownMean{};  ///< of a free one
    };
    std::vector<Group> m_groups;
    Interval<double> m_range;
    double m_least{};
    double m_greatest{};
};

}  // namespace core::stats
