#pragma once

#include <vector>

#include "core/intake/reading_ahead.h"
#include "core/reading/project_reading.h"
#include "tests/support/must.h"

namespace tests::intake {

/// Reads shots from their pictures, as the window does ahead of their review.
inline void readPictures(core::project::Store& store,
                         const std::vector<core::project::ShotId>& shots) {
    core::intake::ReadingAhead ahead{store, {.begun = {}, .ended = [](const auto&) {}}};
    for (const auto shot : shots) {
        ahead.queue(shot);
    }
    core::jobs::workOff(ahead, core::jobs::Pool::ofProgram(), 1);
}

/// A shot over the whole clip, read from its pictures.
inline core::project::ShotId readWholeClip(core::project::Store& store,
                                           core::project::ClipId clip) {
    core::project::Shot shot;
    shot.clip = clip;
    shot.lastFrame = {store.snapshot()->clips.find(clip)->frameCount - 1};
    const auto id = must(store.addShots(std::vector{shot})).front();
    readPictures(store, {id});
    return id;
}

/// Keeps what the pictures of a shot said.
inline void keepPictures(core::project::Store& store, core::project::ShotId id) {
    const auto snapshot = store.snapshot();
    const auto request = must(core::reading::requestOf(*snapshot, id));
    const auto read = core::intake::keptReading(store, id, request);
    must(store.keepReading(core::reading::makeFitReading(*snapshot, *snapshot->shots.find(id),
                                                         request, read.value())));
}

}  // namespace tests::intake
