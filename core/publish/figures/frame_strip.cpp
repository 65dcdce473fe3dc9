#include "core/publish/figures/frame_strip.h"

#include <algorithm>
#include <cmath>
#include <vector>

#include "core/base/words.h"
#include "core/project/clip_clock.h"
#include "core/publish/drawing/painter.h"
#include "core/publish/film/shot_turns.h"
#include "core/report/number_format.h"

namespace core::publish {
namespace {

constexpr int kStripTilePx = 112;
constexpr int kStripTextPx = 38;
/// 448 pixels, shown 358 wide on a phone: words of 14 have 11 there.
constexpr int kTilesInRow = 4;
constexpr double kStripWordsPx = 14.0;
constexpr double kTurnsShown = 1.15;
/// The cut is this much wider than the largest ball in it.
constexpr double kRoomAboutBall = 1.6;

/// The frames to show: from the frame of reference on while the ball's place is known, until the
/// turns are shown and the row of pictures is full.
std::vector<std::int64_t> stripFrames(const reading::BallPlaces& places, const ShotTurns& turns) {
    std::vector<std::int64_t> all;
    for (auto frame = std::max(places.first().value, turns.zeroFrame());
         frame <= places.last().value; ++frame) {
        all.push_back(frame);
        if (turns.turnsAt(frame) >= kTurnsShown && all.size() % kTilesInRow == 0) {
            break;
        }
    }
    if (all.size() <= static_cast<std::size_t>(kMaxStripFrames)) {
        return all;
    }
    std::vector<std::int64_t> spaced;
    for (int i = 0; i < kMaxStripFrames; ++i) {
        const double share = static_cast<double>(i) / (kMaxStripFrames - 1);
        spaced.push_back(all[static_cast<std::size_t>(
            std::lround(share * static_cast<double>(all.size() - 1)))]);
    }
    return spaced;
}

Result<PixelBuffer> drawStrip(media::FrameDecoder& decoder, const reading::BallPlaces& places,
                              const ShotTurns& turns, const std::vector<std::int64_t>& frames,
                              const std::stop_token& stop) {
    double radius = 1.0;
    for (const auto frame : frames) {
        radius = std::max(radius, places.at({frame})->radiusPx);
    }
    const int count = static_cast<int>(frames.size());
    const int rows = (count + kTilesInRow - 1) / kTilesInRow;
    const int columns = (count + rows - 1) / rows;  // as few places without a picture as may be
    PicturePainter painter{columns * kStripTilePx, rows * (kStripTilePx + kStripTextPx)};
    for (int i = 0; i < count; ++i) {
        const auto frame = frames[static_cast<std::size_t>(i)];
        BOOST_OUTCOME_TRY(picture, decoder.decode(timebase::FrameIndex{frame}, stop));
        const PixelBuffer tile =
            cutAround(*picture, *places.at({frame}), kRoomAboutBall * radius, kStripTilePx);
        const double x = (i % columns) * kStripTilePx;
        const double y = (i / columns) * (kStripTilePx + kStripTextPx);
        painter.picture(tile.view(), {x + 1.0, y}, kStripTilePx - 2.0, kStripTilePx);
        const double middle = x + kStripTilePx / 2.0;
        painter.draw({Text{{middle, y + kStripTilePx + 15.0},
                           report::fixed(turns.millisecondsAt(frame), 1) + " ms",
                           Anchor::Middle,
                           kStripWordsPx},
                      Text{{middle, y + kStripTilePx + 31.0},
                           said("{} turn", report::fixed(turns.turnsAt(frame), 2)),
                           Anchor::Middle,
                           kStripWordsPx,
                           Ink::Soft}});
    }
    return painter.rgb();
}

}  // namespace

Result<FrameStrip> frameStrip(const Material& material, const project::Shot& shot,
                              ClipFootage& footage, const std::stop_token& stop) {
    const auto& snapshot = *material.snapshot;
    const auto* clip = snapshot.clips.find(shot.clip);
    const auto* reading = shot.counting ? snapshot.readings.find(*shot.counting) : nullptr;
    const auto stamps = material.frames.find(shot.clip);
    if (clip == nullptr || reading == nullptr || stamps == material.frames.end() || !clip->clock) {
        return fail(ErrorCode::NotFound, said("There is no reading on a settled clock to show."));
    }
    BOOST_OUTCOME_TRY(clock, project::clipClock(*clip->clock, *stamps->second));
    const auto places = reading::ballPlacesOf(*clip, shot, reading, clock);
    if (places.isEmpty()) {
        return fail(ErrorCode::NotFound, said("Nobody has pointed at the ball in this shot."));
    }
    const ShotTurns turns{clock, shot, *reading};
    const auto frames = stripFrames(places, turns);
    if (frames.empty()) {
        return fail(ErrorCode::NotFound, said("The ball was not pointed at from the start on."));
    }
    BOOST_OUTCOME_TRY(decoder, footage.open(*clip));
    BOOST_OUTCOME_TRY(picture, drawStrip(*decoder, places, turns, frames, stop));
    return FrameStrip{
        std::move(picture),
        said("Frames {} to {}; {} of the ball, {} to {} turns at {} rpm.", frames.front(),
             frames.back(), counted(frames.size(), "picture", "pictures"),
             report::fixed(turns.turnsAt(frames.front()), 2),
             report::fixed(turns.turnsAt(frames.back()), 2),
             report::withDigitsOf(reading->rate.value.rpm, reading->rate.sigma.rpm))};
}

}  // namespace core::publish
