#include "ui/reading/ball_path.h"

#include <QLineF>
#include <algorithm>

namespace ui::reading {
namespace {

constexpr double kMinRadiusPx = 2.0;  // an extrapolated radius never vanishes
constexpr double kFarRadii = 6.0;     // three ball widths

std::vector<core::project::BallPlace> placesOf(const core::image::BallTrack& track) {
    std::vector<core::project::BallPlace> places;
    for (const core::image::BallInFrame& ball : track.frames) {
        places.push_back({ball.frame.value, ball.centre.x, ball.centre.y, ball.radiusPx});
    }
    return places;
}

}  // namespace

BallPath::BallPath(const std::vector<core::project::BallClick>& clicks,
                   core::timebase::FrameIndex firstFrame, const std::vector<double>& seconds) {
    for (const core::project::BallClick& click : clicks) {
        const std::int64_t offset = click.frame.value - firstFrame.value;
        if (offset >= 0 && offset < static_cast<std::int64_t>(seconds.size())) {
            m_knots.push_back({seconds[static_cast<std::size_t>(offset)],
                               {{click.xPx, click.yPx}, click.radiusPx}});
        }
    }
    std::sort(m_knots.begin(), m_knots.end(),
              [](const Knot& a, const Knot& b) { return a.seconds < b.seconds; });
}

BallPath::BallPath(const core::image::BallTrack& track,
                   const std::vector<core::project::BallClick>& clicks,
                   core::timebase::FrameIndex firstFrame, const std::vector<double>& seconds)
    : BallPath{placesOf(track), clicks, firstFrame, seconds} {}

BallPath::BallPath(const std::vector<core::project::BallPlace>& known,
                   const std::vector<core::project::BallClick>& clicks,
                   core::timebase::FrameIndex firstFrame, const std::vector<double>& seconds)
    : BallPath{clicks, firstFrame, seconds} {
    for (const core::project::BallPlace& ball : known) {
        const std::int64_t offset = ball.frame - firstFrame.value;
        const bool isClicked =
            std::any_of(clicks.begin(), clicks.end(),
                        [&ball](const auto& click) { return click.frame.value == ball.frame; });
        if (!isClicked && offset >= 0 && offset < static_cast<std::int64_t>(seconds.size())) {
            m_knots.push_back(
                {seconds[static_cast<std::size_t>(offset)], {{ball.xPx, ball.yPx}, ball.radiusPx}});
        }
    }
    std::sort(m_knots.begin(), m_knots.end(),
              [](const Knot& a, const Knot& b) { return a.seconds < b.seconds; });
}

std::optional<BallPlace> BallPath::at(double seconds) const {
    if (m_knots.empty()) {
        return std::nullopt;
    }
    if (m_knots.size() == 1) {
        return m_knots.front().place;
    }
    const auto after = std::find_if(m_knots.begin() + 1, m_knots.end() - 1,
                                    [&](const Knot& k) { return k.seconds >= seconds; });
    const Knot& a = *(after - 1);
    const Knot& b = *after;
    const double share = (seconds - a.seconds) / (b.seconds - a.seconds);
    const double radius = a.place.radiusPx + share * (b.place.radiusPx - a.place.radiusPx);
    return BallPlace{a.place.centrePx + share * (b.place.centrePx - a.place.centrePx),
                     std::max(radius, kMinRadiusPx)};
}

bool BallPath::isFarFrom(double seconds, QPointF picturePx) const {
    const auto ball = m_knots.size() > 1 ? at(seconds) : std::nullopt;
    return ball && QLineF{ball->centrePx, picturePx}.length() > kFarRadii * ball->radiusPx;
}

}  // namespace ui::reading
