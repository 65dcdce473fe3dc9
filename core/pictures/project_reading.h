#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/pictures/read_shot.h"
#include "core/project/snapshot.h"

/// Readings by rotation fit of the shots of a project.
namespace core::pictures {

/// Version of the reading by rotation fit, kept with each reading. Raise it when the method
/// changes.
inline constexpr std::string_view kFitMethodVersion = "rotation fit 2";

/// Everything in a project that a reading from the pictures rests on. Plain value: two equal ones
/// give the same reading.
struct ShotRequest {
    image::FrameRange range;  ///< the shot with frames about it for the background, where no other
                              ///< shot of the clip lies
    std::vector<image::BallClick> clicks;
    FilmingFacts facts;
    project::ClockSetting clock;

    bool operator==(const ShotRequest& other) const;
};

/// Everything that decides what a reading from the pictures says, as text: the request and the
/// version of the method. Two equal keys give the same reading.
[[nodiscard]] std::string keyOf(const ShotRequest& request);

/// Errors: NotFound when shot, clip or session are gone; Contradiction for a clip whose clock is
/// not settled.
Result<ShotRequest> requestOf(const project::Snapshot& snapshot, project::ShotId shot);

/// The reading to keep, with everything it was computed from and with (FORMAT.md R22). `read` must
/// have a rate and come from `request`, which must still be that of the shot.
[[nodiscard]] project::Reading makeFitReading(const project::Snapshot& snapshot,
                                              const project::Shot& shot, const ShotRequest& request,
                                              const PictureReading& read);

}  // namespace core::pictures
