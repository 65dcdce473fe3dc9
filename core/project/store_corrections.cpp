#include "core/base/expects.h"
#include "core/project/store_rows.h"

/// What a person made of found shots, and how far the unattended work on clips has come.
namespace core::project {

Result<void> SqliteStore::addCorrections(std::span<const ShotCorrection> corrections) {
    return edit([&]() -> Result<Told> {
        std::vector<ShotId> shots;
        for (ShotCorrection correction : corrections) {
            BOOST_OUTCOME_TRY(clip, clipOf(correction.clip));
            if (correction.firstFrame.value < 0 || correction.firstFrame > correction.lastFrame ||
                correction.lastFrame.value >= clip.frameCount) {
                return fail(ErrorCode::OutOfRange,
                            fmt::format("Frames {} to {} are not in clip {}, which has frames 0 "
                                        "to {}.",
                                        correction.firstFrame.value, correction.lastFrame.value,
                                        clip.path, clip.frameCount - 1));
            }
            BOOST_OUTCOME_TRY(id, nextId("shot_correction"));
            correction.id = {id};
            BOOST_OUTCOME_TRY(addRow(correction));
            shots.push_back(correction.shot);
        }
        return Told{fmt::format("Noted {} corrections of shots.", corrections.size()), shots};
    });
}

}  // namespace core::project
