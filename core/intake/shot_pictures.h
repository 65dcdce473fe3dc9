#pragma once

#include <filesystem>
#include <functional>
#include <memory>
#include <optional>
#include <stop_token>

#include "core/media/file/clip_index.h"
#include "core/project/store.h"
#include "core/reading/project_reading.h"
#include "core/timebase/clip_clock.h"

namespace core::reading {
class DecodedFrames;
}

/// One shot of a project, read from its pictures and kept ahead of its review.
namespace core::intake {

/// Everything that reading a shot needs, so that it can run away from the store's thread.
struct ShotPictures {
    project::ShotId shot;
    reading::ShotRequest request;
    std::filesystem::path file;
    media::ClipIndex index;
    timebase::ClipClock clock;
};

/// Errors: those of reading::requestOf(), findClip() and project::Store::clipFrames().
Result<ShotPictures> shotPicturesOf(project::Store& store, project::ShotId shot);

/// Decodes, follows the ball, fits. `progress` is told the share that is done. Errors: those of
/// opening the file and of reading::readShot(); Cancelled.
Result<reading::PictureReading> readShotPictures(const ShotPictures& shot,
                                                 std::stop_token stop = {},
                                                 const std::function<void(double)>& progress = {});
/// The same, with the frames decoded by an earlier reading of the shot; made when null.
Result<reading::PictureReading> readShotPictures(const ShotPictures& shot,
                                                 std::shared_ptr<reading::DecodedFrames>& frames,
                                                 std::stop_token stop,
                                                 const std::function<void(double)>& progress);

/// What the project keeps of these pictures; absent when nothing, or nothing whole.
[[nodiscard]] std::optional<reading::PictureReading> keptReading(
    const project::Store& store, project::ShotId shot, const reading::ShotRequest& request);

/// Keeps what was read in the project (project::Store::noteArchive), and what the flight says of
/// the clip's clock (noteRefutation). Errors: theirs; NotFound when the shot is gone.
Result<void> keepPictures(project::Store& store, project::ShotId shot,
                          const reading::ShotRequest& request,
                          const reading::PictureReading& reading);
Result<void> keepPictures(project::Store& store, const ShotPictures& shot,
                          const reading::PictureReading& reading);

}  // namespace core::intake
