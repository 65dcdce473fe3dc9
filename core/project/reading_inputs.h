#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/project/model.h"
#include "core/spin/reading_by_marks.h"

/// What a reading was made from, as JSON text (RFC 8259) with units in the names; FORMAT.md R20.
namespace core::project {

/// Everything a reading by marks was computed from, except the time stamps, which the project keeps
/// with the clip.
struct ReadingInputs {
    std::string clipFingerprint;  ///< of the clip that was read
    spin::MarkSet marks;
    ClockSetting clock;
    spin::ReadingContext context;
    bool operator==(const ReadingInputs&) const = default;
};

/// Numbers are written so that they come back bit for bit. All values must be finite.
[[nodiscard]] std::string marksToJson(const spin::MarkSet& marks);
[[nodiscard]] std::string clockToJson(const ClockSetting& clock);
[[nodiscard]] std::string contextToJson(const spin::ReadingContext& context);
[[nodiscard]] std::string inputsToJson(const ReadingInputs& inputs);

/// Errors, all four: InvalidInput with what is wrong with the text.
Result<spin::MarkSet> marksFromJson(std::string_view text);
Result<ClockSetting> clockFromJson(std::string_view text);
Result<spin::ReadingContext> contextFromJson(std::string_view text);
Result<ReadingInputs> inputsFromJson(std::string_view text);

}  // namespace core::project
