#pragma once

#include <filesystem>
#include <functional>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/media/file/clip_index.h"
#include "core/project/store.h"
#include "core/reading/ball_places.h"

namespace core::evidence {

/// Everything that is needed to cut the pictures of one shot from its film, so that it may be done
/// on another thread. Plain value.
struct GatherTask {
    project::ShotId shot;
    timebase::FrameIndex first;
    timebase::FrameIndex last;
    std::filesystem::path file;
    media::ClipIndex index;
    int turnedDegrees{};                 ///< of the clip
    std::vector<double> captureSeconds;  ///< of first … last
    reading::BallPlaces places;
};

/// Whether a kept shot is without pictures of all its frames. False for a shot that is not kept,
/// and for one from a table of frame counts.
Result<bool> isWanting(const project::Store& store, project::ShotId shot);
/// All such shots, in the order of the film.
Result<std::vector<project::ShotId>> wantingShots(const project::Store& store);

/// The ball is where the track of the counting reading has it, else where the pictures were read
/// ahead, else where a person pointed. Errors: those of intake::findClip (NotFound: no film),
/// Store::clipFrames and project::clipClock; NotFound for a shot that is gone.
Result<GatherTask> gatherTask(project::Store& store, project::ShotId shot);

/// Decodes the frames and cuts them out. Errors: those of media::FrameDecoder; Cancelled. A frame
/// that is damaged is left out; Damaged when all are.
Result<project::StoredPictures> gather(const GatherTask& task, std::stop_token stop = {});

/// How many shots were gone through, and what could not be had: one sentence a shot.
struct Gathered {
    int made{};
    std::vector<std::string> troubles;
};
/// Makes what is wanting of all kept shots. progress: shots done, shots in all.
/// Errors: Cancelled; those of the store.
Result<Gathered> gatherMissing(project::Store& store, std::stop_token stop = {},
                               const std::function<void(std::size_t, std::size_t)>& progress = {});

}  // namespace core::evidence
