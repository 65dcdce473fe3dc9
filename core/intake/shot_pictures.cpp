#include "core/intake/shot_pictures.h"

#include "core/base/words.h"
#include "core/intake/clip_record.h"
#include "core/intake/find_clip.h"
#include "core/media/frames/frame_decoder.h"
#include "core/project/clip_clock.h"
#include "core/reading/decoded_frames.h"
#include "core/reading/reading_archive.h"

namespace core::intake {

Result<ShotPictures> shotPicturesOf(project::Store& store, project::ShotId id) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(request, reading::requestOf(*snapshot, id));
    const auto* shot = snapshot->shots.find(id);
    const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    if (clip == nullptr) {
        return fail(ErrorCode::NotFound, said("The shot is no longer in the project."));
    }
    BOOST_OUTCOME_TRY(file, findClip(store, clip->id));
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clip->id));
    BOOST_OUTCOME_TRY(clock, project::clipClock(request.clock, *frames));
    return ShotPictures{id, request, file, indexOf(*clip, *frames), clock};
}

Result<reading::PictureReading> readShotPictures(const ShotPictures& shot, std::stop_token stop,
                                                 const std::function<void(double)>& progress) {
    std::shared_ptr<reading::DecodedFrames> frames;
    return readShotPictures(shot, frames, std::move(stop), progress);
}

Result<reading::PictureReading> readShotPictures(const ShotPictures& shot,
                                                 std::shared_ptr<reading::DecodedFrames>& frames,
                                                 std::stop_token stop,
                                                 const std::function<void(double)>& progress) {
    if (!frames) {
        BOOST_OUTCOME_TRY(decoder, media::FrameDecoder::open(shot.file, shot.index));
        frames = std::make_shared<reading::DecodedFrames>(std::move(decoder));
    }
    return reading::readShot(*frames, shot.clock, shot.request.range, shot.request.shot,
                             shot.request.clicks, shot.request.facts, std::move(stop), progress);
}

std::optional<reading::PictureReading> keptReading(const project::Store& store,
                                                   project::ShotId shot,
                                                   const reading::ShotRequest& request) {
    const auto archive = store.archiveOf(shot);
    if (!archive || !archive.value() || archive.value()->key != reading::keyOf(request)) {
        return std::nullopt;
    }
    auto reading = reading::fromArchive(archive.value()->bytes);
    return reading ? std::optional{std::move(reading).value()} : std::nullopt;
}

Result<void> keepPictures(project::Store& store, project::ShotId shot,
                          const reading::ShotRequest& request,
                          const reading::PictureReading& reading) {
    BOOST_OUTCOME_TRY(
        store.noteArchive(shot, {reading::keyOf(request), reading::toArchive(reading)}));
    const auto present = reading::requestOf(*store.snapshot(), shot);
    if (!present || !(present.value() == request)) {
        return ok();  // read on a clock that the clip no longer has
    }
    return store.noteRefutation(
        shot, reading.isClockRefuted() ? reading.gravity->statement : std::string{});
}

Result<void> keepPictures(project::Store& store, const ShotPictures& shot,
                          const reading::PictureReading& reading) {
    return keepPictures(store, shot.shot, shot.request, reading);
}

}  // namespace core::intake
