#include "ui/doubts/claimed_turn.h"

#include <algorithm>

#include "core/doubts/reading_facts.h"
#include "core/project/clip_clock.h"

namespace ui::doubts {
namespace {

using core::timebase::ClipClock;
using core::timebase::FrameIndex;

constexpr int kParts = 4;  // of a turn, between five pictures

FrameIndex frameNearestTo(const ClipClock& clock, double seconds) {
    const FrameIndex before = clock.frameAt({seconds});
    const FrameIndex after{before.value + 1};
    if (!clock.contains(after)) {
        return before;
    }
    return seconds - clock.captureSeconds(before).seconds <=
                   clock.captureSeconds(after).seconds - seconds
               ? before
               : after;
}

/// The frame that stands for the first turn: as marked where it was, else by the rate.
FrameIndex backOf(const core::project::Shot& shot, const core::project::Reading& reading,
                  const ClipClock& clock, FrameIndex start, double turnSeconds) {
    using Kind = core::spin::ReturnMark::Kind;
    if (reading.method == core::project::ReadingMethod::Marks && shot.marks.start &&
        shot.marks.start->frame == start) {
        for (const auto& mark : shot.marks.returns) {
            if (mark.turns == 1 && mark.kind == Kind::Nearest && mark.frame > start) {
                return mark.frame;
            }
        }
    }
    const double seconds = clock.captureSeconds(start).seconds + turnSeconds;
    return std::max(frameNearestTo(clock, seconds), FrameIndex{start.value + 1});
}

std::vector<FrameIndex> framesBetween(const ClipClock& clock, FrameIndex start, FrameIndex back) {
    const double from = clock.captureSeconds(start).seconds;
    const double to = clock.captureSeconds(back).seconds;
    std::vector<FrameIndex> frames{start};
    for (int part = 1; part < kParts; ++part) {
        const FrameIndex frame = frameNearestTo(clock, from + (to - from) * part / kParts);
        if (frame > frames.back() && frame < back) {
            frames.push_back(frame);
        }
    }
    frames.push_back(back);
    return frames;
}

}  // namespace

std::optional<ClaimedTurn> claimedTurn(const core::project::Store& store,
                                       core::project::ShotId id) {
    const auto snapshot = store.snapshot();
    const auto* shot = snapshot->shots.find(id);
    const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    const auto* reading =
        shot != nullptr && shot->counting ? snapshot->readings.find(*shot->counting) : nullptr;
    if (clip == nullptr || isTally(*clip) || reading == nullptr ||
        !(reading->rate.value.rpm > 0.0)) {
        return std::nullopt;
    }
    const auto frames = store.clipFrames(clip->id);
    if (!frames) {
        return std::nullopt;
    }
    const auto facts = core::doubts::factsOf(*reading, *frames.value(), 0);
    const auto setting = facts.clock ? facts.clock : clip->clock;
    const auto clock =
        core::project::clipClock(setting.value_or(core::project::ClockSetting{}), *frames.value());
    if (!clock) {
        return std::nullopt;
    }
    const bool isMarked = shot->marks.start && clock.value().contains(shot->marks.start->frame);
    const FrameIndex last{clock.value().frameCount() - 2};  // one must be left for the return
    ClaimedTurn turn;
    turn.rate = reading->rate.value;
    turn.start = isMarked ? shot->marks.start->frame : facts.first;
    if (turn.start > last || turn.start < FrameIndex{0}) {
        return std::nullopt;
    }
    const double seconds = 60.0 / turn.rate.rpm;
    turn.back = backOf(*shot, *reading, clock.value(), turn.start, seconds);
    if (!clock.value().contains(turn.back)) {
        return std::nullopt;
    }
    const auto rate = clock.value().captureRate();
    turn.frames = rate ? seconds * rate->fps.toDouble()
                       : static_cast<double>(turn.back.value - turn.start.value);
    turn.shown = framesBetween(clock.value(), turn.start, turn.back);
    return turn;
}

}  // namespace ui::doubts
