#include "core/reading/ball_places.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/expects.h"
#include "core/reading/inputs_json.h"

namespace core::reading {
namespace {

constexpr double kMinRadiusPx = 2.0;  // an extrapolated radius never vanishes
constexpr double kFarRadii = 6.0;     // three ball widths

}  // namespace

std::vector<KnownPlace> placesOf(std::span<const project::BallClick> clicks) {
    std::vector<KnownPlace> places;
    for (const auto& click : clicks) {
        places.push_back({click.frame, {click.xPx, click.yPx, click.radiusPx}});
    }
    return places;
}

std::vector<KnownPlace> placesOf(std::span<const image::BallInFrame> track) {
    std::vector<KnownPlace> places;
    for (const auto& ball : track) {
        places.push_back({ball.frame, {ball.centre.x, ball.centre.y, ball.radiusPx}});
    }
    return places;
}

BallPlaces::BallPlaces(std::span<const KnownPlace> known, timebase::ClipClock clock)
    : m_clock{std::move(clock)} {
    lay(known);
}

BallPlaces BallPlaces::with(std::span<const KnownPlace> more) const {
    BallPlaces all = *this;
    all.lay(more);
    return all;
}

void BallPlaces::lay(std::span<const KnownPlace> known) {
    CORE_EXPECTS(m_clock.has_value());
    for (const KnownPlace& place : known) {
        if (!m_clock->contains(place.frame)) {
            continue;
        }
        const auto at = std::lower_bound(
            m_knots.begin(), m_knots.end(), place.frame,
            [](const Knot& knot, timebase::FrameIndex frame) { return knot.known.frame < frame; });
        if (at != m_knots.end() && at->known.frame == place.frame) {
            at->known = place;
        } else {
            m_knots.insert(at, {place, m_clock->captureSeconds(place.frame).seconds});
        }
    }
}

bool BallPlaces::covers(timebase::FrameIndex frame) const noexcept {
    return !isEmpty() && first() <= frame && frame <= last();
}

std::optional<BallPlace> BallPlaces::at(timebase::FrameIndex frame) const {
    if (m_knots.empty()) {
        return std::nullopt;
    }
    if (m_knots.size() == 1) {
        return m_knots.front().known.place;
    }
    const auto after = std::find_if(m_knots.begin() + 1, m_knots.end() - 1,
                                    [&](const Knot& knot) { return knot.known.frame >= frame; });
    const BallPlace& a = (after - 1)->known.place;
    const BallPlace& b = after->known.place;
    const double from = (after - 1)->seconds;
    const double share = (m_clock->captureSeconds(frame).seconds - from) / (after->seconds - from);
    const double radius = a.radiusPx + share * (b.radiusPx - a.radiusPx);
    return BallPlace{a.xPx + share * (b.xPx - a.xPx), a.yPx + share * (b.yPx - a.yPx),
                     std::max(radius, kMinRadiusPx)};
}

bool BallPlaces::isFarFrom(timebase::FrameIndex frame, double xPx, double yPx) const {
    const auto ball = m_knots.size() > 1 ? at(frame) : std::nullopt;
    return ball && std::hypot(xPx - ball->xPx, yPx - ball->yPx) > kFarRadii * ball->radiusPx;
}

BallPlaces ballPlacesOf(const project::Clip& clip, const project::Shot& shot,
                        const project::Reading* reading, const timebase::ClipClock& clock) {
    if (reading != nullptr && reading->method == project::ReadingMethod::RotationFit) {
        const auto fit = keptFitFromJson(reading->inputsJson);
        if (fit && !fit.value().track.empty() &&
            fit.value().request.facts.rowOrder == image::rowOrderOf(clip.rotationDegrees)) {
            return {placesOf(fit.value().track), clock};
        }
    }
    return {placesOf(shot.clicks), clock};
}

}  // namespace core::reading
