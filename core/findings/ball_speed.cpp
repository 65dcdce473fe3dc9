#include "core/findings/ball_speed.h"

#include <cmath>
#include <nlohmann/json.hpp>

namespace core::findings {
namespace {

using SpeedJson = nlohmann::json;

struct TrackEnd {
    double seconds{};
    double x{};
    double y{};
};

std::optional<TrackEnd> trackEnd(const SpeedJson& place) {
    if (place.value("source", "") != "measured" || !place.contains("time_s") ||
        !place.contains("centre_px") || place["centre_px"].size() != 2) {
        return std::nullopt;
    }
    return TrackEnd{place["time_s"].get<double>(), place["centre_px"][0].get<double>(),
                    place["centre_px"][1].get<double>()};
}

std::optional<double> speedOfTrack(const SpeedJson& track, double diameterMetres) {
    std::optional<TrackEnd> first;
    std::optional<TrackEnd> last;
    double radii = 0.0;
    double count = 0.0;
    for (const SpeedJson& place : track) {
        const auto end = trackEnd(place);
        if (!end) {
            continue;
        }
        first = first ? first : end;
        last = end;
        radii += place.value("radius_px", 0.0);
        count += 1.0;
    }
    if (count < 2.0 || !(last->seconds > first->seconds) || !(radii > 0.0)) {
        return std::nullopt;
    }
    const double wayPx = std::hypot(last->x - first->x, last->y - first->y);
    const double metresPerPx = diameterMetres / (2.0 * radii / count);
    return wayPx * metresPerPx / (last->seconds - first->seconds);
}

}  // namespace

std::optional<double> ballSpeed(const project::Reading& reading) {
    if (reading.method != project::ReadingMethod::RotationFit ||
        reading.inputsJson.find("\"ball_diameter_m\"") == std::string::npos) {
        return std::nullopt;
    }
    try {
        const SpeedJson inputs = SpeedJson::parse(reading.inputsJson);
        return speedOfTrack(inputs.at("track"), inputs.at("facts").at("ball_diameter_m"));
    } catch (const SpeedJson::exception&) {
        return std::nullopt;  // what another program wrote there is not ours to judge
    }
}

}  // namespace core::findings
