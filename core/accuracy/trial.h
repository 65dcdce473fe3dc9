#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <stop_token>
#include <string>

#include "core/accuracy/situation.h"
#include "core/base/result.h"
#include "core/image/readout_estimate.h"
#include "core/synthesis/random_shot.h"

/// How well the pictures are read: rendered shots of varied conditions, read blind, against truth.
namespace core::accuracy {

/// One rendered shot and what the program read from its file. Immutable value.
struct Trial {
    std::uint64_t seed{};
    synthesis::ShotConditions conditions;
    Rpm truth;
    Situation situation{Situation::Usual};
    bool isFound{};               ///< a shot was found while the ball flew
    bool hasFalseReading{};       ///< something else was taken for a shot and read, off by kBlunder
    bool isRead{};                ///< status "reading"
    bool isWarned{};              ///< the reading carries a warning
    bool hasKink{};               ///< the shot was taken to end at a kink of the path
    std::int64_t framesBeyond{};  ///< of the track after the last true one: beyond a bounce
    std::string reason;           ///< of no reading
    double relativeError{};       ///< (read - true) / true; of readings
    double relativeSigma{};       ///< standard uncertainty / read; of readings
    bool isCovered{};             ///< the 95 % interval contains the truth; of readings
    double axisErrorDeg{};        ///< angle between the axes, direction of turning included
    double centreErrorPx{};       ///< root mean square of the tracked centres, where tracked
    double radiusError{};         ///< mean relative error of the tracked radii, where tracked
    /// What the outlines say of the readout, where it was not told and they tell.
    std::optional<image::ReadoutEstimate> readoutSeen;
    // Processor time, decoding left out.
    Seconds findTime;   ///< of looking for the shot in the whole clip
    Seconds trackTime;  ///< of following the ball through it
    Seconds fitTime;
};

/// A reading is a blunder when it is off by more than this.
inline constexpr double kBlunder = 0.05;

/// Renders the shot of a seed to a film in the given folder, reads it without being told anything
/// but its time stamps, the ball's diameter and (where the situation says so) the shutter's
/// readout, and removes the film. Errors: those of rendering and of reading the file; Cancelled.
Result<Trial> runTrial(std::uint64_t seed, Situation situation, const std::filesystem::path& folder,
                       std::stop_token stop = {});

}  // namespace core::accuracy
