#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/project/model.h"

/// Marks and clock as JSON text (RFC 8259) with units in the names; FORMAT.md R20.
namespace core::project {

/// Numbers are written so that they come back bit for bit. All values must be finite.
[[nodiscard]] std::string marksToJson(const spin::MarkSet& marks);
[[nodiscard]] std::string clockToJson(const ClockSetting& clock);

/// Errors, both: InvalidInput with what is wrong with the text.
Result<spin::MarkSet> marksFromJson(std::string_view text);
Result<ClockSetting> clockFromJson(std::string_view text);

}  // namespace core::project
