#include "core/reading/inputs.h"

#include <algorithm>
#include <cmath>

#include "core/base/words.h"
#include "core/image/kink.h"
#include "core/project/clip_clock.h"
#include "core/reading/ball_places.h"
#include "core/reading/inputs_json.h"
#include "core/reading/session_readout.h"

namespace core::reading {
namespace {

using project::Clip;
using timebase::FrameIndex;

constexpr std::int64_t kFramesAbout = 20;  // of background before and after a shot

/// A shot's clip and session. Errors: NotFound.
struct Filmed {
    const Clip* clip{};
    const project::Session* session{};
};

Result<Filmed> filmedOf(const project::Snapshot& snapshot, project::ClipId id) {
    const Clip* clip = snapshot.clips.find(id);
    const auto* session = clip != nullptr ? snapshot.sessions.find(clip->session) : nullptr;
    if (session == nullptr) {
        return fail(ErrorCode::NotFound, said("The clip of the shot is no longer in the project."));
    }
    return Filmed{clip, session};
}

/// Errors: why the clock of the clip is not settled.
Result<project::ClockSetting> settledClock(const project::Snapshot& snapshot, const Clip& clip) {
    if (clip.clock) {
        return *clip.clock;
    }
    const std::string name = clipName(snapshot, clip.id);

    const auto decision = timebase::settleCaptureRate(clip.playbackRate, clip.evidence);
    if (!decision) {
        return fail(decision.error().code,
                    said("The clock of clip {} is not settled, so no rate can be read from it. {}",
                         name, decision.error().message));
    }
    return fail(ErrorCode::InvalidInput,
                said("The clock of clip {} is not settled, so no rate can be read from it. Say in "
                     "Footage at which rate it was captured.",
                     name));
}

/// Row on the sensor, 0 at the edge read first and 1 at the other, of a place in the picture as
/// shown.
double sensorRow(const FilmingFacts& facts, const Clip& clip, const BallPlace& place) {
    const image::SensorRows rows{clip.width, clip.height, facts.rowOrder};
    return std::clamp(rows.at({place.xPx, place.yPx}), 0.0, 1.0);
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

/// The ball in a marked frame.
struct MarkedBall {
    FrameIndex frame;
    BallPlace place;
};

/// In all marked frames of the clip; empty with fewer than two clicks.
std::vector<MarkedBall> markedBalls(const project::Shot& shot, const timebase::ClipClock& clock) {
    const BallPlaces clicked{placesOf(shot.clicks), clock};
    std::vector<MarkedBall> balls;
    if (clicked.count() < 2) {
        return balls;
    }
    for (const FrameIndex frame : markedFrames(shot.marks)) {
        if (clock.contains(frame)) {
            balls.push_back({frame, *clicked.at(frame)});
        }
    }
    return balls;
}

/// The first frame after the kink that ends the shot's flight, as far as the project tells it.
std::optional<FrameIndex> kinkOf(const project::Snapshot& snapshot, const project::Shot& shot,
                                 const timebase::ClipClock& clock) {
    std::optional<FrameIndex> kink;
    for (const auto* reading : project::readingsOfShot(snapshot, shot.id)) {
        if (reading->method == project::ReadingMethod::RotationFit) {
            const auto fit = keptFitFromJson(reading->inputsJson);
            kink = fit ? fit.value().kink : kink;
        }
    }
    std::vector<image::PathPoint> points;
    std::vector<FrameIndex> frames;
    for (const auto& click : shot.clicks) {
        if (clock.contains(click.frame)) {
            frames.push_back(click.frame);
            points.push_back({clock.captureSeconds(click.frame),
                              {click.xPx, click.yPx},
                              click.radiusPx,
                              image::kClickSigmaRadii * click.radiusPx});
        }
    }
    const auto kinks = image::findKinks(points);
    if (!kink && !kinks.empty()) {
        kink = frames[kinks.front().after];
    }
    return kink;
}

Result<void> checkKink(const project::Snapshot& snapshot, const project::Shot& shot,
                       const timebase::ClipClock& clock) {
    const auto frames = markedFrames(shot.marks);
    const auto kink = kinkOf(snapshot, shot, clock);
    if (kink && !frames.empty() && frames.front() < *kink && *kink <= frames.back()) {
        return fail(
            ErrorCode::InvalidInput,
            said("The marks in frames {} and {} lie on both sides of frame {}, in which the "
                 "ball's path turns abruptly (it bounces, or meets a net, a racket or a "
                 "hand), which changes its spin. Keep those before it.",
                 frames.front().value, frames.back().value, kink->value));
    }
    return ok();
}

/// outlines: what kept readings from the pictures say of a readout that nobody stated.
spin::RollingShutter rollingShutter(const FilmingFacts& facts, const Clip& clip,
                                    const std::vector<MarkedBall>& balls, Seconds longest,
                                    const std::optional<image::ReadoutEstimate>& outlines) {
    using Kind = spin::RollingShutter::Kind;
    if (facts.readout == Seconds{0.0}) {
        return {.kind = Kind::Absent, .readout = {}, .rows = {}};
    }
    spin::RollingShutter shutter;
    if (balls.empty()) {
        return shutter;
    }
    if (facts.readout) {
        shutter.kind = Kind::Known;
        shutter.readout = facts.readout;
    } else if (outlines) {
        const image::ReadoutKnowledge known = image::readoutKnowledge(outlines, longest);
        shutter.kind = Kind::Estimated;
        shutter.readout = known.mean;
        shutter.readoutSigma = known.sigma;
    } else {
        shutter.kind = Kind::Unknown;
        shutter.readout = longest;
    }
    for (const MarkedBall& ball : balls) {
        shutter.rows.push_back({ball.frame, sensorRow(facts, clip, ball.place)});
    }
    return shutter;
}

Seconds longestReadout(const timebase::ClipClock& clock) {
    const auto rate = clock.captureRate();
    return rate ? image::longestReadout({1.0 / rate->fps.toDouble()}) : image::kLongestReadout;
}

spin::LineOfSight lineOfSight(const FilmingFacts& facts, const Clip& clip,
                              const std::vector<MarkedBall>& balls) {
    const auto focal = focalLengthPx(facts, clip.width, clip.height);
    if (!focal || balls.size() < 2) {
        return {};
    }
    const double ax = balls.front().place.xPx - 0.5 * clip.width;
    const double ay = balls.front().place.yPx - 0.5 * clip.height;
    const double bx = balls.back().place.xPx - 0.5 * clip.width;
    const double by = balls.back().place.yPx - 0.5 * clip.height;
    // Angle between (ax, ay, f) and (bx, by, f) from cross and dot product, good for small angles.
    const double cross = std::hypot(*focal * (ay - by), *focal * (bx - ax), ax * by - ay * bx);
    const double dot = ax * bx + ay * by + *focal * *focal;
    return {.kind = spin::LineOfSight::Kind::Contribution,
            .angle = {std::atan2(cross, dot)},
            .sigma = {}};
}

image::FrameRange rangeAbout(const project::Snapshot& snapshot, const project::Shot& shot,
                             std::int64_t frameCount) {
    std::int64_t first = std::max<std::int64_t>(shot.firstFrame.value - kFramesAbout, 0);
    std::int64_t last = std::min(shot.lastFrame.value + kFramesAbout, frameCount - 1);
    for (const auto& other : snapshot.shots) {
        if (other.clip != shot.clip) {
            continue;
        }
        if (other.lastFrame < shot.firstFrame) {
            first = std::max(first, other.lastFrame.value + 1);
        } else if (other.firstFrame > shot.lastFrame) {
            last = std::min(last, other.firstFrame.value - 1);
        }
    }
    return {{first}, {last}};
}

}  // namespace

Result<MarksInputs> marksInputsOf(const project::Snapshot& snapshot, const project::Shot& shot,
                                  const project::ClipFrames& frames) {
    BOOST_OUTCOME_TRY(filmed, filmedOf(snapshot, shot.clip));
    BOOST_OUTCOME_TRY(setting, settledClock(snapshot, *filmed.clip));
    BOOST_OUTCOME_TRY(clock, project::clipClock(setting, frames));
    BOOST_OUTCOME_TRY(checkKink(snapshot, shot, clock));
    const FilmingFacts facts = factsOf(*filmed.session, *filmed.clip);
    const auto balls = markedBalls(shot, clock);
    MarksInputs inputs{filmed.clip->fingerprint, shot.marks, setting, {}};
    inputs.context.symmetryOrder = facts.markingSymmetry;
    inputs.context.exposure = facts.exposure;
    const auto outlines = facts.readout ? std::nullopt : sessionReadout(snapshot, *filmed.clip);
    inputs.context.rollingShutter =
        rollingShutter(facts, *filmed.clip, balls, longestReadout(clock), outlines);
    inputs.context.lineOfSight = lineOfSight(facts, *filmed.clip, balls);
    return inputs;
}

Result<ShotRequest> requestOf(const project::Snapshot& snapshot, project::ShotId id) {
    const auto* shot = snapshot.shots.find(id);
    if (shot == nullptr) {
        return fail(ErrorCode::NotFound, said("The shot is no longer in the project."));
    }
    BOOST_OUTCOME_TRY(filmed, filmedOf(snapshot, shot->clip));
    ShotRequest request;
    BOOST_OUTCOME_TRY(setting, settledClock(snapshot, *filmed.clip));
    request.clock = setting;
    request.range = rangeAbout(snapshot, *shot, filmed.clip->frameCount);
    request.shot = image::FrameRange{shot->firstFrame, shot->lastFrame};
    for (const auto& click : shot->clicks) {
        request.clicks.push_back({click.frame, {click.xPx, click.yPx}, click.radiusPx});
    }
    request.facts = factsOf(*filmed.session, *filmed.clip);
    request.facts.stroke = project::strokeOf(*filmed.session, *shot);
    return request;
}

}  // namespace core::reading
