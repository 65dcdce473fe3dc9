#include <fmt/format.h>

#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>
#include <vector>

#include "app/cli/command.h"
#include "core/base/words.h"
#include "core/intake/clip_clock_setting.h"
#include "core/intake/clip_record.h"
#include "core/media/file/clip_index.h"
#include "core/media/file/repeated_pictures.h"
#include "core/report/number_format.h"

namespace cli {
namespace {

using core::Result;
using Json = nlohmann::ordered_json;

struct InspectOptions {
    std::vector<std::string> clips;
    std::optional<double> captureRate;
    bool pictures{};
    bool json{};
};

struct Inspected {
    core::media::ClipIndex index;
    core::intake::SettledClock clock;
    std::vector<core::timebase::CaptureRateEvidence> evidence;
    std::optional<core::timebase::CaptureRate> captureRate;
    std::vector<core::project::ClipRemark> remarks;
};

std::string_view clockName(const core::intake::SettledClock& clock) {
    if (!clock.setting) {
        return "";
    }
    switch (clock.setting->kind) {
        case core::timebase::ClockKind::Stamped:
            return "stamped";
        case core::timebase::ClockKind::Stretched:
            return "stretched";
        case core::timebase::ClockKind::Counted:
            return "counted";
    }
    return "";
}

Result<Inspected> inspectClip(const std::string& file, const InspectOptions& options) {
    BOOST_OUTCOME_TRY(index, core::media::readClipIndex(file));
    if (options.pictures) {
        BOOST_OUTCOME_TRY(
            repeats, core::media::findRepeatedPictures(file, index, {0}, {index.frameCount() - 1}));
        index.warnings.insert(index.warnings.end(), repeats.begin(), repeats.end());
    }
    Inspected found;
    auto record = core::intake::recordOf(index);
    found.evidence = record.evidence;
    if (options.captureRate) {
        BOOST_OUTCOME_TRY(rate, core::timebase::captureRateFromDecimal(*options.captureRate));
        found.evidence.emplace_back(core::timebase::ReviewerEntry{rate, std::nullopt});
    }
    found.clock = core::intake::settleClock(index.playbackRate, index.stamps, found.evidence);
    record.clockRemarks = found.clock.remarks;
    found.remarks = core::project::allRemarks(record);
    if (found.clock.setting && index.playbackRate) {
        // Nothing in a file that has no evidence says that it plays at real speed.
        const auto& setting = *found.clock.setting;
        if (setting.counted) {
            found.captureRate = setting.counted;
        } else if (!found.evidence.empty()) {
            found.captureRate =
                core::timebase::CaptureRate{index.playbackRate->fps * setting.stretch};
        }
    }
    found.index = std::move(index);
    return found;
}

Json toJson(const std::string& file, const Result<Inspected>& result) {
    Json json{{"file", file}};
    if (!result) {
        json.update({{"frames", nullptr},
                     {"width", nullptr},
                     {"height", nullptr},
                     {"codec", nullptr},
                     {"playback_rate", nullptr},
                     {"capture_rate", nullptr},
                     {"clock", nullptr},
                     {"evidence", Json::array()},
                     {"time_stamps_s", Json::array()},
                     {"warnings", Json::array()},
                     {"error", result.error().message}});
        return json;
    }
    const Inspected& found = result.value();
    Json evidence = Json::array();
    for (const auto& item : found.evidence) {
        evidence.push_back({{"kind", core::timebase::evidenceName(item)},
                            {"message", core::timebase::describe(item)}});
    }
    Json stamps = Json::array();
    for (const std::int64_t ticks : found.index.stamps.ticks) {
        stamps.push_back(
            (core::timebase::Rational{ticks} * found.index.stamps.timeBase).toDouble());
    }
    Json warnings = Json::array();
    for (const auto& remark : found.remarks) {
        warnings.push_back({{"kind", remark.kind},
                            {"frame", remark.frame ? Json(remark.frame->value) : Json()},
                            {"message", remark.message}});
    }
    const auto& facts = found.index.facts;
    json["frames"] = found.index.frameCount();
    json["width"] = facts.width;
    json["height"] = facts.height;
    json["codec"] = facts.codec;
    json["playback_rate"] =
        found.index.playbackRate ? Json(found.index.playbackRate->fps.toString()) : Json();
    json["capture_rate"] = found.captureRate ? Json(found.captureRate->fps.toDouble()) : Json();
    json["clock"] = found.clock.setting ? Json(clockName(found.clock)) : Json();
    json["evidence"] = evidence;
    json["time_stamps_s"] = stamps;
    json["warnings"] = warnings;
    json["error"] = nullptr;
    return json;
}

void printText(const std::string& file, const Result<Inspected>& result) {
    if (!result) {
        return;
    }
    const Inspected& found = result.value();
    const auto& facts = found.index.facts;
    std::cout << file << '\n'
              << fmt::format("  {}, {} × {}, {}{}\n",
                             core::counted(found.index.frameCount(), "frame", "frames"),
                             facts.width, facts.height, facts.codec,
                             facts.hasSound ? ", with sound" : "");
    if (found.index.playbackRate) {
        std::cout << fmt::format("  plays at {} = {} frames per second\n",
                                 found.index.playbackRate->fps.toString(),
                                 core::report::fixed(found.index.playbackRate->fps.toDouble(), 3));
    }
    std::cout << "  captured at "
              << (found.captureRate ? core::report::fixed(found.captureRate->fps.toDouble(), 3) +
                                          " frames per second"
                                    : std::string{"an unknown rate"})
              << ", clock " << (found.clock.setting ? clockName(found.clock) : "not settled")
              << '\n';
    for (const auto& item : found.evidence) {
        std::cout << "  evidence: " << core::timebase::describe(item) << '\n';
    }
    for (const auto& remark : found.remarks) {
        std::cout << "  note: " << remark.message << '\n';
    }
}

Result<void> inspect(const InspectOptions& options) {
    Json clips = Json::array();
    std::string failures;
    for (const auto& file : options.clips) {
        const auto result = inspectClip(file, options);
        if (!result) {
            failures += (failures.empty() ? "" : "\n") + result.error().message;
        }
        if (options.json) {
            clips.push_back(toJson(file, result));
        } else {
            printText(file, result);
        }
    }
    if (options.json) {
        printJson(Json{{"clips", clips}});
    }
    if (!failures.empty()) {
        return core::fail(core::ErrorCode::Unreadable, failures);
    }
    return core::ok();
}

}  // namespace

void addInspect(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<InspectOptions>();
    CLI::App* command =
        program.add_subcommand("inspect", "Shows the frames, the clock and the faults of a clip.");
    command->add_option("clips", options->clips, "video files")->required();
    command->add_option("--capture-rate", options->captureRate, "the capture rate as you know it");
    command->add_flag("--pictures", options->pictures,
                      "look at every picture too: one that repeats the one before it was put in by "
                      "an editor");
    command->add_flag("--json", options->json, "answer as JSON");
    command->callback([options, &chosen] { chosen = [options] { return inspect(*options); }; });
}

}  // namespace cli
