#include "core/reading/reading_archive.h"

#include <cstdint>
#include <nlohmann/json.hpp>
#include <vector>

// The fields of the values by name; the library writes and reads them.
#include "core/base/whole_number.h"
#include "core/base/words.h"

namespace nlohmann {

template <class T>
struct adl_serializer<std::optional<T>> {
    static void to_json(json& out, const std::optional<T>& value) {
        if (value) {
            out = *value;
        } else {
            out = nullptr;
        }
    }
    static void from_json(const json& in, std::optional<T>& value) {
        value = in.is_null() ? std::nullopt : std::optional<T>{in.get<T>()};
    }
};

template <class Unit>
struct adl_serializer<core::Measured<Unit>> {
    static void to_json(json& out, const core::Measured<Unit>& measured) {
        out = json{{"value", measured.value}, {"sigma", measured.sigma}};
    }
    static void from_json(const json& in, core::Measured<Unit>& measured) {
        measured = {in.at("value").get<Unit>(), in.at("sigma").get<Unit>()};
    }
};

template <class Unit>
struct adl_serializer<core::Interval<Unit>> {
    static void to_json(json& out, const core::Interval<Unit>& interval) {
        out = json{{"low", interval.low}, {"high", interval.high}};
    }
    static void from_json(const json& in, core::Interval<Unit>& interval) {
        interval = {in.at("low").get<Unit>(), in.at("high").get<Unit>()};
    }
};

}  // namespace nlohmann

namespace core {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Radians, radians)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Seconds, seconds)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Rpm, rpm)

namespace timebase {

void to_json(nlohmann::json& out, const FrameIndex& frame) {
    out = {{"value", frame.value}};
}
void from_json(const nlohmann::json& in, FrameIndex& frame) {
    frame.value = wholeFrom<std::int64_t>(in.at("value"));
}

void to_json(nlohmann::json& out, const CaptureRate& rate) {
    out = {rate.fps.num(), rate.fps.den()};
}
void from_json(const nlohmann::json& in, CaptureRate& rate) {
    const auto denominator = wholeFrom<std::int64_t>(in.at(1));
    if (denominator <= 0) {
        throw nlohmann::json::other_error::create(501, "a rate without denominator", nullptr);
    }
    rate = CaptureRate{Rational{wholeFrom<std::int64_t>(in.at(0)), denominator}};
}

}  // namespace timebase

namespace image {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(PointPx, x, y)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Pixels, px)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Ellipse, centre, semiMajorPx, semiMinorPx, angle)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(BallInFrame, frame, time, centre, centreSigma, radiusPx,
                                   radiusSigmaPx, smear, smearSigmaPx, drift, outline, source,
                                   isPartial)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(BallPath, referenceTime, principalPoint, x, y, inverseRadius)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(FrameMotion, a, b, shift)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(ReadoutEstimate, value, ownSigma, commonSigma)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(ReadoutKnowledge, mean, sigma, interval95)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(BallTrack, pictureWidth, pictureHeight, frames, path, motion,
                                   focal, exposure, scatter, rowOrder, readout, longestReadout,
                                   readoutSeen, kink)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(MetresPerSecond, metresPerSecond)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(MetresPerSecondSquared, metresPerSecondSquared)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Metres, metres)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(CameraVector, x, y, z)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(FlightFacts, velocity, speed, launchAngle, downwardAcceleration,
                                   distance)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(GravityVerdict, kind, factor, likelier, statement)

}  // namespace image

namespace spin::fit {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Vector3, x, y, z)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(PicturePoint, xPx, yPx)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(Candidate, kind, angularVelocity, rate, relativeError, deficit)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(SurfacePattern, degree, referenceTime, redGreenBlue)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(FrameResidual, rms, attitudeDeviation, centreShift)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(FieldOfViewEstimate, value, logFocal, logFocalSigma)
// With defaults: archives of earlier programs do not say whether the stroke decided.
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE_WITH_DEFAULT(FitOutcome, status, reason, warnings,
                                                angularVelocity, covariance, rate, interval95,
                                                axisSigma, pattern, frames, explainedShare,
                                                residualRms, uniqueness, restsOnSense,
                                                turnsPerFrame, smearDegrees, fieldOfView,
                                                candidates)

}  // namespace spin::fit

namespace reading {

NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(ReadoutPart, source, readout, relativePerSecond)
NLOHMANN_DEFINE_TYPE_NON_INTRUSIVE(PictureReading, track, fit, reason, rate, interval95,
                                   clockRelativeSigma, readout, flight, gravity)

std::string toArchive(const PictureReading& reading) {
    const auto bytes = nlohmann::json::to_cbor(nlohmann::json(reading));
    return {bytes.begin(), bytes.end()};
}

Result<PictureReading> fromArchive(std::string_view bytes) {
    try {
        return nlohmann::json::from_cbor(bytes.begin(), bytes.end()).get<PictureReading>();
    } catch (const nlohmann::json::exception& error) {
        return fail(ErrorCode::Damaged,
                    said("What was read from the pictures of this shot was not kept whole "
                         "({}). It will be read again.",
                         error.what()));
    }
}

}  // namespace reading
}  // namespace core
