#include "core/evidence/gather.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <opencv2/imgproc.hpp>

#include "core/base/words.h"
#include "core/evidence/picture_codec.h"
#include "core/intake/clip_record.h"
#include "core/intake/find_clip.h"
#include "core/media/frames/frame_decoder.h"
#include "core/project/clip_clock.h"
#include "core/reading/reading_archive.h"

namespace core::evidence {
namespace {

using project::Shot;
using project::ShotId;
using project::StoredPicture;
using timebase::FrameIndex;

/// Half the side of a cut-out in ball radii: the ball, and room for a correction of its place.
constexpr double kHalfSideRadii = 1.9;
constexpr int kMinSidePx = 48;
constexpr int kMaxStoredSidePx = 160;

const Shot* keptFilmShot(const project::Snapshot& snapshot, ShotId id) {
    const Shot* shot = snapshot.shots.find(id);
    const auto* clip = shot != nullptr ? snapshot.clips.find(shot->clip) : nullptr;
    return clip != nullptr && !isTally(*clip) && shot->standing == project::ShotStanding::Kept
               ? shot
               : nullptr;
}

bool covers(const project::Snapshot& snapshot, const project::StoredSize& size, const Shot& shot) {
    const auto* clip = snapshot.clips.find(shot.clip);
    return size.firstFrame <= shot.firstFrame && size.lastFrame >= shot.lastFrame &&
           clip != nullptr && size.turnedDegrees == clip->turnedDegrees;
}

reading::BallPlaces ballPlacesOf(const project::Store& store, const project::Snapshot& snapshot,
                                 const project::Clip& clip, const Shot& shot,
                                 const timebase::ClipClock& clock) {
    const auto* counting = shot.counting ? snapshot.readings.find(*shot.counting) : nullptr;
    const bool isFit =
        counting != nullptr && counting->method == project::ReadingMethod::RotationFit;
    const auto archive = store.archiveOf(shot.id);
    if (!isFit && archive && archive.value()) {
        const auto read = reading::fromArchive(archive.value()->bytes);
        if (read && !read.value().track.frames.empty() &&
            read.value().track.rowOrder == image::rowOrderOf(clip.rotationDegrees)) {
            return {reading::placesOf(read.value().track.frames), clock};
        }
    }
    return reading::ballPlacesOf(clip, shot, counting, clock);
}

/// A square of whole pixels, so that a picture that need not be scaled is kept as it is.
StoredPicture placeOf(const GatherTask& task, const media::Frame& frame) {
    StoredPicture picture;
    picture.frame = frame.index();
    picture.turnedDegrees = task.turnedDegrees;
    picture.captureSeconds =
        task.captureSeconds[static_cast<std::size_t>(frame.index().value - task.first.value)];
    double centreX = frame.width() / 2.0;
    double centreY = frame.height() / 2.0;
    double halfSide = std::max(frame.width(), frame.height()) / 2.0;
    if (const auto ball = task.places.at(frame.index())) {
        picture.ball = {ball->xPx, ball->yPx, ball->radiusPx};
        centreX = ball->xPx;
        centreY = ball->yPx;
        halfSide = std::clamp(kHalfSideRadii * ball->radiusPx, kMinSidePx / 2.0, halfSide);
    }
    picture.leftPx = std::floor(centreX - halfSide);
    picture.topPx = std::floor(centreY - halfSide);
    picture.sidePx = std::ceil(2.0 * halfSide) + 1.0;
    picture.storedSidePx = std::min(static_cast<int>(picture.sidePx), kMaxStoredSidePx);
    return picture;
}

Result<StoredPicture> cutOut(const GatherTask& task, const media::Frame& frame) {
    StoredPicture picture = placeOf(task, frame);
    const int side = static_cast<int>(picture.sidePx);
    PixelBuffer region = frame.rgbRegion(static_cast<int>(picture.leftPx),
                                         static_cast<int>(picture.topPx), side, side);
    if (picture.storedSidePx < side) {
        PixelBuffer smaller{picture.storedSidePx, picture.storedSidePx, PixelFormat::Rgb8};
        const cv::Mat from{side, side, CV_8UC3, region.row(0)};
        cv::Mat to{smaller.height(), smaller.width(), CV_8UC3, smaller.row(0)};
        cv::resize(from, to, to.size(), 0.0, 0.0, cv::INTER_AREA);
        region = std::move(smaller);
    }
    BOOST_OUTCOME_TRY(bytes, encodePicture(region.view()));
    picture.bytes = std::move(bytes);
    return picture;
}

}  // namespace

Result<bool> isWanting(const project::Store& store, ShotId id) {
    const auto snapshot = store.snapshot();
    const Shot* shot = keptFilmShot(*snapshot, id);
    if (shot == nullptr) {
        return false;
    }
    BOOST_OUTCOME_TRY(sizes, store.pictureSizes());
    return std::none_of(sizes.begin(), sizes.end(), [&](const project::StoredSize& size) {
        return size.shot == id && covers(*snapshot, size, *shot);
    });
}

Result<std::vector<ShotId>> wantingShots(const project::Store& store) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(sizes, store.pictureSizes());
    std::vector<ShotId> wanting;
    for (const Shot* shot : shotsInOrder(*snapshot)) {
        const auto size = std::lower_bound(
            sizes.begin(), sizes.end(), shot->id,
            [](const project::StoredSize& each, ShotId id) { return each.shot < id; });
        const bool isThere =
            size != sizes.end() && size->shot == shot->id && covers(*snapshot, *size, *shot);
        if (!isThere && keptFilmShot(*snapshot, shot->id) != nullptr) {
            wanting.push_back(shot->id);
        }
    }
    return wanting;
}

