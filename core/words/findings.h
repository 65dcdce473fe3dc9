#pragma once

#include <optional>
#include <string>

#include "core/findings/findings.h"
#include "core/words/advice.h"

/// What was found, in whole sentences. Each function gives a sentence or a few; empty where there
/// is nothing to say.
namespace core::words {

/// In the place of a number: "No bands are set for this project."
[[nodiscard]] std::string whyNot(const findings::WhyNot& why, Advice advice = Advice::With);

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
