#pragma once

#include <optional>
#include <span>
#include <string>
#include <vector>

#include "core/findings/findings.h"
#include "core/words/advice.h"

/// What was found, in whole sentences. Each function gives a sentence or a few; empty where there
/// is nothing to say.
namespace core::words {

/// In the place of a number: "No bands are set for this project."
[[nodiscard]] std::string whyNot(const findings::WhyNot& why, Advice advice = Advice::With);

// Cells and implements.
[[nodiscard]] std::string sentence(const findings::CellFinding& cell);
/// What the scatter of the cell consists of.
[[nodiscard]] std::string scatterSentence(const findings::CellFinding& cell);
[[nodiscard]] std::string sentence(const findings::OddShot& shot, Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::OddScatter& scatter);
/// In a few words: "1 odd shot".
[[nodiscard]] std::string note(const findings::ImplementNote& note);

// Hitters.
[[nodiscard]] std::string sentence(const findings::HitterFindings& hitters,
                                   Advice advice = Advice::With);
/// What cannot be estimated because cells are missing.
[[nodiscard]] std::string missingSentence(const findings::HitterFindings& hitters);
/// Of the cells of one group: HitterFindings::groupOf().
[[nodiscard]] std::string sentence(std::span<const findings::InteractionCell> cells,
                                   Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::HitterPair& pair, std::optional<Rpm> step,
                                   Advice advice = Advice::With);

// Comparison. `step`: the noticeable step that it was judged by, Findings::noticeableStep.
/// What can be said of the table as a whole.
[[nodiscard]] std::string sentence(const findings::Comparison& comparison, std::optional<Rpm> step,
                                   Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::RankedImplement& row,
                                   const findings::Comparison& comparison,
                                   Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::PairFinding& pair, std::optional<Rpm> step);
/// Of the one-way analysis.
[[nodiscard]] std::string testSentence(const findings::Comparison& comparison,
                                       Advice advice = Advice::With);
[[nodiscard]] std::string whyNoPairs(const findings::Comparison& comparison,
                                     Advice advice = Advice::With);
/// What more filming would settle: of one pair, of the whole table first.
[[nodiscard]] std::string outlook(const findings::PairFinding& pair);
[[nodiscard]] std::string outlook(const findings::Comparison& comparison);

// How it was done.
[[nodiscard]] std::string looksSentence(int looks, Advice advice = Advice::With);
/// How it was read and computed, one sentence each.
[[nodiscard]] std::vector<std::string> methodSentences(const findings::Findings& findings,
                                                       Advice advice = Advice::With);

// Trends.
[[nodiscard]] std::string sentence(const findings::ConditionContrast& contrast,
                                   std::optional<Rpm> step, Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::AttributeFinding& attribute,
                                   Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::DriftFinding& drift,
                                   Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::ControlFinding& control,
                                   Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::SessionLink& link, Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::SpeedFinding& speed,
                                   Advice advice = Advice::With);

// Agreement.
[[nodiscard]] std::string sentence(const findings::MethodAgreement& agreement,
                                   Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::RepeatFinding& repeat,
                                   Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::ReaderStudy& study,
                                   Advice advice = Advice::With);
[[nodiscard]] std::string sentence(const findings::ReaderPair& pair, Advice advice = Advice::With);

}  // namespace core::words
