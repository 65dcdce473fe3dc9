#include "core/publish/film/shot_turns.h"

#include <algorithm>
#include <utility>

#include "core/reading/inputs_json.h"

namespace core::publish {
namespace {

std::int64_t zeroFrameOf(const project::Shot& shot, const project::Reading& reading) {
    if (reading.method == project::ReadingMethod::Marks) {
        const auto inputs = reading::marksInputsFromJson(reading.inputsJson);
        if (inputs && inputs.value().marks.start) {
            return inputs.value().marks.start->frame.value;
        }
    }
    return shot.strikeFrame ? shot.strikeFrame->value : shot.firstFrame.value;
}

}  // namespace

ShotTurns::ShotTurns(timebase::ClipClock clock, const project::Shot& shot,
                     const project::Reading& reading)
    : m_clock{std::move(clock)},
      m_zero{std::clamp<std::int64_t>(zeroFrameOf(shot, reading), 0, m_clock.frameCount() - 1)},
      m_rpm{reading.rate.value.rpm} {}

double ShotTurns::millisecondsAt(std::int64_t frame) const {
    const auto seconds = [this](std::int64_t at) {
        return m_clock.captureSeconds(timebase::FrameIndex{at}).seconds;
    };
    return 1000.0 * (seconds(frame) - seconds(m_zero));
}

double ShotTurns::turnsAt(std::int64_t frame) const {
    return millisecondsAt(frame) / 60'000.0 * m_rpm;
}

}  // namespace core::publish