Result<GatherTask> gatherTask(project::Store& store, ShotId id) {
    const auto snapshot = store.snapshot();
    const Shot* shot = snapshot->shots.find(id);
    const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    if (clip == nullptr) {
        return fail(ErrorCode::NotFound, said("The shot is no longer in the project."));
    }
    BOOST_OUTCOME_TRY(file, intake::findClip(store, clip->id));
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clip->id));
    BOOST_OUTCOME_TRY(clock,
                      project::clipClock(clip->clock.value_or(project::ClockSetting{}), *frames));
    GatherTask task{.shot = id,
                    .first = shot->firstFrame,
                    .last = shot->lastFrame,
                    .file = file,
                    .index = intake::indexOf(*clip, *frames),
                    .turnedDegrees = clip->turnedDegrees,
                    .captureSeconds = {},
                    .places = ballPlacesOf(store, *snapshot, *clip, *shot, clock)};
    for (FrameIndex at = task.first; at <= task.last; ++at.value) {
        task.captureSeconds.push_back(clock.captureSeconds(at).seconds);
    }
    return task;
}

Result<project::StoredPictures> gather(const GatherTask& task, std::stop_token stop) {
    BOOST_OUTCOME_TRY(decoder, media::FrameDecoder::open(task.file, task.index, 1));
    project::StoredPictures evidence;
    evidence.codec = kPictureCodec;
    Result<void> trouble = ok();
    BOOST_OUTCOME_TRY(decoder->decodeRange(
        task.first, task.last,
        [&](FrameIndex, const Result<media::FramePtr>& frame) {
            if (!frame) {
                trouble = frame.error();
                return true;
            }
            Result<StoredPicture> picture = cutOut(task, *frame.value());
            if (!picture) {
                trouble = picture.error();
                return false;
            }
            evidence.pictures.push_back(std::move(picture).value());
            return true;
        },
        stop));
    if (stop.stop_requested()) {
        return fail(ErrorCode::Cancelled, said("Keeping the pictures was cancelled."));
    }
    if (!trouble && (evidence.pictures.empty() || trouble.error().code != ErrorCode::Damaged)) {
        return trouble.error();
    }
    return evidence;
}

Result<Gathered> gatherMissing(project::Store& store, std::stop_token stop,
                               const std::function<void(std::size_t, std::size_t)>& progress) {
    BOOST_OUTCOME_TRY(shots, wantingShots(store));
    Gathered gathered;
    for (std::size_t done = 0; done < shots.size(); ++done) {
        if (progress) {
            progress(done, shots.size());
        }
        const auto task = gatherTask(store, shots[done]);
        auto evidence =
            task ? gather(task.value(), stop) : Result<project::StoredPictures>{task.error()};
        if (!evidence && evidence.error().code == ErrorCode::Cancelled) {
            return evidence.error();
        }
        if (evidence) {
            BOOST_OUTCOME_TRY(store.notePictures(shots[done], std::move(evidence).value()));
            ++gathered.made;
            continue;
        }
        const auto snapshot = store.snapshot();
        gathered.troubles.push_back(
            fmt::format("{}: {}", shotName(*snapshot, *snapshot->shots.find(shots[done])),
                        evidence.error().message));
    }
    return gathered;
}

}  // namespace core::evidence
