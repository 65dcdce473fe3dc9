#include "core/doubts/claimed_turn.h"

#include <algorithm>

#include "core/doubts/reading_facts.h"
#include "core/project/clip_clock.h"
#include "core/reading/inputs_json.h"

namespace core::doubts {
namespace {

using timebase::ClipClock;
using timebase::FrameIndex;

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
FrameIndex backOf(const spin::MarkSet& marks, const ClipClock& clock, FrameIndex start,
                  double turnSeconds) {
    for (const auto& mark : marks.returns) {
        if (mark.turns == 1 && mark.kind == spin::ReturnMark::Kind::Nearest && mark.frame > start) {
            return mark.frame;
        }
    }
    const double seconds = clock.captureSeconds(start).seconds + turnSeconds;
    return std::max(frameNearestTo(clock, seconds), FrameIndex{start.value + 1});
}

/// The marks that the reading rests on. One from the pictures has none and begins where the shot's
/// start is marked, if it is.
spin::MarkSet marksBehind(const project::Reading& reading, const project::Shot& shot) {
    if (reading.method == project::ReadingMethod::Marks) {
        const auto inputs = reading::marksInputsFromJson(reading.inputsJson);
        return inputs ? inputs.value().marks : spin::MarkSet{};
    }
    spin::MarkSet marks;
    marks.start = shot.marks.start;
    return marks;
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

std::optional<ClaimedTurn> claimedTurn(const project::Store& store, project::ReadingId id) {
    const auto snapshot = store.snapshot();
    const auto* reading = snapshot->readings.find(id);
    const auto* shot = reading != nullptr ? snapshot->shots.find(reading->shot) : nullptr;
    const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    if (clip == nullptr || isTally(*clip) || !(reading->rate.value.rpm > 0.0)) {
        return std::nullopt;
    }
    const auto frames = store.clipFrames(clip->id);
    if (!frames) {
        return std::nullopt;
    }
    const auto facts = factsOf(*reading, *frames.value(), 0);
    const auto setting = facts.clock ? facts.clock : clip->clock;
    const auto clock =
        project::clipClock(setting.value_or(project::ClockSetting{}), *frames.value());
    if (!clock) {
        return std::nullopt;
    }
    const auto marks = marksBehind(*reading, *shot);
    const FrameIndex last{clock.value().frameCount() - 2};  // one must be left for the return
    ClaimedTurn turn;
    turn.shot = shot->id;
    turn.rate = reading->rate.value;
    turn.start = marks.start ? marks.start->frame : facts.first;
    if (turn.start > last || turn.start < FrameIndex{0}) {
        return std::nullopt;
    }
    const double seconds = 60.0 / turn.rate.rpm;
    turn.back = backOf(marks, clock.value(), turn.start, seconds);
    if (!clock.value().contains(turn.back)) {
        return std::nullopt;
    }
    const auto rate = clock.value().captureRate();
    turn.frames = rate ? seconds * rate->fps.toDouble()
                       : static_cast<double>(turn.back.value - turn.start.value);
    turn.shown = framesBetween(clock.value(), turn.start, turn.back);
    return turn;
}

RivalReadings rivalReadings(const project::Snapshot& snapshot, project::ShotId id) {
    RivalReadings found;
    const auto* shot = snapshot.shots.find(id);
    const auto* inUse =
        shot != nullptr && shot->counting ? snapshot.readings.find(*shot->counting) : nullptr;
    if (inUse == nullptr) {
        return found;
    }
    found.inUse = inUse->id;
    for (const auto* reading : readingsOfShot(snapshot, id)) {
        const auto& one = reading->interval95;
        const auto& other = inUse->interval95;
        if (one.high.rpm < other.low.rpm || one.low.rpm > other.high.rpm) {
            found.rival = reading->id;
        }
    }
    return found;
}

}  // namespace core::doubts
