#pragma once

#include <filesystem>
#include <memory>
#include <optional>
#include <stop_token>
#include <vector>

#include "core/base/result.h"
#include "core/base/words.h"
#include "core/intake/slate_cards.h"
#include "core/media/file/clip_index.h"
#include "core/project/store.h"
#include "core/timebase/clip_clock.h"

namespace core::reading {
class DecodedFrames;
}

/// The shots of a clip, found by sound and movement and put into the project.
namespace core::intake {

/// Everything the search for shots needs, so that it can run away from the store's thread.
struct ShotSearch {
    project::ClipId clip;
    std::filesystem::path file;
    media::ClipIndex index;
    timebase::ClipClock clock;
    std::optional<SlateSearch> slates;  ///< of a clip that may be one shot as a whole
};

/// Errors: NotFound when the clip is gone or its file is not found; Contradiction when its clock is
/// not settled; those of project::Store::clipFrames.
Result<ShotSearch> shotSearchOf(project::Store& store, project::ClipId clip);

/// A clip of at most this many frames in which no flight is found and no slate card is seen is
/// taken for one shot.
inline constexpr std::int64_t kWholeClipShotFrames = 480;

/// Why a flight that goes on from a shot after a kink of its path (image/kink.h) is set aside: it
/// is no shot of the implement unless the reviewer opens it. Kept in English, shown by saidText().
inline constexpr std::string_view kFlightAfterKink =
    toSay("flight after a bounce or another touch");

/// Whether the shot is set aside for that reason.
[[nodiscard]] bool isFlightAfterKink(const project::Shot& shot);

/// Looks for shots by sound and movement (shots::findShots); takes as long as decoding what it
/// looks at. The shots begin at their strike and end where the ball was last seen before a kink of
/// its path; flights after a kink come set aside, without a strike; a short clip without any is one
/// shot as a whole, whose strike is not known. Errors: those of opening the file; Cancelled.
Result<std::vector<project::Shot>> searchShots(const ShotSearch& search, std::stop_token stop = {});

/// The same, with the frames that are decoded left for reading the shots; made when null.
Result<std::vector<project::Shot>> searchShots(const ShotSearch& search,
                                               std::shared_ptr<reading::DecodedFrames>& frames,
                                               std::stop_token stop);

/// Adds the found shots that touch no shot of the project and that no person has moved, joined or
/// dropped (shot_corrections.h), so that corrections stay when a clip is searched again; what is
/// there is never moved or removed. The clip says from then on that it was searched. One edit.
/// Returns the new ones, which may be none.
Result<std::vector<project::ShotId>> addNewShots(project::Store& store, project::ClipId clip,
                                                 std::vector<project::Shot> found);

/// A shot that spans the clip. Errors: NotFound; as project::Store::addShots.
Result<project::ShotId> addWholeClipShot(project::Store& store, project::ClipId clip);

}  // namespace core::intake
