#include "core/findings/ball_speed.h"

#include <cmath>

#include "core/reading/inputs_json.h"

namespace core::findings {
namespace {

std::optional<double> speedOfTrack(const std::vector<image::BallInFrame>& track,
                                   double diameterMetres) {
    const image::BallInFrame* first = nullptr;
    const image::BallInFrame* last = nullptr;
    double radii = 0.0;
    double count = 0.0;
    for (const auto& ball : track) {
        if (ball.source != image::BallSource::Measured) {
            continue;
        }
        first = first != nullptr ? first : &ball;
        last = &ball;
        radii += ball.radiusPx;
        count += 1.0;
    }
    if (count < 2.0 || !(last->time > first->time) || !(radii > 0.0)) {
        return std::nullopt;
    }
    const double wayPx =
        std::hypot(last->centre.x - first->centre.x, last->centre.y - first->centre.y);
    const double metresPerPx = diameterMetres / (2.0 * radii / count);
    return wayPx * metresPerPx / (last->time.seconds - first->time.seconds);
}

}  // namespace

std::optional<double> ballSpeed(const project::Reading& reading) {
    // Looked for before a long text is taken apart for nothing.
    if (reading.method != project::ReadingMethod::RotationFit ||
        reading.inputsJson.find("\"ball_diameter_m\"") == std::string::npos) {
        return std::nullopt;
    }
    const auto kept = reading::keptFitFromJson(reading.inputsJson);
    if (!kept || !kept.value().request.facts.ballDiameter) {
        return std::nullopt;  // what another program wrote there is not ours to judge
    }
    return speedOfTrack(kept.value().track, kept.value().request.facts.ballDiameter->value.metres);
}

std::optional<reading::ShotFlight> flightOf(const project::Reading& reading) {
    // Looked for before a long text is taken apart for nothing.
    if (reading.method != project::ReadingMethod::RotationFit ||
        reading.inputsJson.find("\"flight\"") == std::string::npos) {
        return std::nullopt;
    }
    const auto kept = reading::keptFitFromJson(reading.inputsJson);
    return kept ? kept.value().flight : std::nullopt;
}

}  // namespace core::findings
