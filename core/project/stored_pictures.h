#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/project/ids.h"
#include "core/timebase/frame_time.h"

/// The small ball pictures that are kept in the project beside a reading (FORMAT.md R26).
namespace core::project {

/// One frame of a shot, cut out around the ball.
struct StoredPicture {
    timebase::FrameIndex frame;
    double captureSeconds{};  ///< on the clip's clock as it was when the picture was kept
    /// The top left corner of the cut-out in the picture as shown, px.
    double leftPx{};
    double topPx{};
    double sidePx{};     ///< of the square that was cut out, in the picture as shown
    int storedSidePx{};  ///< of the stored picture; smaller than sidePx when it was scaled down
    /// The ball in the picture as shown; absent when nobody had said where it is, and the cut-out
    /// is the whole frame in a square.
    struct Ball {
        double xPx{};
        double yPx{};
        double radiusPx{};
        bool operator==(const Ball&) const = default;
    };
    std::optional<Ball> ball;
    std::string bytes;    ///< compressed
    int turnedDegrees{};  ///< of the clip when it was cut out, see Clip
    bool operator==(const StoredPicture&) const = default;
};

/// The pictures of one shot, ascending by frame.
struct StoredPictures {
    std::string madeAt;  ///< ISO 8601, UTC, to the second; set by the store when it is empty
    std::string codec;   ///< media type of the pictures, "image/webp"
    std::vector<StoredPicture> pictures;
    bool operator==(const StoredPictures&) const = default;
};

/// What there is of a shot, without the pictures themselves.
struct StoredSize {
    ShotId shot;  ///< may be gone: undoing its removal finds its pictures again
    std::string madeAt;
    timebase::FrameIndex firstFrame;
    timebase::FrameIndex lastFrame;
    int turnedDegrees{};
    std::int64_t bytes{};
};

}  // namespace core::project
