#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <stop_token>
#include <string>

#include "core/base/result.h"
#include "core/image/readout_estimate.h"
#include "core/synthesis/random_shot.h"

/// How well the pictures are read: rendered shots of varied conditions, read blind, against truth.
namespace core::accuracy {

/// What a trial's reader is told of the readout, and what there is to tell.
enum class ReadoutTelling {
    Told,
    NotTold,      ///< a rolling shutter
    NoneNotTold,  ///< a global shutter
};

/// One rendered shot and what the program read from its file. Immutable value.
struct Trial {
    std::uint64_t seed{};
    synthesis::ShotConditions conditions;
    Rpm truth;
    ReadoutTelling telling{ReadoutTelling::Told};
    bool isFound{};          ///< a shot was found while the ball flew
    bool hasFalseReading{};  ///< something else was taken for a shot and read, off by kBlunder
    bool isRead{};           ///< status "reading"
    std::string reason;      ///< of no reading
    double relativeError{};  ///< (read - true) / true; of readings
    double relativeSigma{};  ///< standard uncertainty / read; of readings
    bool isCovered{};        ///< the 95 % interval contains the truth; of readings
    double axisErrorDeg{};   ///< angle between the axes, direction of turning included
    double centreErrorPx{};  ///< root mean square of the tracked centres, where tracked
    double radiusError{};    ///< mean relative error of the tracked radii, where tracked
    /// What the outlines say of the readout, where it was not told and they tell.
    std::optional<image::ReadoutEstimate> readoutSeen;
    // Processor time, decoding left out.
    Seconds findTime;   ///< of looking for the shot in the whole clip
    Seconds trackTime;  ///< of following the ball through it
    Seconds fitTime;
};

/// A trial counts as a silent blunder when it is given as a reading and off by more than this.
inline constexpr double kBlunder = 0.05;

/// What is drawn and what the tester tells of it.
struct TrialSetup {
    synthesis::ShotRanges ranges;
    ReadoutTelling telling{ReadoutTelling::Told};
};

/// Shots with a readout of 3 to 10 ms, at most a frame, that nobody tells; falling, level, rising.
[[nodiscard]] TrialSetup readoutNotTold();

/// Shots like the usual ones with a global shutter, which nobody tells.
[[nodiscard]] TrialSetup globalShutterNotTold();

/// Renders the shot of a seed to a film in the given folder, reads it without being told anything
/// but its time stamps, the ball's diameter and (as the setup says) the shutter's readout, and
/// removes the film.
/// Errors: those of rendering and of reading the file; Cancelled.
Result<Trial> runTrial(std::uint64_t seed, const TrialSetup& setup,
                       const std::filesystem::path& folder, std::stop_token stop = {});

}  // namespace core::accuracy
