#include "core/intake/clip_clock_setting.h"

#include <algorithm>
#include <functional>

#include "core/base/kept_words.h"

namespace core::intake {
namespace {

bool stampsIncrease(const timebase::FrameStamps& stamps) {
    return std::adjacent_find(stamps.ticks.begin(), stamps.ticks.end(), std::greater_equal<>{}) ==
           stamps.ticks.end();
}

}  // namespace

SettledClock settleClock(std::optional<timebase::PlaybackRate> playback,
                         const timebase::FrameStamps& stamps,
                         std::span<const timebase::CaptureRateEvidence> evidence,
                         timebase::StampTrust trust) {
    const KeptSpeech kept;  // the remarks are
    if (!stampsIncrease(stamps)) {
        trust = timebase::StampTrust::NotTrusted;
    }
    SettledClock settled;
    const auto decision = timebase::settleCaptureRate(playback, evidence, trust);
    if (!decision) {
        settled.remarks.push_back({"clock_unsettled", std::nullopt, decision.error().message});
        return settled;
    }
    for (const auto& note : decision.value().notes) {
        settled.remarks.push_back(
            {std::string{timebase::clockNoteName(note.kind)}, std::nullopt, note.message});
    }
    project::ClockSetting setting;
    setting.kind = decision.value().kind;
    setting.stretch = decision.value().stretch;
    setting.relativeSigma = decision.value().relativeSigma;
    if (setting.kind == timebase::ClockKind::Counted) {
        setting.counted = decision.value().rate;
    }
    settled.setting = setting;
    return settled;
}

}  // namespace core::intake
