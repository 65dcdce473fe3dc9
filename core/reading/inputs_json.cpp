#include "core/reading/inputs_json.h"

#include <fmt/format.h>

#include <nlohmann/json.hpp>
#include <stdexcept>

#include "core/base/whole_number.h"
#include "core/base/words.h"
#include "core/project/marks_json.h"
#include "core/reading/project_reading.h"

namespace core::reading {
namespace {

using InputsJson = nlohmann::json;

constexpr const char* kShutterWords[] = {"not_assessed", "absent", "known", "unknown", "estimated"};
constexpr const char* kSightWords[] = {"not_assessed", "corrected", "contribution"};
constexpr const char* kRowOrderWords[] = {"down", "left", "up", "right"};
constexpr const char* kStrokeWords[] = {"not_known", "topspin", "backspin"};
constexpr const char* kSourceWords[] = {"measured", "bridged", "clicked"};

template <class Enum, std::size_t count>
const char* wordOf(Enum value, const char* const (&words)[count]) {
    return words[static_cast<std::size_t>(value)];
}

template <class Enum, std::size_t count>
Enum valueOf(const InputsJson& json, const char* const (&words)[count]) {
    const auto word = json.get<std::string>();
    for (std::size_t i = 0; i < count; ++i) {
        if (word == words[i]) {
            return static_cast<Enum>(i);
        }
    }
    throw std::invalid_argument(said("the word '{}' is not known here", word));
}

/// The member, or nothing when it is absent or null.
std::optional<double> numberIn(const InputsJson& json, const char* key) {
    const auto at = json.find(key);
    return at == json.end() || at->is_null() ? std::nullopt : std::optional{at->get<double>()};
}

std::optional<Seconds> secondsIn(const InputsJson& json, const char* key) {
    const auto number = numberIn(json, key);
    return number ? std::optional<Seconds>{{*number}} : std::nullopt;
}

timebase::FrameIndex frameIn(const InputsJson& json, const char* key) {
    return {wholeFrom<std::int64_t>(json.at(key))};
}

/// What the project has texts for is laid into a larger text, and taken out of it.
template <class T>
T partOf(const InputsJson& json, const char* key, Result<T> (*read)(std::string_view)) {
    auto part = read(json.at(key).dump());
    if (!part) {
        throw std::invalid_argument(part.error().message);
    }
    return std::move(part).value();
}

template <class T, class Read>
Result<T> readFrom(std::string_view text, Read read) {
    try {
        return T{read(InputsJson::parse(text))};
    } catch (const std::exception& wrong) {  // of the library and of the functions above
        return fail(ErrorCode::InvalidInput, wrong.what());
    }
}

InputsJson contextJson(const spin::ReadingContext& context) {
    InputsJson rows = InputsJson::array();
    for (const auto& row : context.rollingShutter.rows) {
        rows.push_back({{"frame", row.frame.value}, {"row", row.row}});
    }
    InputsJson json{
        {"symmetry_order", context.symmetryOrder},
        {"rolling_shutter",
         {{"kind", wordOf(context.rollingShutter.kind, kShutterWords)}, {"rows", std::move(rows)}}},
        {"line_of_sight",
         {{"kind", wordOf(context.lineOfSight.kind, kSightWords)},
          {"angle_rad", context.lineOfSight.angle.radians},
          {"sigma_rad", context.lineOfSight.sigma.radians}}},
        {"dial_step_rad", context.dialStep.radians}};
    if (context.rollingShutter.readout) {
        json["rolling_shutter"]["readout_s"] = context.rollingShutter.readout->seconds;
    }
    if (context.rollingShutter.readoutSigma > Seconds{0.0}) {
        json["rolling_shutter"]["readout_sigma_s"] = context.rollingShutter.readoutSigma.seconds;
    }
    if (context.exposure) {
        json["exposure_s"] = context.exposure->seconds;
    }
    return json;
}

spin::ReadingContext contextFrom(const InputsJson& json) {
    const InputsJson& shutter = json.at("rolling_shutter");
    const InputsJson& sight = json.at("line_of_sight");
    spin::ReadingContext context;
    context.symmetryOrder = wholeFrom<int>(json.at("symmetry_order"));
    context.exposure = secondsIn(json, "exposure_s");
    context.rollingShutter.kind =
        valueOf<spin::RollingShutter::Kind>(shutter.at("kind"), kShutterWords);
    context.rollingShutter.readout = secondsIn(shutter, "readout_s");
    context.rollingShutter.readoutSigma = secondsIn(shutter, "readout_sigma_s").value_or(Seconds{});
    for (const InputsJson& row : shutter.at("rows")) {
        context.rollingShutter.rows.push_back({frameIn(row, "frame"), row.at("row").get<double>()});
    }
    context.lineOfSight = {valueOf<spin::LineOfSight::Kind>(sight.at("kind"), kSightWords),
                           {sight.at("angle_rad").get<double>()},
                           {sight.at("sigma_rad").get<double>()}};
    context.dialStep = {json.at("dial_step_rad").get<double>()};
    return context;
}

InputsJson pointJson(image::PointPx point) {
    return InputsJson::array({point.x, point.y});
}

image::PointPx pointIn(const InputsJson& json, const char* key) {
    return {json.at(key).at(0).get<double>(), json.at(key).at(1).get<double>()};
}

InputsJson factsJson(const FilmingFacts& facts) {
    InputsJson json{{"marking_symmetry", facts.markingSymmetry}};
    if (facts.readout) {
        json["readout_s"] = facts.readout->seconds;
    }
    if (facts.rowOrder != image::RowOrder::Down) {
        json["row_order"] = wordOf(facts.rowOrder, kRowOrderWords);
    }
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
    if (facts.stroke != project::Stroke::NotKnown) {
        json["stroke"] = wordOf(facts.stroke, kStrokeWords);
    }
    return json;
}

FilmingFacts factsFrom(const InputsJson& json) {
    constexpr double kFirstVersionSigma = 0.02;  // of the angle, when it was not written
    constexpr double kDiameterSigma = 0.01;
    FilmingFacts facts;
    facts.readout = secondsIn(json, "readout_s");
    if (json.contains("row_order")) {
        facts.rowOrder = valueOf<image::RowOrder>(json.at("row_order"), kRowOrderWords);
    }
    facts.exposure = secondsIn(json, "exposure_s");
    facts.markingSymmetry = wholeFrom<int>(json.at("marking_symmetry"));
    if (const auto angle = numberIn(json, "field_of_view_rad")) {
        const auto sigma = numberIn(json, "field_of_view_sigma_rad");
        facts.fieldOfView = {{*angle}, {sigma.value_or(kFirstVersionSigma * *angle)}};
    }
    if (const auto metres = numberIn(json, "ball_diameter_m")) {
        facts.ballDiameter = {{*metres}, {kDiameterSigma * *metres}};
    }
    if (json.contains("stroke")) {
        facts.stroke = valueOf<project::Stroke>(json.at("stroke"), kStrokeWords);
    }
    return facts;
}

InputsJson requestJson(const ShotRequest& request) {
    InputsJson json{{"clock", InputsJson::parse(project::clockToJson(request.clock))},
                    {"first_frame", request.range.first.value},
                    {"last_frame", request.range.last.value},
                    {"facts", factsJson(request.facts)}};
    if (request.shot) {
        json["shot_first_frame"] = request.shot->first.value;
        json["shot_last_frame"] = request.shot->last.value;
    }
    for (const auto& click : request.clicks) {
        json["clicks"].push_back({{"frame", click.frame.value},
                                  {"centre_px", pointJson(click.centre)},
                                  {"radius_px", click.radiusPx.value_or(0.0)}});
    }
    return json;
}

ShotRequest requestFrom(const InputsJson& json) {
    ShotRequest request;
    request.clock = partOf(json, "clock", project::clockFromJson);
    request.range = {frameIn(json, "first_frame"), frameIn(json, "last_frame")};
    request.facts = factsFrom(json.at("facts"));
    if (json.contains("shot_first_frame")) {
        request.shot = {frameIn(json, "shot_first_frame"), frameIn(json, "shot_last_frame")};
    }
    for (const InputsJson& click : json.value("clicks", InputsJson::array())) {
        const double radius = click.at("radius_px").get<double>();
        request.clicks.push_back({frameIn(click, "frame"), pointIn(click, "centre_px"),
                                  radius > 0.0 ? std::optional{radius} : std::nullopt});
    }
    return request;
}

InputsJson ballJson(const image::BallInFrame& ball) {
    return {{"frame", ball.frame.value},           {"time_s", ball.time.seconds},
            {"centre_px", pointJson(ball.centre)}, {"centre_sigma_px", pointJson(ball.centreSigma)},
            {"radius_px", ball.radiusPx},          {"radius_sigma_px", ball.radiusSigmaPx},
            {"smear_px", pointJson(ball.smear)},   {"source", wordOf(ball.source, kSourceWords)}};
}

image::BallInFrame ballFrom(const InputsJson& json) {
    image::BallInFrame ball;
    ball.frame = frameIn(json, "frame");
    ball.time = {json.at("time_s").get<double>()};
    ball.centre = pointIn(json, "centre_px");
    ball.centreSigma = pointIn(json, "centre_sigma_px");
    ball.radiusPx = json.at("radius_px").get<double>();
    ball.radiusSigmaPx = json.at("radius_sigma_px").get<double>();
    ball.smear = pointIn(json, "smear_px");
    ball.source = valueOf<image::BallSource>(json.at("source"), kSourceWords);
    return ball;
}

template <class Unit>
InputsJson measuredJson(const Measured<Unit>& measured) {
    const auto& [value] = measured.value;
    const auto& [sigma] = measured.sigma;
    return {value, sigma};
}

template <class Unit>
void readMeasured(const InputsJson& json, const char* name, Measured<Unit>& measured) {
    measured = {{json.at(name).at(0).get<double>()}, {json.at(name).at(1).get<double>()}};
}

/// Each a value and its standard uncertainty.
InputsJson flightJson(const ShotFlight& flight) {
    return {{"speed_m_per_s", measuredJson(flight.speed)},
            {"launch_angle_rad", measuredJson(flight.launchAngle)},
            {"topspin_rpm", measuredJson(flight.topspin)},
            {"sidespin_rpm", measuredJson(flight.sidespin)},
            {"rifle_spin_rpm", measuredJson(flight.rifleSpin)},
            {"axis_tilt_rad", measuredJson(flight.axisTilt)},
            {"spin_parameter", measuredJson(flight.spinParameter)}};
}

ShotFlight flightFrom(const InputsJson& json) {
    ShotFlight flight;
    readMeasured(json, "speed_m_per_s", flight.speed);
    readMeasured(json, "launch_angle_rad", flight.launchAngle);
    readMeasured(json, "topspin_rpm", flight.topspin);
    readMeasured(json, "sidespin_rpm", flight.sidespin);
    readMeasured(json, "rifle_spin_rpm", flight.rifleSpin);
    readMeasured(json, "axis_tilt_rad", flight.axisTilt);
    readMeasured(json, "spin_parameter", flight.spinParameter);
    return flight;
}

KeptFit keptFitFrom(const InputsJson& json) {
    KeptFit kept;
    kept.clipFingerprint = json.at("clip_fingerprint").get<std::string>();
    kept.request = requestFrom(json);
    for (const InputsJson& ball : json.at("track")) {
        kept.track.push_back(ballFrom(ball));
    }
    const InputsJson& fit = json.at("fit");
    const InputsJson& omega = fit.at("angular_velocity_rad_per_s");
    kept.angularVelocity = {omega.at(0).get<double>(), omega.at(1).get<double>(),
                            omega.at(2).get<double>()};
    kept.covariance = fit.at("covariance_rad2_per_s2").get<spin::fit::Matrix3>();
    kept.explainedShare = fit.at("explained_share").get<double>();
    kept.fieldOfView = {fit.at("field_of_view_rad").get<double>()};
    kept.uniqueness = numberIn(fit, "uniqueness_standard_errors");
    kept.restsOnStroke = fit.value("rests_on_stroke", false);
    if (const auto readout = secondsIn(fit, "readout_s")) {
        kept.readout = KeptReadout{{*readout, {fit.at("readout_sigma_s").get<double>()}},
                                   fit.at("readout_relative_per_s").get<double>()};
    }
    if (const auto seen = fit.find("readout_seen"); seen != fit.end()) {
        kept.readoutSeen = image::ReadoutEstimate{{seen->at("value_s").get<double>()},
                                                  {seen->at("own_sigma_s").get<double>()},
                                                  {seen->at("common_sigma_s").get<double>()}};
    }
    if (json.contains("kink_frame")) {
        kept.kink = frameIn(json, "kink_frame");
    }
    if (const auto flight = json.find("flight"); flight != json.end()) {
        kept.flight = flightFrom(*flight);
    }
    return kept;
}

}  // namespace

std::string toJson(const MarksInputs& inputs) {
    return InputsJson{{"clip_fingerprint", inputs.clipFingerprint},
                      {"marks", InputsJson::parse(project::marksToJson(inputs.marks))},
                      {"clock", InputsJson::parse(project::clockToJson(inputs.clock))},
                      {"context", contextJson(inputs.context)}}
        .dump();
}

std::string toJson(const KeptFit& kept) {
    InputsJson json = requestJson(kept.request);
    json["clip_fingerprint"] = kept.clipFingerprint;
    if (kept.kink) {
        json["kink_frame"] = kept.kink->value;
    }
    json["track"] = InputsJson::array();
    for (const auto& ball : kept.track) {
        json["track"].push_back(ballJson(ball));
    }
    const auto& omega = kept.angularVelocity;
    json["fit"] = {{"angular_velocity_rad_per_s", {omega.x, omega.y, omega.z}},
                   {"covariance_rad2_per_s2", kept.covariance},
                   {"explained_share", kept.explainedShare},
                   {"field_of_view_rad", kept.fieldOfView.radians}};
    if (kept.uniqueness) {
        json["fit"]["uniqueness_standard_errors"] = *kept.uniqueness;
    }
    if (kept.restsOnStroke) {
        json["fit"]["rests_on_stroke"] = true;
    }
    if (kept.readout) {
        json["fit"]["readout_s"] = kept.readout->value.value.seconds;
        json["fit"]["readout_sigma_s"] = kept.readout->value.sigma.seconds;
        json["fit"]["readout_relative_per_s"] = kept.readout->relativePerSecond;
    }
    if (kept.readoutSeen) {
        json["fit"]["readout_seen"] = {{"value_s", kept.readoutSeen->value.seconds},
                                       {"own_sigma_s", kept.readoutSeen->ownSigma.seconds},
                                       {"common_sigma_s", kept.readoutSeen->commonSigma.seconds}};
    }
    if (kept.flight) {
        json["flight"] = flightJson(*kept.flight);
    }
    return json.dump();
}

Result<MarksInputs> marksInputsFromJson(std::string_view text) {
    return readFrom<MarksInputs>(text, [](const InputsJson& json) {
        return MarksInputs{json.at("clip_fingerprint").get<std::string>(),
                           partOf(json, "marks", project::marksFromJson),
                           partOf(json, "clock", project::clockFromJson),
                           contextFrom(json.at("context"))};
    });
}

Result<KeptFit> keptFitFromJson(std::string_view text) {
    return readFrom<KeptFit>(text, keptFitFrom);
}

std::string keyOf(const ShotRequest& request) {
    return fmt::format("{} {}", kFitMethodVersion, requestJson(request).dump());
}

bool ShotRequest::operator==(const ShotRequest& other) const {
    return requestJson(*this) == requestJson(other);
}

}  // namespace core::reading
