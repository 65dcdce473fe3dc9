#include "core/pictures/project_reading.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <nlohmann/json.hpp>
#include <numbers>

#include "core/base/expects.h"
#include "core/media/lens.h"
#include "core/project/reading_inputs.h"

namespace core::pictures {
namespace {

using Json = nlohmann::json;

constexpr double kRadiansPerDegree = std::numbers::pi / 180.0;
constexpr std::int64_t kFramesAbout = 20;  // of background before and after a shot
// Balls of one make differ by about this share in diameter (common practice, no source).
constexpr double kDiameterRelativeSigma = 0.01;
// A field of view from a data sheet; the crop of a video mode is seldom known better.
constexpr double kFieldOfViewRelativeSigma = 0.02;

image::FrameRange rangeAbout(const project::Snapshot& snapshot, const project::Shot& shot,
                             std::int64_t frameCount) {
    std::int64_t first = std::max<std::int64_t>(shot.firstFrame.value - kFramesAbout, 0);
    std::int64_t last = std::min(shot.lastFrame.value + kFramesAbout, frameCount - 1);
    for (const auto* other : project::shotsOfClip(snapshot, shot.clip)) {
        if (other->lastFrame < shot.firstFrame) {
            first = std::max(first, other->lastFrame.value + 1);
        } else if (other->firstFrame > shot.lastFrame) {
            last = std::min(last, other->firstFrame.value - 1);
        }
    }
    return {{first}, {last}};
}

/// The project keeps the angle across the width of the picture, the fit wants it across the longer
/// side.
Measured<Radians> acrossLongerSide(double horizontalDeg, int width, int height) {
    const double tangent = std::tan(0.5 * horizontalDeg * kRadiansPerDegree);
    const double longer = std::max(width, height);
    const double angle = 2.0 * std::atan(tangent * longer / width);
    return {{angle}, {kFieldOfViewRelativeSigma * angle}};
}

/// As the tester entered it, else from the lens data of the file, else absent.
std::optional<Measured<Radians>> fieldOfViewOf(const project::Session& session,
                                               const project::Clip& clip) {
    if (session.fieldOfViewDeg && clip.width > 0) {
        return acrossLongerSide(*session.fieldOfViewDeg, clip.width, clip.height);
    }
    if (clip.lensFocalLengthMm) {
        return media::fieldOfViewAcrossLongerSide(*clip.lensFocalLengthMm, clip.width, clip.height);
    }
    return std::nullopt;
}

FilmingFacts factsOf(const project::Session& session, const project::Clip& clip) {
    FilmingFacts facts;
    facts.fieldOfView = fieldOfViewOf(session, clip);
    facts.readout = Seconds{session.readoutSeconds.value_or(0.0)};
    if (session.exposureSeconds) {
        facts.exposure = Seconds{*session.exposureSeconds};
    }
    if (session.ballDiameterMm) {
        const double metres = *session.ballDiameterMm / 1000.0;
        facts.ballDiameter = Measured<image::Metres>{{metres}, {metres * kDiameterRelativeSigma}};
    }
    facts.markingSymmetry = session.marking == project::BallMarking::Band ? 2 : 1;
    return facts;
}

Json pointJson(image::PointPx point) {
    return Json::array({point.x, point.y});
}

std::string_view sourceName(image::BallSource source) {
    switch (source) {
        case image::BallSource::Measured:
            return "measured";
        case image::BallSource::Bridged:
            return "bridged";
        case image::BallSource::Clicked:
            return "clicked";
    }
    return "";
}

Json trackJson(const image::BallTrack& track) {
    Json frames = Json::array();
    for (const auto& ball : track.frames) {
        frames.push_back({{"frame", ball.frame.value},
                          {"time_s", ball.time.seconds},
                          {"centre_px", pointJson(ball.centre)},
                          {"centre_sigma_px", pointJson(ball.centreSigma)},
                          {"radius_px", ball.radiusPx},
                          {"radius_sigma_px", ball.radiusSigmaPx},
                          {"smear_px", pointJson(ball.smear)},
                          {"source", sourceName(ball.source)}});
    }
    return frames;
}

Json factsJson(const FilmingFacts& facts) {
    Json json{{"readout_s", facts.readout.seconds}, {"marking_symmetry", facts.markingSymmetry}};
    if (facts.fieldOfView) {
        json["field_of_view_rad"] = facts.fieldOfView->value.radians;
        json["field_of_view_sigma_rad"] = facts.fieldOfView->sigma.radians;
    }
    if (facts.exposure) {
        json["exposure_s"] = facts.exposure->seconds;
    }
    if (facts.ballDiameter) {
        json["ball_diameter_m"] = facts.ballDiameter->value.metres;
    }
    return json;
}

Json fitJson(const spin::fit::FitOutcome& fit) {
    const auto& omega = fit.angularVelocity;
    Json json{{"angular_velocity_rad_per_s", {omega.x, omega.y, omega.z}},
              {"covariance_rad2_per_s2", fit.covariance},
              {"explained_share", fit.explainedShare},
              {"field_of_view_rad", fit.fieldOfView.value.value.radians}};
    if (fit.uniqueness) {
        json["uniqueness_standard_errors"] = *fit.uniqueness;
    }
    return json;
}

Json requestJson(const ShotRequest& request) {
    Json json{{"clock", Json::parse(project::clockToJson(request.clock))},
              {"first_frame", request.range.first.value},
              {"last_frame", request.range.last.value},
              {"facts", factsJson(request.facts)}};
    for (const auto& click : request.clicks) {
        json["clicks"].push_back({{"frame", click.frame.value},
                                  {"centre_px", pointJson(click.centre)},
                                  {"radius_px", click.radiusPx.value_or(0.0)}});
    }
    return json;
}

}  // namespace

std::string keyOf(const ShotRequest& request) {
    return fmt::format("{} {}", kFitMethodVersion, requestJson(request).dump());
}

bool ShotRequest::operator==(const ShotRequest& other) const {
    return requestJson(*this) == requestJson(other);
}

Result<ShotRequest> requestOf(const project::Snapshot& snapshot, project::ShotId id) {
    const auto* shot = snapshot.shots.find(id);
    const auto* clip = shot != nullptr ? snapshot.clips.find(shot->clip) : nullptr;
    const auto* session = clip != nullptr ? snapshot.sessions.find(clip->session) : nullptr;
    if (session == nullptr) {
        return fail(ErrorCode::NotFound, "The shot is no longer in the project.");
    }
    if (!clip->clock) {
        return fail(ErrorCode::Contradiction,
                    "The clock of the clip is not settled. Settle it on the Footage screen.");
    }
    ShotRequest request;
    request.range = rangeAbout(snapshot, *shot, clip->frameCount);
    for (const auto& click : shot->clicks) {
        request.clicks.push_back({click.frame, {click.xPx, click.yPx}, click.radiusPx});
    }
    request.facts = factsOf(*session, *clip);
    request.clock = *clip->clock;
    return request;
}

project::Reading makeFitReading(const project::Snapshot& snapshot, const project::Shot& shot,
                                const ShotRequest& request, const PictureReading& read) {
    const auto* clip = snapshot.clips.find(shot.clip);
    CORE_EXPECTS(clip != nullptr && read.rate && read.interval95);
    project::Reading reading;
    reading.shot = shot.id;
    reading.method = project::ReadingMethod::RotationFit;
    reading.methodVersion = kFitMethodVersion;
    reading.reader = snapshot.reader;
    reading.rate = *read.rate;
    reading.interval95 = *read.interval95;
    reading.clockRelativeSigma = read.clockRelativeSigma;
    Json inputs = requestJson(request);
    inputs["clip_fingerprint"] = clip->fingerprint;
    inputs["track"] = trackJson(read.track);
    inputs["fit"] = fitJson(read.fit);
    reading.inputsJson = inputs.dump();
    return reading;
}

}  // namespace core::pictures
