#include "core/project/clip_clock.h"

#include "core/base/words.h"

namespace core::project {

Result<timebase::ClipClock> clipClock(const ClockSetting& setting, const ClipFrames& frames) {
    switch (setting.kind) {
        case timebase::ClockKind::Stamped:
            return timebase::ClipClock::stamped(frames.stamps, setting.relativeSigma);
        case timebase::ClockKind::Stretched:
            return timebase::ClipClock::stretched(frames.stamps, setting.stretch,
                                                  setting.relativeSigma);
        case timebase::ClockKind::Counted:
            break;
    }
    if (!setting.counted) {
        return fail(ErrorCode::InvalidInput,
                    said("A counted clock needs the capture rate. Say at which rate the clip was "
                         "captured."));
    }
    return timebase::ClipClock::counted(static_cast<std::int64_t>(frames.stamps.ticks.size()),
                                        *setting.counted, setting.relativeSigma);
}

}  // namespace core::project
