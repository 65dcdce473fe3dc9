#include "core/reading/read_shot.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/kept_words.h"
#include "core/image/ball_background.h"
#include "core/image/kink.h"
#include "core/reading/shot_flight.h"

namespace core::reading {
namespace {

constexpr double kCutOutRadii = 1.15;   // half-side of a cut-out in radii, beside the smear
constexpr double kNormal95 = 1.959964;  // quantile 0.975 of the normal distribution
constexpr double kShare = 0.4;          // of the work that the tracking takes, for the progress

double lengthOf(image::PointPx vector) {
    return std::hypot(vector.x, vector.y);
}

/// Standard uncertainties of what all frames share are taken together with those of single frames.
spin::fit::BallFrame ballFrame(const image::BallInFrame& ball) {
    spin::fit::BallFrame frame;
    frame.captureTime = ball.time;
    frame.centre = {ball.centre.x, ball.centre.y};
    frame.radiusPx = ball.radiusPx;
    frame.radiusSigmaPx = ball.radiusSigmaPx;
    frame.centreSigmaPx = lengthOf(ball.centreSigma) / std::sqrt(2.0);
    frame.smear = {ball.smear.x, ball.smear.y};
    frame.drift = {ball.drift.x, ball.drift.y};
    return frame;
}

image::PixelBox boxAround(const image::BallTrack& track, const image::BallInFrame& ball) {
    const double half = kCutOutRadii * ball.radiusPx + 0.5 * lengthOf(ball.smear) + 2.0;
    const auto first = [half](double centre, int size) {
        return std::clamp(static_cast<int>(std::floor(centre - half)), 0, size - 1);
    };
    const auto end = [half](double centre, int start, int size) {
        return std::clamp(static_cast<int>(std::ceil(centre + half)), start + 1, size);
    };
    const int left = first(ball.centre.x, track.pictureWidth);
    const int top = first(ball.centre.y, track.pictureHeight);
    return {left, top, end(ball.centre.x, left, track.pictureWidth) - left,
            end(ball.centre.y, top, track.pictureHeight) - top};
}

/// Half-widths of independent contributions are joined in quadrature, each side for itself.
Interval<Rpm> joined(Rpm rate, std::initializer_list<Interval<Rpm>> intervals) {
    double below = 0.0;
    double above = 0.0;
    for (const auto& interval : intervals) {
        below = std::hypot(below, rate.rpm - interval.low.rpm);
        above = std::hypot(above, interval.high.rpm - rate.rpm);
    }
    return {{rate.rpm - below}, {rate.rpm + above}};
}

Interval<Rpm> about(Rpm rate, double halfWidth) {
    return {{rate.rpm - halfWidth}, {rate.rpm + halfWidth}};
}

/// The rates that the ends of the readout's interval mean.
Interval<Rpm> readoutInterval(const image::BallTrack& track, const ReadoutPart& part, Rpm rate) {
    const double one = rate.rpm * rateFactor(track, part, part.readout.interval95.low);
    const double other = rate.rpm * rateFactor(track, part, part.readout.interval95.high);
    return {{std::min({one, other, rate.rpm})}, {std::max({one, other, rate.rpm})}};
}

std::optional<spin::fit::StatedSense> statedSense(const image::BallTrack& track,
                                                  project::Stroke stroke) {
    const auto axis = stroke == project::Stroke::NotKnown ? std::nullopt : topspinAxisOf(track);
    if (!axis) {
        return std::nullopt;
    }
    return stroke == project::Stroke::Topspin
               ? spin::fit::StatedSense{*axis, toKeep("topspin")}
               : spin::fit::StatedSense{{-axis->x, -axis->y, -axis->z}, toKeep("backspin")};
}

}  // namespace

Result<void> ShotPictures::add(const image::BallTrack& track, image::FrameSource& source,
                               std::size_t index) {
    const auto& ball = track.frames[index];
    const auto box = boxAround(track, ball);
    BOOST_OUTCOME_TRY(picture, source.region(ball.frame, box));
    auto frame = ballFrame(ball);
    frame.leftPx = box.left;
    frame.topPx = box.top;
    const auto keep = [this](PixelBuffer buffer) {
        m_pictures.push_back(std::move(buffer));
        return m_pictures.back().view();  // stays where it is when the vector grows
    };
    frame.picture = keep(std::move(picture));
    BOOST_OUTCOME_TRY(behind, image::backgroundBehind(track, source, index, box));
    if (behind) {
        frame.background = keep(std::move(*behind));
    }
    m_input.frames.push_back(frame);
    return ok();
}

Result<ShotPictures> ShotPictures::cutOut(const image::BallTrack& track, image::FrameSource& source,
                                          const FilmingFacts& facts) {
    ShotPictures shot;
    shot.m_input.camera.widthPx = track.pictureWidth;
    shot.m_input.camera.heightPx = track.pictureHeight;
    shot.m_input.camera.fieldOfView = facts.fieldOfView;
    shot.m_input.camera.readout = track.readout;
    const image::PointPx rows = track.rows().perPx();
    shot.m_input.camera.rowsPerPx = {rows.x, rows.y};
    shot.m_input.options.markingSymmetry = facts.markingSymmetry;
    shot.m_input.options.sense = statedSense(track, facts.stroke);
    const bool isSmearTold = track.exposure.value.seconds > 2.0 * track.exposure.sigma.seconds;
    if (facts.exposure) {
        shot.m_input.camera.exposure = facts.exposure;
    } else if (isSmearTold) {
        shot.m_input.camera.exposure = track.exposure.value;
    }
    for (std::size_t i = 0; i < track.frames.size(); ++i) {
        const auto& ball = track.frames[i];
        if (ball.source == image::BallSource::Bridged || !(ball.radiusPx > 0.0)) {
            continue;
        }
        BOOST_OUTCOME_TRY(shot.add(track, source, i));
    }
    return shot;
}

PictureReading completeReading(image::BallTrack track, spin::fit::FitOutcome fit,
                               const timebase::ClipClock& clock, const FilmingFacts& facts) {
    PictureReading reading;
    reading.clockRelativeSigma = clock.relativeSigma();
    reading.readout = readoutPart(track, facts);
    if (facts.ballDiameter) {
        if (const auto flight = image::flightOf(track, *facts.ballDiameter)) {
            reading.flight = flight.value();
            if (const auto rate = clock.captureRate()) {
                reading.gravity = image::checkGravity(flight.value(), *rate);
            }
        }
    }
    reading.reason = reading.isClockRefuted() ? reading.gravity->statement : fit.reason;
    if (fit.status == spin::fit::FitStatus::Reading && !reading.isClockRefuted()) {
        const double clockSigma = fit.rate.value.rpm * clock.relativeSigma();
        const double readoutSigma = fit.rate.value.rpm * reading.readout.relativeSigma();
        reading.rate = Measured<Rpm>{fit.rate.value,
                                     {std::hypot(fit.rate.sigma.rpm, clockSigma, readoutSigma)}};
        reading.interval95 =
            joined(fit.rate.value, {fit.interval95, about(fit.rate.value, kNormal95 * clockSigma),
                                    readoutInterval(track, reading.readout, fit.rate.value)});
    }
    reading.track = std::move(track);
    reading.fit = std::move(fit);
    return reading;
}

Result<PictureReading> readShot(image::FrameSource& source, const timebase::ClipClock& clock,
                                image::FrameRange range,
                                const std::optional<image::FrameRange>& shot,
                                std::span<const image::BallHint> clicks, const FilmingFacts& facts,
                                std::stop_token stop, const spin::fit::FitProgress& progress) {
    BOOST_OUTCOME_TRY(first, source.small(range.first));
    auto options = trackOptions(facts, first->fullWidth, first->fullHeight);
    options.shot = shot;
    auto tracked = clicks.empty()
                       ? image::trackBall(source, clock, range, options, stop)
                       : image::trackFromClicks(source, clock, range, clicks, options, stop);
    BOOST_OUTCOME_TRY(track, std::move(tracked));
    BOOST_OUTCOME_TRY(pictures, ShotPictures::cutOut(track, source, facts));
    const auto later = [&progress](double share) {
        if (progress) {
            progress(kShare + (1.0 - kShare) * share);
        }
    };
    later(0.0);
    BOOST_OUTCOME_TRY(fit, spin::fit::fitRotation(pictures.input(), stop, later));
    // The search may end a shot a frame late.
    if (track.kink && track.kink->value < shot.value_or(range).last.value) {
        fit.warnings.push_back(image::cutAtKink(*track.kink));
    }
    return completeReading(std::move(track), std::move(fit), clock, facts);
}

}  // namespace core::reading
