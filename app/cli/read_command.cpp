#include <fmt/format.h>

#include <cmath>
#include <fstream>
#include <iostream>
#include <map>
#include <memory>
#include <nlohmann/json.hpp>
#include <numbers>
#include <vector>

#include "app/cli/command.h"
#include "core/media/lens.h"
#include "core/media/sound_envelope.h"
#include "core/pictures/decoded_frames.h"
#include "core/pictures/read_clip.h"
#include "core/report/number_format.h"
#include "core/timebase/capture_rate_evidence.h"

namespace cli {
namespace {

using core::ErrorCode;
using core::fail;
using core::Result;
using core::pictures::PictureReading;
using core::pictures::ShotInClip;
using Json = nlohmann::ordered_json;

struct ReadOptions {
    std::vector<std::string> clips;
    std::optional<double> captureRate;
    std::optional<double> stretch;
    std::optional<double> ballDiameterMm;
    std::optional<double> fieldOfViewDeg;
    double readoutMs{};
    std::string marking{"other"};
    std::string jsonFile;
};

/// What one clip gave.
struct ClipResult {
    std::optional<double> captureRate;
    std::vector<std::string> warnings;
    std::vector<ShotInClip> shots;
};

constexpr double kRadiansPerDegree = std::numbers::pi / 180.0;
// A field of view from a data sheet; the crop of a video mode is seldom known better.
constexpr double kFieldOfViewSigmaDeg = 1.0;
// Balls of one make differ by about this share in diameter (common practice, no source).
constexpr double kDiameterRelativeSigma = 0.01;

core::pictures::FilmingFacts factsOf(const ReadOptions& options) {
    core::pictures::FilmingFacts facts;
    if (options.fieldOfViewDeg) {
        facts.fieldOfView =
            core::Measured<core::Radians>{{*options.fieldOfViewDeg * kRadiansPerDegree},
                                          {kFieldOfViewSigmaDeg * kRadiansPerDegree}};
    }
    if (options.ballDiameterMm) {
        const double metres = *options.ballDiameterMm / 1000.0;
        facts.ballDiameter =
            core::Measured<core::image::Metres>{{metres}, {metres * kDiameterRelativeSigma}};
    }
    facts.readout = core::Seconds{options.readoutMs / 1000.0};
    facts.markingSymmetry = options.marking == "band" ? 2 : 1;
    return facts;
}

Result<core::timebase::ClockDecision> clockOf(const ReadOptions& options,
                                              const core::media::ClipIndex& index) {
    using namespace core::timebase;
    std::vector<CaptureRateEvidence> evidence;
    for (const auto& tagged : index.taggedRates) {
        evidence.emplace_back(ContainerTag{tagged.tag, tagged.rate, false});
    }
    if (options.captureRate) {
        BOOST_OUTCOME_TRY(rate, captureRateFromDecimal(*options.captureRate));
        evidence.emplace_back(ReviewerEntry{rate, std::nullopt});
    } else if (options.stretch && index.playbackRate) {
        BOOST_OUTCOME_TRY(
            rate, captureRateFromDecimal(*options.stretch * index.playbackRate->fps.toDouble()));
        evidence.emplace_back(ReviewerEntry{rate, std::nullopt});
    }
    return settleCaptureRate(index.playbackRate, evidence);
}

Result<ClipResult> readOne(const std::string& file, const ReadOptions& options) {
    BOOST_OUTCOME_TRY(index, core::media::readClipIndex(file));
    BOOST_OUTCOME_TRY(decision, clockOf(options, index));
    BOOST_OUTCOME_TRY(clock, core::timebase::makeClock(decision, index.stamps));
    BOOST_OUTCOME_TRY(sound, core::media::readSoundEnvelope(file));
    BOOST_OUTCOME_TRY(decoder, core::media::FrameDecoder::open(file, index));
    core::pictures::DecodedFrames frames{std::move(decoder)};
    ClipResult result;
    for (const auto& warning : index.warnings) {
        result.warnings.push_back(warning.message);
    }
    for (const auto& note : decision.notes) {
        result.warnings.push_back(note.message);
    }
    if (const auto rate = clock.captureRate()) {
        result.captureRate = rate->fps.toDouble();
    }
    core::pictures::FilmingFacts facts = factsOf(options);
    if (const auto lens = core::media::lensOf(index.facts); lens && !facts.fieldOfView) {
        const auto& [width, height] = std::pair{index.facts.width, index.facts.height};
        facts.fieldOfView =
            core::media::fieldOfViewAcrossLongerSide(lens->equivalentFocalLengthMm, width, height);
        result.warnings.push_back(core::media::lensWords(*lens, width, height));
    }
    BOOST_OUTCOME_TRY(shots, core::pictures::readClip(frames, clock, index.stamps, sound, facts));
    if (shots.empty()) {
        result.warnings.emplace_back("No ball in flight was found.");
    }
    for (const auto& shot : shots) {
        if (shot.reading && shot.reading.value().isClockRefuted()) {
            const std::string& statement = shot.reading.value().gravity->statement;
            if (std::find(result.warnings.begin(), result.warnings.end(), statement) ==
                result.warnings.end()) {
                result.warnings.push_back(statement);
            }
        }
    }
    result.shots = std::move(shots);
    return result;
}

std::string_view candidateName(core::spin::fit::CandidateKind kind) {
    switch (kind) {
        case core::spin::fit::CandidateKind::Best:
            return "best";
        case core::spin::fit::CandidateKind::Minimum:
            return "minimum";
        case core::spin::fit::CandidateKind::Alias:
            return "alias";
        case core::spin::fit::CandidateKind::Twin:
            return "twin";
    }
    return "";
}

Json axisJson(const core::spin::fit::Vector3& omega) {
    const double length = std::hypot(omega.x, omega.y, omega.z);
    return length > 0.0 ? Json::array({omega.x / length, omega.y / length, omega.z / length})
                        : Json();
}

Json candidatesJson(const core::spin::fit::FitOutcome& fit) {
    Json list = Json::array();
    for (const auto& candidate : fit.candidates) {
        list.push_back({{"spin_rpm", candidate.rate.rpm},
                        {"kind", candidateName(candidate.kind)},
                        {"axis", axisJson(candidate.angularVelocity)},
                        {"relative_error",
                         candidate.relativeError ? Json(*candidate.relativeError) : Json()}});
    }
    return list;
}

Json shotJson(const ShotInClip& shot) {
    Json json{{"strike_frame", shot.found.strike.value},
              {"first_frame", shot.found.flight.first.value},
              {"last_frame", shot.found.flight.last.value},
              {"spin_rpm", nullptr},
              {"standard_uncertainty_rpm", nullptr},
              {"interval_rpm", nullptr},
              {"axis", nullptr},
              {"status", "no reading"},
              {"reason", nullptr},
              {"speed_m_per_s", nullptr},
              {"candidates", Json::array()},
              {"warnings", Json::array()}};
    if (!shot.reading) {
        json["reason"] = shot.reading.error().message;
        return json;
    }
    const PictureReading& reading = shot.reading.value();
    json["first_frame"] = reading.track.frames.front().frame.value;
    json["last_frame"] = reading.track.frames.back().frame.value;
    json["candidates"] = candidatesJson(reading.fit);
    json["warnings"] = reading.fit.warnings;
    if (reading.rate) {
        json["status"] = "reading";
        json["spin_rpm"] = reading.rate->value.rpm;
        json["standard_uncertainty_rpm"] = reading.rate->sigma.rpm;
        json["interval_rpm"] = {reading.interval95->low.rpm, reading.interval95->high.rpm};
        json["axis"] = axisJson(reading.fit.angularVelocity);
    } else {
        json["reason"] = reading.reason;
    }
    if (reading.flight && !reading.isClockRefuted()) {
        json["speed_m_per_s"] = reading.flight->speed.value.metresPerSecond;
    }
    return json;
}

Json clipJson(const std::string& file, const Result<ClipResult>& result) {
    Json json{{"file", file},
              {"capture_rate", nullptr},
              {"warnings", Json::array()},
              {"shots", Json::array()},
              {"error", nullptr}};
    if (!result) {
        json["error"] = result.error().message;
        return json;
    }
    const ClipResult& clip = result.value();
    json["capture_rate"] = clip.captureRate ? Json(*clip.captureRate) : Json();
    json["warnings"] = clip.warnings;
    for (const auto& shot : clip.shots) {
        json["shots"].push_back(shotJson(shot));
    }
    return json;
}

void printClip(const std::string& file, const Result<ClipResult>& result) {
    std::cout << file << '\n';
    if (!result) {
        return;
    }
    for (const auto& warning : result.value().warnings) {
        std::cout << "  note: " << warning << '\n';
    }
    int number = 0;
    for (const auto& shot : result.value().shots) {
        std::cout << fmt::format("  shot {}, struck at frame {}: ", ++number,
                                 shot.found.strike.value);
        if (!shot.reading) {
            std::cout << "no reading. " << shot.reading.error().message << '\n';
        } else if (const auto& reading = shot.reading.value(); !reading.rate) {
            std::cout << "no reading. " << reading.reason << '\n';
        } else {
            const double sigma = reading.rate->sigma.rpm;
            std::cout << core::report::plusMinus(reading.rate->value.rpm, sigma) << " rpm, 95 % "
                      << core::report::intervalText(reading.interval95->low.rpm,
                                                    reading.interval95->high.rpm, sigma)
                      << " rpm";
            if (reading.flight) {
                const auto& speed = reading.flight->speed;
                std::cout << ", "
                          << core::report::plusMinus(speed.value.metresPerSecond,
                                                     speed.sigma.metresPerSecond)
                          << " m/s";
            }
            std::cout << '\n';
            for (const auto& warning : reading.fit.warnings) {
                std::cout << "    note: " << warning << '\n';
            }
        }
    }
}

Result<void> writeJson(const std::string& file, const Json& json) {
    const std::string text = json.dump(2, ' ', false, Json::error_handler_t::replace) + "\n";
    if (file == "-") {
        std::cout << text;
        return core::ok();
    }
    std::ofstream stream{file, std::ios::binary};
    stream << text;
    stream.close();
    if (!stream) {
        return fail(ErrorCode::WriteFailed, file + " cannot be written. Choose another place.");
    }
    return core::ok();
}

Result<void> read(const ReadOptions& options) {
    Json clips = Json::array();
    std::string failures;
    for (const auto& file : options.clips) {
        const auto result = readOne(file, options);
        if (!result) {
            failures += (failures.empty() ? "" : "\n") + result.error().message;
        }
        if (options.jsonFile != "-") {
            printClip(file, result);
        }
        clips.push_back(clipJson(file, result));
    }
    if (!options.jsonFile.empty()) {
        BOOST_OUTCOME_TRY(writeJson(options.jsonFile, Json{{"clips", clips}}));
    }
    if (!failures.empty()) {
        return fail(ErrorCode::Unreadable, failures);
    }
    return core::ok();
}

}  // namespace

void addRead(CLI::App& program, Action& chosen) {
    auto options = std::make_shared<ReadOptions>();
    CLI::App* command = program.add_subcommand(
        "read", "Spin from the pictures: every shot found in each clip, without a project.");
    command->add_option("clips", options->clips, "video files")->required();
    auto* rate = command->add_option("--capture-rate", options->captureRate,
                                     "frames per second at which the camera sampled");
    command
        ->add_option("--stretch", options->stretch,
                     "how many times slower the file plays than it was captured")
        ->check(CLI::PositiveNumber)
        ->excludes(rate);
    command
        ->add_option("--ball-diameter-mm", options->ballDiameterMm,
                     "gives speed and a check of the clock by gravity")
        ->check(CLI::Range(5.0, 1000.0));
    command
        ->add_option("--field-of-view-deg", options->fieldOfViewDeg,
                     "across the longer side of the picture; else estimated")
        ->check(CLI::Range(5.0, 150.0));
    command
        ->add_option("--readout-ms", options->readoutMs, "rolling shutter, top row to bottom row")
        ->check(CLI::Range(0.0, 100.0));
    command->add_option("--marking", options->marking, "what is drawn on the ball")
        ->check(CLI::IsMember({"three-quarter", "half", "band", "band-dot", "other"}));
    command->add_option("--json", options->jsonFile,
                        "write the answer there; - is standard output");
    command->callback([options, &chosen] { chosen = [options] { return read(*options); }; });
}

}  // namespace cli
