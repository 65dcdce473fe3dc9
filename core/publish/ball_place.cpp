#include "core/publish/ball_place.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace core::publish {
namespace {

using TrackJson = nlohmann::json;

double numberAt(const TrackJson& json, std::size_t index) {
    return json.is_array() && json.size() > index && json[index].is_number()
               ? json[index].get<double>()
               : 0.0;
}

/// The track in the inputs of a reading by rotation fit (FORMAT.md R22); empty when there is none.
std::vector<BallPlace> trackOf(const project::Reading& reading) {
    std::vector<BallPlace> places;
    const TrackJson inputs = TrackJson::parse(reading.inputsJson, nullptr, false);
    if (!inputs.is_object() || !inputs.contains("track") || !inputs["track"].is_array()) {
        return places;
    }
    for (const auto& item : inputs["track"]) {
        const bool isWhole = item.is_object() && item.contains("frame") &&
                             item["frame"].is_number_integer() && item.contains("centre_px") &&
                             item.contains("radius_px") && item["radius_px"].is_number();
        if (isWhole) {
            places.push_back({item["frame"].get<std::int64_t>(), numberAt(item["centre_px"], 0),
                              numberAt(item["centre_px"], 1), item["radius_px"].get<double>()});
        }
    }
    return places;
}

}  // namespace

BallPlaces::BallPlaces(const project::Shot& shot, const project::Reading* reading) {
    if (reading != nullptr && reading->method == project::ReadingMethod::RotationFit) {
        m_known = trackOf(*reading);
    }
    if (m_known.empty()) {
        for (const auto& click : shot.clicks) {
            m_known.push_back({click.frame.value, click.xPx, click.yPx, click.radiusPx});
        }
    }
    std::sort(m_known.begin(), m_known.end(),
              [](const BallPlace& a, const BallPlace& b) { return a.frame < b.frame; });
}

std::optional<BallPlace> BallPlaces::at(std::int64_t frame) const {
    const auto after =
        std::lower_bound(m_known.begin(), m_known.end(), frame,
                         [](const BallPlace& place, std::int64_t at) { return place.frame < at; });
    if (after == m_known.end()) {
        return std::nullopt;
    }
    if (after->frame == frame) {
        return *after;
    }
    if (after == m_known.begin()) {
        return std::nullopt;
    }
    const auto& before = *std::prev(after);
    const double share = static_cast<double>(frame - before.frame) /
                         static_cast<double>(after->frame - before.frame);
    const auto mixed = [share](double a, double b) { return a + share * (b - a); };
    return BallPlace{frame, mixed(before.xPx, after->xPx), mixed(before.yPx, after->yPx),
                     mixed(before.radiusPx, after->radiusPx)};
}

}  // namespace core::publish
