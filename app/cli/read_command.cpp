#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <iostream>
#include <memory>
#include <nlohmann/json.hpp>
#include <vector>

#include "app/cli/command.h"
#include "app/cli/film_options.h"
#include "core/base/kept_words.h"
#include "core/intake/clip_shots.h"
#include "core/intake/read_film.h"
#include "core/report/number_format.h"

namespace cli {
namespace {

using core::ErrorCode;
using core::fail;
using core::Result;
using core::intake::FilmReading;
using core::intake::FilmShot;
using core::reading::PictureReading;
using Json = nlohmann::ordered_json;

struct ReadOptions {
    FilmOptions film;
    std::string jsonFile;
    bool overwrite{};
};

/// What is to be known of the clip, each sentence once.
std::vector<std::string> warningsOf(const FilmReading& film) {
    std::vector<std::string> warnings;
    for (const auto& remark : allRemarks(film.clip)) {
        warnings.push_back(remark.message);
    }
    if (film.shots.empty()) {
        warnings.emplace_back("No ball in flight was found.");
    }
    for (const auto& shot : film.shots) {
        if (shot.reading && shot.reading.value().isClockRefuted()) {
            const std::string statement = core::saidKept(shot.reading.value().gravity->statement);
            if (std::find(warnings.begin(), warnings.end(), statement) == warnings.end()) {
                warnings.push_back(statement);
            }
        }
    }
    return warnings;
}

constexpr double kMsPerS = 1000.0;

std::string readoutText(const core::reading::ReadoutPart& part) {
    using core::reading::ReadoutSource;
    const double mean = kMsPerS * part.readout.mean.seconds;
    const double sigma = kMsPerS * part.readout.sigma.seconds;
    switch (part.source) {
        case ReadoutSource::Stated:
            return fmt::format("Shutter readout: {:g} ms, as stated.", mean);
        case ReadoutSource::Outlines:
            return fmt::format("Shutter readout: {} ms, estimated from the ball's outline.",
                               core::report::plusMinus(mean, sigma));
        case ReadoutSource::Unknown:
            break;
    }
    return fmt::format(
        "Shutter readout: not known. Nobody stated it and the ball's outline does not tell it, so "
        "the interval allows for everything up to {:.1f} ms. State it with --readout-ms.",
        kMsPerS * part.readout.interval95.high.seconds);
}

Json readoutJson(const core::reading::ReadoutPart& part) {
    constexpr std::array<const char*, 3> kSources{"stated", "outline", "unknown"};
    return {{"value_ms", kMsPerS * part.readout.mean.seconds},
            {"standard_uncertainty_ms", kMsPerS * part.readout.sigma.seconds},
            {"source", kSources.at(static_cast<std::size_t>(part.source))}};
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

std::int64_t strikeOf(const FilmShot& shot) {
    return shot.shot.strikeFrame.value_or(shot.shot.firstFrame).value;
}

/// Else it goes on from a shot after a kink of its path and is no shot of the implement.
bool isShot(const FilmShot& shot) {
    return !core::intake::isFlightAfterKink(shot.shot);
}

Json shotJson(const FilmShot& shot) {
    Json json{{"strike_frame", strikeOf(shot)},
              {"first_frame", shot.shot.firstFrame.value},
              {"last_frame", shot.shot.lastFrame.value},
              {"spin_rpm", nullptr},
              {"standard_uncertainty_rpm", nullptr},
              {"interval_rpm", nullptr},
              {"axis", nullptr},
              {"status", "no reading"},
              {"reason", nullptr},
              {"speed_m_per_s", nullptr},
              {"readout", nullptr},
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
        json["readout"] = readoutJson(reading.readout);
    } else {
        json["reason"] = reading.reason;
    }
    if (reading.flight && !reading.isClockRefuted()) {
        json["speed_m_per_s"] = reading.flight->speed.value.metresPerSecond;
    }
    return json;
}

Json clipJson(const std::string& file, const Result<FilmReading>& result) {
    Json json{{"file", file},
              {"capture_rate", nullptr},
              {"warnings", Json::array()},
              {"shots", Json::array()},
              {"flights_after_a_kink", Json::array()},
              {"error", nullptr}};
    if (!result) {
        json["error"] = result.error().message;
        return json;
    }
    const FilmReading& film = result.value();
    if (film.captureRate) {
        json["capture_rate"] = film.captureRate->fps.toDouble();
    }
    json["warnings"] = warningsOf(film);
    for (const auto& shot : film.shots) {
        json[isShot(shot) ? "shots" : "flights_after_a_kink"].push_back(shotJson(shot));
    }
    return json;
}

void printClip(const std::string& file, const Result<FilmReading>& result) {
    std::cout << file << '\n';
    if (!result) {
        return;
    }
    for (const auto& warning : warningsOf(result.value())) {
        std::cout << "    note: " << warning << '\n';
    }
    int number = 0;
    for (const auto& shot : result.value().shots) {
        number += isShot(shot) ? 1 : 0;
        std::cout << (isShot(shot)
                          ? fmt::format("  shot {}, struck at frame {}: ", number, strikeOf(shot))
                          : fmt::format("    {}, from frame {}: ", shot.shot.reason,
                                        shot.shot.firstFrame.value));
        if (!shot.reading) {
            std::cout << "no reading. " << shot.reading.error().message << '\n';
        } else if (const auto& reading = shot.reading.value(); !reading.rate) {
            std::cout << "no reading. " << core::saidKept(reading.reason) << '\n';
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
            std::cout << "\n    " << readoutText(reading.readout) << '\n';
            for (const auto& warning : reading.fit.warnings) {
                std::cout << "    note: " << core::saidKept(warning) << '\n';
            }
        }
    }
}

Result<void> read(const ReadOptions& options) {
    const core::WriteRule rule{existingBy(options.overwrite),
                               {options.film.clips.begin(), options.film.clips.end()}};
    const bool isFile = !options.jsonFile.empty() && options.jsonFile != "-";
    if (isFile) {
        BOOST_OUTCOME_TRY(core::mayWrite(options.jsonFile, rule));  // before the long work
    }
    Json clips = Json::array();
    std::string failures;
    for (const auto& file : options.film.clips) {
        const auto result = core::intake::readFilm(file, options.film.session, options.film.rate);
        if (!result) {
            failures += (failures.empty() ? "" : "\n") + result.error().message;
        }
        if (options.jsonFile != "-") {
            printClip(file, result);
        }
        clips.push_back(clipJson(file, result));
    }
    const std::string json = jsonText(Json{{"clips", clips}});
    if (isFile) {
        BOOST_OUTCOME_TRY(core::writeFile(options.jsonFile, json, rule));
    } else if (options.jsonFile == "-") {
        std::cout << json;
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
        "read", "Reads the spin of every shot in the clips from the pictures, without a project.");
    addFilmOptions(*command, options->film);
    command->add_option("--json", options->jsonFile,
                        "write the answer there; - is standard output");
    addOverwrite(*command, options->overwrite);
    command->callback([options, &chosen] { chosen = [options] { return read(*options); }; });
}

}  // namespace cli
