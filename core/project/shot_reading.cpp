#include "core/project/shot_reading.h"

#include <fmt/format.h>

#include <cmath>

#include "core/base/expects.h"
#include "core/project/text.h"

namespace core::project {
namespace {

using timebase::FrameIndex;

struct Place {
    double xPx{};
    double yPx{};
};

/// Where the ball is in a frame, on the straight line through the two clicks around it, or the two
/// nearest ones. At least two clicks, sorted by frame.
Place ballPlace(const std::vector<BallClick>& clicks, FrameIndex frame) {
    std::size_t after = 1;
    while (after + 1 < clicks.size() && clicks[after].frame < frame) {
        ++after;
    }
    const BallClick& a = clicks[after - 1];
    const BallClick& b = clicks[after];
    const double part = static_cast<double>(frame.value - a.frame.value) /
                        static_cast<double>(b.frame.value - a.frame.value);
    return {a.xPx + part * (b.xPx - a.xPx), a.yPx + part * (b.yPx - a.yPx)};
}

/// Row on the sensor, 0 at its top edge and 1 at its bottom, of a place in the picture as shown.
double sensorRow(const Clip& clip, const Place& place) {
    const double right = place.xPx / clip.width;
    const double down = place.yPx / clip.height;
    double row = down;
    switch (clip.rotationDegrees) {  // clockwise turn from the sensor to the picture as shown
        case 90:
            row = 1.0 - right;
            break;
        case 180:
            row = 1.0 - down;
            break;
        case 270:
            row = right;
            break;
        default:
            break;
    }
    return std::clamp(row, 0.0, 1.0);
}

/// All marked frames, ascending, each once.
std::vector<FrameIndex> markedFrames(const spin::MarkSet& marks) {
    std::vector<FrameIndex> frames;
    if (marks.start) {
        frames.push_back(marks.start->frame);
    }
    for (const spin::ReturnMark& mark : marks.returns) {
        frames.push_back(mark.frame);
        if (mark.kind == spin::ReturnMark::Kind::Bracket) {
            frames.push_back(mark.frameAfter);
        }
    }
    for (const spin::AngleMark& mark : marks.angles) {
        frames.push_back(mark.frame);
    }
    std::sort(frames.begin(), frames.end());
    frames.erase(std::unique(frames.begin(), frames.end()), frames.end());
    return frames;
}

spin::RollingShutter rollingShutter(const Session& session, const Clip& clip, const Shot& shot,
                                    const std::vector<FrameIndex>& frames) {
    using Kind = spin::RollingShutter::Kind;
    if (session.readoutSeconds == 0.0) {
        return {.kind = Kind::Absent, .readout = {}, .rows = {}};
    }
    spin::RollingShutter shutter;
    if (shot.clicks.size() < 2) {
        return shutter;
    }
    shutter.kind = session.readoutSeconds ? Kind::Known : Kind::Unknown;
    if (session.readoutSeconds) {
        shutter.readout = Seconds{*session.readoutSeconds};
    }
    for (const FrameIndex frame : frames) {
        shutter.rows.push_back({frame, sensorRow(clip, ballPlace(shot.clicks, frame))});
    }
    return shutter;
}

spin::LineOfSight lineOfSight(const Session& session, const Clip& clip, const Shot& shot,
                              const std::vector<FrameIndex>& frames) {
    if (!session.fieldOfViewDeg || shot.clicks.size() < 2 || frames.size() < 2) {
        return {};
    }
    const double halfWidthPx = 0.5 * clip.width;
    const double focalPx =
        halfWidthPx / std::tan(0.5 * fromDegrees(*session.fieldOfViewDeg).radians);
    const Place first = ballPlace(shot.clicks, frames.front());
    const Place last = ballPlace(shot.clicks, frames.back());
    const double ax = first.xPx - halfWidthPx;
    const double ay = first.yPx - 0.5 * clip.height;
    const double bx = last.xPx - halfWidthPx;
    const double by = last.yPx - 0.5 * clip.height;
    // Angle between (ax, ay, f) and (bx, by, f) from cross and dot product, good for small angles.
    const double cross = std::hypot(focalPx * (ay - by), focalPx * (bx - ax), ax * by - ay * bx);
    const double dot = ax * bx + ay * by + focalPx * focalPx;
    return {.kind = spin::LineOfSight::Kind::Contribution,
            .angle = {std::atan2(cross, dot)},
            .sigma = {}};
}

/// Why the clock of a clip is not settled.
Error unsettled(const Snapshot& snapshot, const Clip& clip) {
    const std::string start =
        fmt::format("The clock of clip {} is not settled, so no rate can be read from it. ",
                    clipName(snapshot, clip.id));
    const auto decision = timebase::settleCaptureRate(clip.playbackRate, clip.evidence);
    if (!decision) {
        return {decision.error().code, start + decision.error().message};
    }
    return {ErrorCode::InvalidInput, start + "Say in Footage at which rate it was captured."};
}

}  // namespace

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
                    "A counted clock needs the capture rate. Say at which rate the clip was "
                    "captured.");
    }
    return timebase::ClipClock::counted(static_cast<std::int64_t>(frames.stamps.ticks.size()),
                                        *setting.counted, setting.relativeSigma);
}

