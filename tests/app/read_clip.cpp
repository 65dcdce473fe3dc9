#include "tests/app/read_clip.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "tests/support/process.h"

namespace tests {

using nlohmann::json;
namespace fs = std::filesystem;

json parsedFile(const fs::path& file) {
    std::ifstream stream{file};
    return json::parse(stream);
}

ReadClip readClip(const fs::path& film, const json& truth, std::vector<std::string> more) {
    std::vector<std::string> command{
        TURNMARK_CLI,
        "read",
        film.string(),
        "--json",
        "-",
        "--ball-diameter-mm",
        std::to_string(1000.0 * truth["ball_diameter_m"].get<double>())};
    const double readout = truth["readout_s"];
    if (readout > 0.0) {
        more.insert(more.end(), {"--readout-ms", std::to_string(1000.0 * readout)});
    }
    command.insert(command.end(), more.begin(), more.end());
    const auto done = runProgram(command);
    const json answer = json::parse(done.output);
    return {done.status, answer["clips"].at(0), done.errors};
}

bool mentions(const json& texts, const std::string& part) {
    return std::any_of(texts.begin(), texts.end(), [&part](const json& text) {
        return text.get<std::string>().find(part) != std::string::npos;
    });
}

const json& onlyShot(const json& clip) {
    static const json none = json::object();
    EXPECT_EQ(clip["shots"].size(), 1U);
    return clip["shots"].empty() ? none : clip["shots"][0];
}

}  // namespace tests
