#include "core/project/ball_place.h"

#include <algorithm>
#include <nlohmann/json.hpp>

namespace core::project {
namespace {

using TrackJson = nlohmann::json;

double numberAt(const TrackJson& json, std::size_t index) {
    return json.is_array() && json.size() > index && json[index].is_number()
               ? json[index].get<double>()
               : 0.0;
}

/// The track in the inputs of a reading by rotation fit (FORMAT.md R22); empty when there is none.
std::vector<BallPlace> trackOf(const Reading& reading) {
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

void sortByFrame(std::vector<BallPlace>& places) {
    std::sort(places.begin(), places.end(),
              [](const BallPlace& a, const BallPlace& b) { return a.frame < b.frame; });
}

/// On the line through two places in different frames.
BallPlace onLine(const BallPlace& a, const BallPlace& b, std::int64_t frame) {
    const double share =
        static_cast<double>(frame - a.frame) / static_cast<double>(b.frame - a.frame);
    const auto mixed = [share](double from, double to) { return from + share * (to - from); };
    return {frame, mixed(a.xPx, b.xPx), mixed(a.yPx, b.yPx), mixed(a.radiusPx, b.radiusPx)};
}

constexpr double kMinRadiusPx = 2.0;  // an extrapolated radius never vanishes

}  // namespace

BallPlaces::BallPlaces(const Shot& shot, const Reading* reading) {
    if (reading != nullptr && reading->method == ReadingMethod::RotationFit) {
        m_known = trackOf(*reading);
    }
    if (m_known.empty()) {
        for (const auto& click : shot.clicks) {
            m_known.push_back({click.frame.value, click.xPx, click.yPx, click.radiusPx});
        }
    }
    sortByFrame(m_known);
}

BallPlaces::BallPlaces(std::vector<BallPlace> known) : m_known{std::move(known)} {
    sortByFrame(m_known);
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
    return onLine(*std::prev(after), *after, frame);
}

std::optional<BallPlace> BallPlaces::around(std::int64_t frame) const {
    if (const auto inside = at(frame); inside || m_known.empty()) {
        return inside;
    }
    const bool isBefore = frame < first();
    const BallPlace& end = isBefore ? m_known.front() : m_known.back();
    if (m_known.size() == 1) {
        return BallPlace{frame, end.xPx, end.yPx, end.radiusPx};
    }
    const BallPlace& next = isBefore ? m_known[1] : m_known[m_known.size() - 2];
    BallPlace place = onLine(end, next, frame);
    place.radiusPx = std::max(place.radiusPx, kMinRadiusPx);
    return place;
}

}  // namespace core::project
