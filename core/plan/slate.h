#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/plan/plan.h"

/// Slate cards: a printed code that is filmed before the shots it is about, readable by people too.
namespace core::plan {

/// Implement and hitter of the shots that follow.
struct SlateCard {
    std::string session;  ///< may be empty
    std::string implement;
    std::string condition;  ///< may be empty
    std::string hitter;
    bool operator==(const SlateCard&) const = default;
};

/// The words in the code, UTF-8, a line each, ended by LF; lines with nothing to say are left out:
///
///     Turnmark slate 1
///     session: Bench day
///     implement: polyester 23 kg
///     condition: new
///     hitter: A
///
/// White space within a value counts as one space. "1" is the version of this form: readers pass
/// over lines they do not know and refuse a higher version.
[[nodiscard]] std::string slateText(const SlateCard& card);

/// The card that a code is about. Errors: ForeignFile when the text is none of a slate card;
/// NewerVersion; InvalidInput for a card without implement or hitter, or text that is not UTF-8.
Result<SlateCard> slateFromText(std::string_view text);

/// One card a cell, hitter by hitter in the order of the plan.
[[nodiscard]] std::vector<SlateCard> slateCards(const Plan& plan);

}  // namespace core::plan