Result<spin::ReadingContext> readingContext(const Snapshot& snapshot, const Shot& shot) {
    const Clip* clip = snapshot.clips.find(shot.clip);
    const Session* session = clip != nullptr ? snapshot.sessions.find(clip->session) : nullptr;
    if (session == nullptr) {
        return fail(ErrorCode::NotFound,
                    fmt::format("The clip of shot {} is not in the project.", shot.id.value));
    }
    const std::vector<FrameIndex> frames = markedFrames(shot.marks);
    spin::ReadingContext context;
    context.symmetryOrder = symmetryOrder(session->marking);
    if (session->exposureSeconds) {
        context.exposure = Seconds{*session->exposureSeconds};
    }
    context.rollingShutter = rollingShutter(*session, *clip, shot, frames);
    context.lineOfSight = lineOfSight(*session, *clip, shot, frames);
    return context;
}

Result<spin::MarksReading> readShot(const Snapshot& snapshot, const Shot& shot,
                                    const ClipFrames& frames) {
    BOOST_OUTCOME_TRY(context, readingContext(snapshot, shot));
    const Clip* clip = snapshot.clips.find(shot.clip);
    CORE_EXPECTS(clip != nullptr);  // readingContext() has found it
    if (!clip->clock) {
        return unsettled(snapshot, *clip);
    }
    BOOST_OUTCOME_TRY(clock, clipClock(*clip->clock, frames));
    return spin::readMarks(shot.marks, clock, context);
}

Reading makeReading(const Snapshot& snapshot, const Shot& shot, const spin::MarksReading& read) {
    const Clip* clip = snapshot.clips.find(shot.clip);
    const auto context = readingContext(snapshot, shot);
    CORE_EXPECTS(clip != nullptr && clip->clock && context);
    Reading reading;
    reading.shot = shot.id;
    reading.method = ReadingMethod::Marks;
    reading.methodVersion = kMarksMethodVersion;
    reading.reader = snapshot.reader;
    reading.madeAt = presentTime();
    reading.rate = {read.estimate, read.standardUncertainty};
    reading.interval95 = read.interval95;
    reading.bounds = read.bounds;
    reading.clockRelativeSigma = clip->clock->relativeSigma;
    reading.inputsJson =
        inputsToJson({clip->fingerprint, shot.marks, *clip->clock, context.value()});
    return reading;
}

Result<spin::MarksReading> readAgain(const Reading& reading, const ClipFrames& frames) {
    if (reading.method != ReadingMethod::Marks) {
        return fail(ErrorCode::Unsupported, "Only readings by marks can be computed from marks.");
    }
    BOOST_OUTCOME_TRY(inputs, inputsFromJson(reading.inputsJson));
    BOOST_OUTCOME_TRY(clock, clipClock(inputs.clock, frames));
    return spin::readMarks(inputs.marks, clock, inputs.context);
}

}  // namespace core::project
