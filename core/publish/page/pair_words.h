#pragma once

#include <string>
#include <string_view>

#include "core/findings/comparison.h"

namespace core::publish {

/// What can be said of two implements.
enum class PairWord {
    AtLeastStep,   ///< they differ by the noticeable step or more
    LessThanStep,  ///< they differ, by less than the step
    Differs,       ///< they differ; no step is set, or the step lies within the interval
    Equivalent,    ///< the difference is less than the step
    NotSettled,
};

[[nodiscard]] PairWord pairWord(const findings::PairFinding& pair) noexcept;
/// For people, behind a number of pairs: "differ by at least the noticeable step"; of one pair
/// "differs by at least the noticeable step".
[[nodiscard]] std::string wordsOf(PairWord word, bool isOne = false);
/// For data files: "differs_by_at_least_step".
[[nodiscard]] std::string_view codeOf(PairWord word) noexcept;

}  // namespace core::publish
