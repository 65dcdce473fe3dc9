#pragma once

#include <string>
#include <string_view>

#include "core/base/result.h"
#include "core/reading/inputs.h"

/// The inputs of readings as JSON text (RFC 8259) with units in the names: FORMAT.md R20 for marks,
/// R22 for the rotation fit. Numbers are written so that they come back bit for bit.
namespace core::reading {

/// All values must be finite.
[[nodiscard]] std::string toJson(const MarksInputs& inputs);
[[nodiscard]] std::string toJson(const KeptFit& fit);

/// Errors, both: InvalidInput with what is wrong with the text.
Result<MarksInputs> marksInputsFromJson(std::string_view text);
/// Of every method version; what an older one did not write has the value that it was read with.
Result<KeptFit> keptFitFromJson(std::string_view text);

/// Everything that decides what a reading from the pictures says, as text: the request and the
/// version of the method. Two equal keys give the same reading.
[[nodiscard]] std::string keyOf(const ShotRequest& request);

}  // namespace core::reading
