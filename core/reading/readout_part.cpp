#include "core/reading/readout_part.h"

#include <algorithm>

namespace core::reading {
namespace {

/// Slope of a straight line through the rows of the ball over the times of its frames, 1/s.
double rowsPerSecond(const image::BallTrack& track) {
    const image::SensorRows rows = track.rows();
    double count = 0.0;
    double time = 0.0;
    double row = 0.0;
    const auto forEach = [&track](auto&& use) {
        for (const auto& ball : track.frames) {
            if (ball.source != image::BallSource::Bridged) {
                use(ball);
            }
        }
    };
    forEach([&](const image::BallInFrame& ball) {
        count += 1.0;
        time += ball.time.seconds;
        row += rows.at(ball.centre);
    });
    double together = 0.0;
    double alone = 0.0;
    forEach([&](const image::BallInFrame& ball) {
        const double t = ball.time.seconds - time / count;
        together += t * (rows.at(ball.centre) - row / count);
        alone += t * t;
    });
    return alone > 0.0 ? together / alone : 0.0;
}

}  // namespace

ReadoutPart readoutPart(const image::BallTrack& track, const FilmingFacts& facts) {
    ReadoutPart part;
    part.relativePerSecond = -rowsPerSecond(track);
    if (facts.readout) {
        part.source = ReadoutSource::Stated;
        part.readout = {*facts.readout, {}, {*facts.readout, *facts.readout}};
        return part;
    }
    part.source = track.readoutSeen ? ReadoutSource::Outlines : ReadoutSource::Unknown;
    part.readout = image::readoutKnowledge(track.readoutSeen, track.longestReadout);
    return part;
}

double rateFactor(const image::BallTrack& track, const ReadoutPart& part,
                  Seconds readout) noexcept {
    constexpr double kLeastStretch = 0.2;  // beyond it the ball falls with the rows that are read
    const double later = readout.seconds - track.readout.seconds;
    return 1.0 / std::max(kLeastStretch, 1.0 - later * part.relativePerSecond);
}

}  // namespace core::reading
