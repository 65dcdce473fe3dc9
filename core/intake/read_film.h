#pragma once

#include <filesystem>
#include <optional>
#include <stop_token>
#include <vector>

#include "core/project/model.h"
#include "core/reading/read_shot.h"

/// Every shot of a film read from its pictures without a project, as a project reads it.
namespace core::intake {

/// What is stated of the capture rate of a film; at most one of the two.
struct StatedRate {
    std::optional<double> framesPerSecond;
    std::optional<double> stretch;  ///< how many times slower the file plays than it was captured
};

struct FilmShot {
    project::Shot shot;
    Result<reading::PictureReading> reading;
};

struct FilmReading {
    project::Clip clip;  ///< with its clock settled; remarks say what is to be known of it
    std::optional<timebase::CaptureRate> captureRate;
    std::vector<FilmShot> shots;  ///< by strike
};

/// Adds the film to a filming day in the memory, finds its shots (searchShots()) and reads each.
/// session: what is known of camera and ball; its id does not matter.
/// Errors: those of prepareClip(); Contradiction when the evidence for the capture rate cannot hold
/// together; of searchShots(); Cancelled.
Result<FilmReading> readFilm(const std::filesystem::path& file, project::Session session,
                             const StatedRate& stated, std::stop_token stop = {});

}  // namespace core::intake
