#pragma once

#include <QPointF>
#include <QString>
#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include "core/project/store.h"
#include "core/reading/ball_places.h"
#include "core/spin/reading_by_marks.h"
#include "core/timebase/clip_clock.h"
#include "ui/reading/pictures/kept_pictures.h"
#include "ui/reading/pictures/picture_reader.h"

namespace ui::reading {

/// Where the ball is in a frame, in picture coordinates.
struct BallRing {
    QPointF centrePx;
    double radiusPx{};
};

/// All that the screen shows of one shot, computed from the store after every change. Plain value.
struct ShotView {
    core::project::Shot shot;
    core::project::Clip clip;
    QString name;      ///< "Shot 3": its place within the clip
    QString clipName;  ///< file name without folders
    QString cellName;  ///< empty when the shot has no cell
    /// Names of shot, clip and cell are left out, so that the reader does not know whose it is.
    bool areNamesHidden{};
    QString clockText;  ///< "clock 240/1 stretched ×8, tag"
    std::filesystem::path file;
    std::shared_ptr<const core::project::ClipFrames> frames;

    /// Capture time of firstFrame … lastFrame, seconds since the clip's first frame. With an
    /// unsettled clock these are playback times, good for drawing only.
    std::vector<double> seconds;
    double frameSeconds{};  ///< usual frame interval
    double zeroSeconds{};   ///< the strike, or the first frame when it is not known

    /// The pictures kept in the project, while the film is not there; else null.
    std::shared_ptr<const KeptPictures> kept;
    /// The ball as it was tracked in the pictures, else as it is kept; in clicked frames as
    /// clicked.
    core::reading::BallPlaces path;
    std::optional<core::spin::MarksReading> reading;
    /// What the pictures say, maybe of an earlier state of the shot; null when nothing is known.
    std::shared_ptr<const PictureProposal> proposal;
    bool isReadingPictures{};  ///< a newer one is under way
    /// Rates to lay over the grid beside the marks: of readings that were kept, and of the
    /// pictures.
    struct OtherRate {
        QString letter;  ///< as the legend names it
        double rpm{};
    };
    std::vector<OtherRate> otherRates;
    /// The shot is read a second time blind: marks are those of this reading, and names, earlier
    /// readings and what the pictures say are left out.
    std::optional<core::project::SecondReading> second;
    QString trouble;  ///< why there is no reading, in words; empty when nothing is marked yet

    /// The reading from the pictures of this very state of the shot; null when there is none.
    [[nodiscard]] const core::reading::PictureReading* pictureReading() const;

    [[nodiscard]] core::timebase::FrameIndex firstFrame() const { return shot.firstFrame; }
    [[nodiscard]] core::timebase::FrameIndex lastFrame() const { return shot.lastFrame; }
    [[nodiscard]] bool contains(core::timebase::FrameIndex frame) const;
    /// Absent when nobody has said where the ball is.
    [[nodiscard]] std::optional<BallRing> ballIn(core::timebase::FrameIndex frame) const;
    /// Clamped to the shot.
    [[nodiscard]] double secondsOf(core::timebase::FrameIndex frame) const;
    [[nodiscard]] double millisecondsAfterStrike(core::timebase::FrameIndex frame) const;
    /// The frame of the shot that was captured nearest to this time.
    [[nodiscard]] core::timebase::FrameIndex frameNearest(double secondsOfClip) const;
    /// The start if it is marked, else the first frame.
    [[nodiscard]] core::timebase::FrameIndex referenceFrame() const;
    /// Where the shot is first looked at: the start if it is marked; else, from the strike on, the
    /// first frame in which the whole ball is known to be in the picture; else the strike.
    [[nodiscard]] core::timebase::FrameIndex tellingFrame() const;
};

/// A shot that is read a second time blind. Errors: as makeShotView().
core::Result<ShotView> makeBlindView(const core::project::Store& store,
                                     const core::project::SecondReading& second,
                                     const PictureReader* reader = nullptr);

/// Leaves out whose shot it is.
void hideNames(ShotView& view);

/// reader: null where pictures are not read. Errors: NotFound when the shot is gone; those of
/// Store::clipFrames.
core::Result<ShotView> makeShotView(const core::project::Store& store, core::project::ShotId shot,
                                    const PictureReader* reader = nullptr);

}  // namespace ui::reading
