#pragma once

#include <filesystem>
#include <functional>
#include <optional>
#include <span>
#include <stop_token>
#include <vector>

#include "core/media/file/clip_index.h"
#include "core/plan/slate.h"
#include "core/project/store.h"

/// Shots assigned by the slate cards that were filmed before them.
namespace core::intake {

/// A stretch of a clip in which a card is in view.
struct SlateStretch {
    timebase::FrameIndex first;  ///< of the frames that were looked at
    timebase::FrameIndex last;
    std::optional<plan::SlateCard> card;  ///< absent: different cards at once, so none counts
    bool operator==(const SlateStretch&) const = default;
};

/// Everything the search for cards needs, so that it can run away from the store's thread.
struct SlateSearch {
    project::ClipId clip;
    std::filesystem::path file;
    media::ClipIndex index;
    std::vector<timebase::FrameIndex> looks;  ///< frames to look at
};

/// Time between two looks, in capture time (by the file's own time while the clock is open).
inline constexpr double kSlateLookSeconds = 0.25;
/// Between key frames no further apart than this there is no look: a card is to be held for two
/// seconds, and a key frame is decoded alone, any other one with all frames since.
inline constexpr double kKeyFramesSuffice = 1.1;
/// A card that is missed in this many looks on end, and then seen again, was in view all the time.
inline constexpr std::size_t kMissedLooks = 3;
/// Pictures are scaled down to fit into this square before they are looked at.
inline constexpr int kSlatePicturePx = 1920;

/// Errors: NotFound when the clip is gone or its file is not found; Unsupported for a tally; those
/// of project::Store::clipFrames.
Result<SlateSearch> slateSearchOf(project::Store& store, project::ClipId clip);

/// Looks through the clip. A frame that cannot be decoded is passed over. `progress` is told the
/// share that is done. Errors: those of opening the file; Cancelled.
Result<std::vector<SlateStretch>> readSlateCards(const SlateSearch& search,
                                                 std::stop_token stop = {},
                                                 const std::function<void(double)>& progress = {});

/// The cards of one clip.
struct ClipSlates {
    project::ClipId clip;
    std::vector<SlateStretch> stretches;
};

/// What an assignment did, and what it left.
struct AssignmentReport {
    std::size_t assigned{};
    std::size_t alreadyRight{};        ///< in the cell that the card or the plan names
    std::size_t leftElsewhere{};       ///< assigned otherwise before: they stay so
    std::size_t leftOpen{};            ///< no card, or cards that contradict each other
    std::vector<std::string> remarks;  ///< in plain words
};

/// Assigns the shots of a session by its cards: a shot belongs to the last card that came into view
/// before its first frame, across clips in film order (film_order.h), until the next card. Shots
/// that have a cell stay in it, so that corrections by hand stay and doing it again changes
/// nothing. Implements and hitters of names the project does not know are added. One edit.
/// Errors: those of filmOrder(); InvalidInput when the cards of a clip of the session are not
/// given; those of the store.
Result<AssignmentReport> assignBySlateCards(project::Store& store, project::SessionId session,
                                            std::span<const ClipSlates> slates);

}  // namespace core::intake
