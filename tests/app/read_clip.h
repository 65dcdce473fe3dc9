#pragma once

#include <filesystem>
#include <nlohmann/json.hpp>
#include <string>
#include <vector>

namespace tests {

/// What `turnmark-cli read FILM --json -` says of one clip.
struct ReadClip {
    int status{};
    nlohmann::json clip;
    std::string errors;
};

/// Runs the command with the ball's diameter and the shutter's readout of the truth; the field of
/// view is not told. `more` are further options.
ReadClip readClip(const std::filesystem::path& film, const nlohmann::json& truth,
                  std::vector<std::string> more = {});

nlohmann::json parsedFile(const std::filesystem::path& file);

/// Whether one of the texts contains the part.
bool mentions(const nlohmann::json& texts, const std::string& part);

/// The one shot of a clip; fails the test where there is another number of them.
const nlohmann::json& onlyShot(const nlohmann::json& clip);

}  // namespace tests
