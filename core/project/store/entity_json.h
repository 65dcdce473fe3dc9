#pragma once

#include <map>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/project/model.h"
#include "core/project/stored_pictures.h"

/// The lists that a row keeps as JSON text (FORMAT.md R21). Private to core/project.
namespace core::project {

[[nodiscard]] std::string attributesToJson(const std::map<std::string, std::string>& attributes);
[[nodiscard]] std::string clicksToJson(const std::vector<BallClick>& clicks);
[[nodiscard]] std::string remarksToJson(const std::vector<ClipRemark>& remarks);
[[nodiscard]] std::string evidenceToJson(const std::vector<timebase::CaptureRateEvidence>& list);
/// Without their bytes, of which the number is given.
[[nodiscard]] std::string picturesToJson(const std::vector<StoredPicture>& pictures);

/// Errors, all five: InvalidInput with what is wrong with the text.
Result<std::map<std::string, std::string>> attributesFromJson(std::string_view text);
Result<std::vector<BallClick>> clicksFromJson(std::string_view text);
Result<std::vector<ClipRemark>> remarksFromJson(std::string_view text);
Result<std::vector<timebase::CaptureRateEvidence>> evidenceFromJson(std::string_view text);
/// Each with as many blanks as it has bytes.
Result<std::vector<StoredPicture>> picturesFromJson(std::string_view text);

}  // namespace core::project
