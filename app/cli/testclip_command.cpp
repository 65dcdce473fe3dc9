#include <fmt/format.h>

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>

#include "app/cli/command.h"
#include "app/cli/film_options.h"
#include "core/intake/test_clip.h"

namespace cli {
namespace {

using core::intake::TestClip;
using core::intake::TestPoint;
using Json = nlohmann::ordered_json;

struct TestClipOptions {
    FilmOptions film;
    bool isJson{};
};

void printTestClip(const std::string& file, const TestClip& clip) {
    std::cout << file << "\n  " << verdictSentence(clip) << '\n';
    for (const TestPoint& point : clip.points) {
        std::cout << fmt::format("  {:<7} {:<21} {}\n", nameOf(point.verdict), titleOf(point.kind),
                                 point.value);
        if (!point.advice.empty()) {
            std::cout << fmt::format("  {:<29} {}\n", "", point.advice);
        }
    }
}

Json testClipJson(const std::string& file, const TestClip& clip) {
    Json points = Json::object();
    for (const TestPoint& point : clip.points) {
        points[std::string{nameOf(point.kind)}] = {
            {"verdict", nameOf(point.verdict)},
            {"value", point.value},
            {"advice", point.advice.empty() ? Json() : Json(point.advice)}};
    }
    return {{"file", file},
            {"verdict", nameOf(clip.verdict())},
            {"sentence", verdictSentence(clip)},
            {"points", points},
            {"error", nullptr}};
}

core::Result<void> judge(const TestClipOptions& options) {
    Json clips = Json::array();
    std::string failures;
    for (const auto& file : options.film.clips) {
        const auto film = core::intake::readFilm(file, options.film.session, options.film.rate);
        if (!film) {
            failures += (failures.empty() ? "" : "\n") + film.error().message;
            clips.push_back({{"file", file}, {"error", film.error().message}});
            continue;
        }
        const auto judged = judgeTestClip(film.value(), options.film.session);
        if (!options.isJson) {
            printTestClip(file, judged);
        }
        clips.push_back(testClipJson(file, judged));
    }
    if (options.isJson) {
        printJson(Json{{"clips", clips}});
    }
    if (!failures.empty()) {
        return core::fail(core::ErrorCode::Unreadable, failures);
    }
    return core::ok();
}

}  // namespace

void addTestClip(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<TestClipOptions>();
    CLI::App* command =
        program.add_subcommand("testclip",
                               "Tells before the filming day whether a clip of a few strikes is "
                               "filmed well enough, and what to change.");
    addFilmOptions(*command, options->film);
    command->add_flag("--json", options->isJson, "print the answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return judge(*options); }; });
}

}  // namespace cli
