#include "core/intake/add_clip.h"

#include <system_error>

#include "core/base/words.h"
#include "core/intake/clip_clock_setting.h"
#include "core/intake/clip_record.h"
#include "core/intake/day_setup.h"
#include "core/media/file/clip_index.h"
#include "core/project/clip_location.h"

namespace core::intake {

Result<PreparedClip> prepareClip(const std::filesystem::path& file,
                                 const std::filesystem::path& projectFile, std::stop_token stop) {
    BOOST_OUTCOME_TRY(index, media::readClipIndex(file, stop));
    BOOST_OUTCOME_TRY(print, media::fingerprint(file));
    PreparedClip prepared{recordOf(index), framesOf(index)};
    prepared.clip.path = project::pathToKeep(projectFile, std::filesystem::absolute(file));
    prepared.clip.fingerprint = print;
    std::error_code problem;
    prepared.clip.sizeBytes = static_cast<std::int64_t>(std::filesystem::file_size(file, problem));
    if (problem) {
        return fail(ErrorCode::Unreadable,
                    said("The size of {} cannot be read: {}.", file.string(), problem.message()));
    }
    auto settled = settleClock(index.playbackRate, index.stamps, prepared.clip.evidence);
    prepared.clip.clock = settled.setting;
    prepared.clip.clockRemarks = std::move(settled.remarks);
    return prepared;
}

Result<project::ClipId> addPreparedClip(project::Store& store, project::SessionId session,
                                        const PreparedClip& prepared) {
    project::Clip clip = prepared.clip;
    clip.session = session;
    return store.addClip(asFilmedOnDay(*store.snapshot(), clip, prepared.frames.stamps),
                         prepared.frames);
}

}  // namespace core::intake
