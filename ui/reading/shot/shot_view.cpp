#include "ui/reading/shot/shot_view.h"

#include <algorithm>
#include <cmath>

#include "ui/reading/card/clip_clock_text.h"
#include "ui/reading/shot/shot_reading.h"
#include "ui/reading/tr.h"

namespace ui::reading {

using core::project::Store;
using core::timebase::ClipClock;
using core::timebase::FrameIndex;

namespace {

void fillTimes(ShotView& view, const ClipClock& clock) {
    const FrameIndex last{clock.frameCount() - 1};
    view.shot.firstFrame = std::clamp(view.shot.firstFrame, FrameIndex{0}, last);
    view.shot.lastFrame = std::clamp(view.shot.lastFrame, view.shot.firstFrame, last);
    for (FrameIndex at = view.firstFrame(); at <= view.lastFrame(); ++at.value) {
        view.seconds.push_back(clock.captureSeconds(at).seconds);
    }
    const auto rate = clock.captureRate();
    view.frameSeconds = rate ? 1.0 / rate->fps.toDouble() : 1.0;
    const FrameIndex zero = view.shot.strikeFrame.value_or(view.firstFrame());
    view.zeroSeconds = clock.captureSeconds(std::clamp(zero, FrameIndex{0}, last)).seconds;
}

}  // namespace

bool ShotView::contains(FrameIndex frame) const {
    return frame >= firstFrame() && frame <= lastFrame();
}

double ShotView::secondsOf(FrameIndex frame) const {
    const FrameIndex inside = std::clamp(frame, firstFrame(), lastFrame());
    return seconds[static_cast<std::size_t>(inside.value - firstFrame().value)];
}

double ShotView::millisecondsAfterStrike(FrameIndex frame) const {
    return 1000.0 * (secondsOf(frame) - zeroSeconds);
}

std::optional<BallRing> ShotView::ballIn(FrameIndex frame) const {
    const auto ball = path.at(std::clamp(frame, firstFrame(), lastFrame()));
    return ball ? std::optional{BallRing{{ball->xPx, ball->yPx}, ball->radiusPx}} : std::nullopt;
}

FrameIndex ShotView::frameNearest(double secondsOfClip) const {
    const auto after = std::lower_bound(seconds.begin(), seconds.end(), secondsOfClip);
    auto nearest = after == seconds.end() ? after - 1 : after;
    if (nearest != seconds.begin() && secondsOfClip - *(nearest - 1) < *nearest - secondsOfClip) {
        --nearest;
    }
    return {firstFrame().value + (nearest - seconds.begin())};
}

FrameIndex ShotView::referenceFrame() const {
    const auto& start = shot.marks.start;
    return start && contains(start->frame) ? start->frame : firstFrame();
}

FrameIndex ShotView::tellingFrame() const {
    if (shot.marks.start) {
        return std::clamp(shot.marks.start->frame, firstFrame(), lastFrame());
    }
    const FrameIndex strike =
        std::clamp(shot.strikeFrame.value_or(firstFrame()), firstFrame(), lastFrame());
    const QRectF picture{0.0, 0.0, static_cast<double>(clip.width),
                         static_cast<double>(clip.height)};
    for (FrameIndex frame = strike; frame <= lastFrame(); ++frame.value) {
        const auto ball = ballIn(frame);
        const double radius = ball ? ball->radiusPx : 0.0;
        if (ball && picture.contains(QRectF{ball->centrePx - QPointF{radius, radius},
                                            2.0 * QSizeF{radius, radius}})) {
            return frame;
        }
    }
    return strike;
}

const core::reading::PictureReading* ShotView::pictureReading() const {
    const bool isSaid = proposal && !isReadingPictures && proposal->outcome;
    return isSaid && proposal->outcome.value().rate ? &proposal->outcome.value() : nullptr;
}

namespace {

/// The view without what is read from marks.
core::Result<ShotView> unreadView(const Store& store, core::project::ShotId id,
                                  const PictureReader* reader) {
    const auto snapshot = store.snapshot();
    const core::project::Shot* shot = snapshot->shots.find(id);
    const core::project::Clip* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    if (clip == nullptr) {
        return core::fail(
            core::ErrorCode::NotFound,
            tr("This shot is no longer in the project. Choose another one.").toStdString());
    }
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clip->id));
    ShotView view;
    view.shot = *shot;
    view.clip = *clip;
    view.name = tr("Shot %1").arg(shot->ordinal);
    view.file = store.file().parent_path() / clip->path;
    view.clipName = QString::fromStdString(view.file.filename().string());
    if (shot->cell) {
        view.cellName = QString::fromStdString(cellName(*snapshot, *shot->cell));
    }
    view.frames = frames;
    view.clockText = clockTextOf(*clip);
    BOOST_OUTCOME_TRY(clock, clockForDrawing(*clip, *frames));
    fillTimes(view, clock);
    if (reader != nullptr) {
        view.proposal = reader->proposalOf(id);
        view.isReadingPictures = reader->isReading(id);
    }
    const bool isTracked = view.proposal && view.proposal->outcome;
    view.path =
        core::reading::BallPlaces{
            isTracked ? core::reading::placesOf(view.proposal->outcome.value().track.frames)
                      : std::vector<core::reading::KnownPlace>{},
            clock}
            .with(core::reading::placesOf(view.shot.clicks));
    return view;
}

/// Readings that were kept by letters, oldest first, then the pictures' own as P.
void addOtherRates(ShotView& view, const core::project::Snapshot& snapshot) {
    constexpr std::size_t kMostLetters = 8;  // more ticks than that say nothing
    const auto readings = readingsOfShot(snapshot, view.shot.id);
    const std::size_t first = readings.size() > kMostLetters ? readings.size() - kMostLetters : 0;
    for (std::size_t i = first; i < readings.size(); ++i) {
        const auto letter = static_cast<char16_t>(u'a' + (i - first));
        view.otherRates.push_back({QString{QChar{letter}}, readings[i]->rate.value.rpm});
    }
    if (const auto* pictures = view.pictureReading()) {
        view.otherRates.push_back({QStringLiteral("p"), pictures->rate->value.rpm});
    }
}

}  // namespace

core::Result<ShotView> makeShotView(const Store& store, core::project::ShotId id,
                                    const PictureReader* reader) {
    BOOST_OUTCOME_TRY(view, unreadView(store, id, reader));
    readMarksOf(view, *store.snapshot(), *view.frames);
    addOtherRates(view, *store.snapshot());
    return view;
}

void hideNames(ShotView& view) {
    view.areNamesHidden = true;
    view.name = tr("Names hidden");
    view.clipName.clear();
    view.cellName.clear();
}

core::Result<ShotView> makeBlindView(const Store& store, const core::project::SecondReading& second,
                                     const PictureReader* reader) {
    BOOST_OUTCOME_TRY(view, unreadView(store, second.shot, reader));
    const auto& all = store.snapshot()->secondReadings;
    view.second = second;
    hideNames(view);
    view.name = tr("Blind %1 of %2")
                    .arg(std::count_if(all.begin(), all.end(),
                                       [&second](const auto& each) {
                                           return each.reading || each.position <= second.position;
                                       }))
                    .arg(all.size());
    view.shot.marks = second.marks;
    view.shot.standing = core::project::ShotStanding::Open;
    view.shot.reason.clear();
    view.shot.doubtful = false;
    view.shot.counting.reset();
    view.proposal.reset();
    view.isReadingPictures = false;
    readMarksOf(view, *store.snapshot(), *view.frames);
    return view;
}

}  // namespace ui::reading
