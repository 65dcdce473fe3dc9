#include "core/intake/shot_pictures.h"

#include "core/intake/clip_record.h"
#include "core/intake/find_clip.h"
#include "core/media/frame_decoder.h"
#include "core/pictures/decoded_frames.h"
#include "core/pictures/reading_archive.h"
#include "core/project/shot_reading.h"

namespace core::intake {

Result<ShotPictures> shotPicturesOf(project::Store& store, project::ShotId id) {
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(request, pictures::requestOf(*snapshot, id));
    const auto* shot = snapshot->shots.find(id);
    const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    if (clip == nullptr) {
        return fail(ErrorCode::NotFound, "The shot is no longer in the project.");
    }
    BOOST_OUTCOME_TRY(file, findClip(store, clip->id));
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clip->id));
    BOOST_OUTCOME_TRY(clock, project::clipClock(request.clock, *frames));
    return ShotPictures{id, request, file, indexOf(*clip, *frames), clock};
}

Result<pictures::PictureReading> readShotPictures(const ShotPictures& shot, std::stop_token stop,
                                                  const std::function<void(double)>& progress) {
    std::shared_ptr<pictures::DecodedFrames> frames;
    return readShotPictures(shot, frames, std::move(stop), progress);
}

Result<pictures::PictureReading> readShotPictures(const ShotPictures& shot,
                                                  std::shared_ptr<pictures::DecodedFrames>& frames,
                                                  std::stop_token stop,
                                                  const std::function<void(double)>& progress) {
    if (!frames) {
        BOOST_OUTCOME_TRY(decoder, media::FrameDecoder::open(shot.file, shot.index));
        frames = std::make_shared<pictures::DecodedFrames>(std::move(decoder));
    }
    return pictures::readShot(*frames, shot.clock, shot.request.range, shot.request.clicks,
                              shot.request.facts, std::move(stop), progress);
}

std::optional<pictures::PictureReading> keptReading(const project::Store& store,
                                                    project::ShotId shot,
                                                    const pictures::ShotRequest& request) {
    const auto archive = store.archiveOf(shot);
    if (!archive || !archive.value() || archive.value()->key != pictures::keyOf(request)) {
        return std::nullopt;
    }
    auto reading = pictures::fromArchive(archive.value()->bytes);
    return reading ? std::optional{std::move(reading).value()} : std::nullopt;
}

bool isKept(const project::Store& store, project::ShotId shot,
            const pictures::ShotRequest& request) {
    const auto archive = store.archiveOf(shot);
    return archive && archive.value() && archive.value()->key == pictures::keyOf(request);
}

Result<void> keepPictures(project::Store& store, const ShotPictures& shot,
                          const pictures::PictureReading& reading) {
    return store.noteArchive(shot.shot,
                             {pictures::keyOf(shot.request), pictures::toArchive(reading)});
}

}  // namespace core::intake
