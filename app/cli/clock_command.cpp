#include <fmt/format.h>

#include <charconv>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>
#include <optional>
#include <string>
#include <vector>

#include "app/cli/command.h"
#include "core/doubts/decisions.h"
#include "core/intake/clock_evidence.h"
#include "core/plan/cautions.h"
#include "core/project/clock_refutation.h"
#include "core/project/store.h"

namespace cli {
namespace {

using core::ErrorCode;
using core::fail;
using core::Result;
using core::project::Clip;
using core::project::ClipId;
using core::project::Snapshot;
using core::timebase::ReferenceReading;
using Json = nlohmann::ordered_json;

struct ClockOptions {
    std::string project;
    std::string clip;
    std::vector<std::string> instants;
    double readToSeconds{core::timebase::kStopwatchHalfWidth.seconds};
    std::vector<std::int64_t> frames;
    std::optional<double> turns;
    std::string rpm;
    double rpmPercent{100.0 * core::timebase::kNominalSpeedSigma};
    std::vector<std::string> countsFor;
    bool withdraw{};
    std::string overrule;
    bool json{};
};

/// The clip of a path or file name. Errors: NotFound; InvalidInput when several have the name.
Result<ClipId> clipNamed(const Snapshot& snapshot, const std::string& name) {
    std::vector<ClipId> found;
    std::string known;
    for (const Clip& clip : snapshot.clips) {
        if (clip.path == name) {
            return clip.id;
        }
        if (clipName(snapshot, clip.id) == name) {
            found.push_back(clip.id);
        }
        known += (known.empty() ? "" : ", ") + clip.path;
    }
    if (found.size() == 1) {
        return found.front();
    }
    return found.empty() ? fail(ErrorCode::NotFound,
                                "The project has no clip " + name + ". It has: " + known + ".")
                         : fail(ErrorCode::InvalidInput,
                                "Several clips are named " + name +
                                    ". Write the path of one of them: " + known + ".");
}

/// "12=0.5": a frame and what the stopwatch shows in it.
Result<ReferenceReading> instantOf(const std::string& text) {
    const auto equals = text.find('=');
    std::int64_t frame = 0;
    const char* const end = text.data() + std::min(equals, text.size());
    const auto [rest, problem] = std::from_chars(text.data(), end, frame);
    if (equals == std::string::npos || problem != std::errc{} || rest != end) {
        return fail(ErrorCode::InvalidInput,
                    "--instant: \"" + text +
                        "\" is not FRAME=SECONDS, for example 240=1.02. Frames count from 0.");
    }
    BOOST_OUTCOME_TRY(shown, core::timebase::parseStopwatch(text.substr(equals + 1)));
    return ReferenceReading{{frame}, shown};
}

Result<core::timebase::ClockCheck> checkOf(const ClockOptions& options) {
    if (!options.instants.empty() && options.turns) {
        return fail(ErrorCode::InvalidInput,
                    "Give instants of a stopwatch (--instant), or turns (--frames, --turns and "
                    "--rpm), not both.");
    }
    if (options.turns) {
        if (options.frames.size() != 2 || options.rpm.empty()) {
            return fail(ErrorCode::InvalidInput,
                        "--turns needs the frames between which they were made (--frames A B) and "
                        "the speed (--rpm).");
        }
        BOOST_OUTCOME_TRY(speed, core::timebase::parseSpeed(options.rpm));
        const std::vector<ReferenceReading> readings{{{options.frames[0]}, 0.0},
                                                     {{options.frames[1]}, *options.turns}};
        return core::timebase::turningCheck(readings, speed, options.rpmPercent / 100.0);
    }
    std::vector<ReferenceReading> readings;
    for (const std::string& text : options.instants) {
        BOOST_OUTCOME_TRY(reading, instantOf(text));
        readings.push_back(reading);
    }
    return core::timebase::stopwatchCheck(readings, {options.readToSeconds});
}

Json clockJson(const Snapshot& snapshot, ClipId id) {
    const Clip& clip = *snapshot.clips.find(id);
    Json evidence = Json::array();
    const auto* decided = core::timebase::decidingEvidence(clip.evidence);
    for (const auto& one : clip.evidence) {
        evidence.push_back({{"kind", core::timebase::evidenceName(one)},
                            {"decides", &one == decided},
                            {"message", core::timebase::describe(one)}});
    }
    Json json{{"clip", clip.path}, {"clock", nullptr}, {"capture_rate_fps", nullptr}};
    if (clip.clock) {
        constexpr const char* kKinds[] = {"stamped", "stretched", "counted"};
        json["clock"] = kKinds[static_cast<std::size_t>(clip.clock->kind)];
        if (clip.clock->counted) {
            json["capture_rate_fps"] = clip.clock->counted->fps.toDouble();
        } else if (clip.playbackRate) {
            json["capture_rate_fps"] = (clip.playbackRate->fps * clip.clock->stretch).toDouble();
        }
        json["relative_standard_uncertainty"] = clip.clock->relativeSigma;
    }
    if (const auto refutation = refutationOf(snapshot, clip)) {
        json["refuted_by_flight"] = refutation->statement;
        json["overruled"] = refutation->overruled;
    }
    json["decided_by"] = decided != nullptr ? Json(core::timebase::evidenceName(*decided)) : Json();
    json["evidence"] = evidence;
    return json;
}

void printClock(const Json& clip) {
    std::cout << clip["clip"].get<std::string>() << ": ";
    if (clip["clock"].is_null()) {
        std::cout << "the clock is not settled\n";
    } else {
        std::cout << fmt::format(
            "{} frames per second, {}\n",
            clip["capture_rate_fps"].is_null()
                ? std::string{"an unknown number of"}
                : fmt::format("{:.7g}", clip["capture_rate_fps"].get<double>()),
            clip["clock"].get<std::string>());
    }
    if (clip.contains("refuted_by_flight")) {
        const auto why = clip["overruled"].get<std::string>();
        std::cout << "  The flight speaks against it: "
                  << clip["refuted_by_flight"].get<std::string>()
                  << (why.empty() ? " Its kept shots are left out of every number."
                                  : " Overruled: " + why)
                  << '\n';
    }
    for (const auto& one : clip["evidence"]) {
        std::cout << "  " << one["message"].get<std::string>()
                  << (one["decides"].get<bool>() ? " This decides." : "") << '\n';
    }
}

void print(const ClockOptions& options, const Snapshot& snapshot, const std::vector<ClipId>& clips,
           const std::optional<core::timebase::ClockCheckResult>& check) {
    Json json;
    if (check) {
        json["check"] = {{"capture_rate_fps", check->rateFps},
                         {"standard_uncertainty_fps", check->sigmaFps},
                         {"relative_standard_uncertainty", check->relativeSigma()}};
    }
    if (options.turns) {
        json["caution"] = core::plan::rigCaution();
    }
    json["clips"] = Json::array();
    for (const ClipId clip : clips) {
        json["clips"].push_back(clockJson(snapshot, clip));
    }
    if (options.json) {
        std::cout << json.dump(2, ' ', false, Json::error_handler_t::replace) << '\n';
        return;
    }
    if (options.turns) {
        std::cout << core::plan::rigCaution() << '\n';
    }
    if (check) {
        std::cout << fmt::format(
            "The clock check gives {:.7g} ± {:.2g} frames per second (standard uncertainty).\n",
            check->rateFps, check->sigmaFps);
    }
    for (const Json& clip : json["clips"]) {
        printClock(clip);
    }
}

Result<void> runClock(const ClockOptions& options) {
    const bool isCheck = !options.instants.empty() || options.turns || !options.frames.empty();
    const bool changes = isCheck || options.withdraw || !options.overrule.empty();
    BOOST_OUTCOME_TRY(store, changes ? core::project::Store::open(options.project)
                                     : core::project::Store::openToRead(options.project));
    BOOST_OUTCOME_TRY(clip, clipNamed(*store->snapshot(), options.clip));
    std::vector<ClipId> clips{clip};
    std::optional<core::timebase::ClockCheckResult> result;
    if (options.withdraw) {
        BOOST_OUTCOME_TRY(core::intake::withdrawClockChecks(*store, clip));
    }
    if (!options.overrule.empty()) {
        BOOST_OUTCOME_TRY(core::doubts::overruleFlight(*store, clip, options.overrule));
    }
    if (isCheck) {
        BOOST_OUTCOME_TRY(check, checkOf(options));
        if (options.countsFor.empty()) {
            clips = core::intake::clipsFilmedAlike(*store->snapshot(), clip);
        } else {
            clips.clear();
            for (const std::string& name : options.countsFor) {
                BOOST_OUTCOME_TRY(each, clipNamed(*store->snapshot(), name));
                clips.push_back(each);
            }
        }
        BOOST_OUTCOME_TRY(added, core::intake::addClockCheck(*store, clip, check, clips));
        result = added;
    }
    print(options, *store->snapshot(), clips, result);
    return core::ok();
}

}  // namespace

void addClock(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<ClockOptions>();
    CLI::App* command = program.add_subcommand(
        "clock",
        "Shows the clock of a clip and its evidence, and adds a clock check: a stopwatch or "
        "something of known speed, filmed with the settings of the clips.");
    command->add_option("project", options->project, "project file (.turnmark)")->required();
    command->add_option("clip", options->clip, "the clip, by its path or file name")->required();
    command->add_option("--instant", options->instants,
                        "a frame and what the stopwatch shows in it, as FRAME=SECONDS; twice or "
                        "more");
    command
        ->add_option("--read-to", options->readToSeconds,
                     "how exactly the stopwatch can be read: half-width in seconds")
        ->capture_default_str();
    command->add_option("--frames", options->frames, "with --turns: the first and the last frame")
        ->expected(2);
    command->add_option("--turns", options->turns, "turns made between the two frames");
    command->add_option("--rpm", options->rpm, "turns per minute, for example \"33 1/3\"");
    command
        ->add_option("--rpm-percent", options->rpmPercent,
                     "standard uncertainty of that speed in per cent")
        ->capture_default_str();
    command->add_option("--for", options->countsFor,
                        "a clip that uses the check; may be repeated; else all clips of the "
                        "filming day that look as if they were filmed with the same settings");
    command->add_flag("--withdraw", options->withdraw,
                      "first remove the clock checks of this clip, for all clips that use them");
    command->add_option("--overrule", options->overrule,
                        "keep the clock although the flight of the ball refutes it, for this "
                        "reason, which is published; the shots of the clip count again");
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return runClock(*options); }; });
}

}  // namespace cli
