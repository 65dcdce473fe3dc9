#pragma once

#include <optional>
#include <string>
#include <utility>
#include <vector>

#include "core/base/expects.h"
#include "core/base/result.h"

namespace core::findings {

/// Why something cannot be said; words::whyNot() says it.
struct WhyNot {
    enum class Kind {
        NotLookedAt,
        Failed,  ///< `message`: of the computation
        // Of implements that are left out, and of cells and hitters.
        NoShotByHitter,
        NoShotKept,
        OneShotKept,  ///< which says nothing of the scatter
        NoCellWithTwoShots,
        ReadingsAllAlike,
        FewShotsToSplit,
        ReadingWithoutUncertainty,
        FewShotsForOddOnes,
        NoHitter,
        OneHitter,
        HittersNotComparable,  ///< `names`: the implement, two hitters
        FewImplementsByAll,
        // Of a comparison.
        NoBands,
        NothingToRankAgainst,
        ImplementsNotLinked,
        FewImplementsForPairs,
        OneImplementWithScatter,
        OneCellWithScatter,
        TooCoarseForScatters,
        AdditivePairsAreTukeys,
        ScattersDiffer,  ///< `pValue` of Brown and Forsythe
        MeansTooClose,
        FarInTheRanks,
        // Of readings and their agreement.
        FewReadBothWays,  ///< `count` shots
        FewReadByTwoReaders,
        NotReadTwiceByEach,
        // Of trends.
        DifferentUnits,
        TooCoarseForDrift,
        FewShotsInAThird,
        NoCellOnBothDays,
        ConditionsNotLinked,
        FewBallSpeeds,
    };
    Kind kind{};
    std::size_t count{};
    double pValue{};
    std::vector<std::string> names{};
    std::string message{};

    static WhyNot of(const Error& error) {
        return {.kind = Kind::Failed, .message = error.message};
    }
};

/// A T, or why it cannot be said. Unlike a failure this is a finding: it is shown in the place of
/// the number. Immutable.
template <class T>
class Said {
public:
    Said() = default;
    // A T is what it is; a Result keeps its message as the reason.
    Said(T value) : m_value{std::move(value)} {}
    Said(WhyNot whyNot) : m_whyNot{std::move(whyNot)} {}
    Said(WhyNot::Kind whyNot) : m_whyNot{.kind = whyNot} {}
    Said(Result<T> result) {
        if (result) {
            m_value = std::move(result).value();
        } else {
            m_whyNot = WhyNot::of(result.error());
        }
    }

    [[nodiscard]] bool isKnown() const noexcept { return m_value.has_value(); }
    explicit operator bool() const noexcept { return isKnown(); }
    /// Only when isKnown().
    [[nodiscard]] const T& operator*() const {
        CORE_EXPECTS(isKnown());
        return *m_value;
    }
    [[nodiscard]] const T* operator->() const { return &**this; }
    /// Means nothing when isKnown().
    [[nodiscard]] const WhyNot& whyNot() const noexcept { return m_whyNot; }

private:
    std::optional<T> m_value{};
    WhyNot m_whyNot{};
};

}  // namespace core::findings
