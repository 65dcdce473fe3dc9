#include "core/pictures/read_clip.h"

#include <utility>

namespace core::pictures {
namespace {

/// A shot that was tracked and waits for its fit.
struct TrackedShot {
    std::size_t place{};  ///< in the list of shots
    image::BallTrack track;
    ShotPictures pictures;
};

Result<TrackedShot> track(image::FrameSource& source, const timebase::ClipClock& clock,
                          const shots::FoundShot& found, const FilmingFacts& facts,
                          std::size_t place, std::stop_token stop) {
    BOOST_OUTCOME_TRY(first, source.frame(found.searchRange.first));
    BOOST_OUTCOME_TRY(ball,
                      image::trackBall(source, clock, found.searchRange,
                                       trackOptions(facts, first->width(), first->height()), stop));
    BOOST_OUTCOME_TRY(pictures, ShotPictures::cutOut(ball, source, facts));
    return TrackedShot{place, std::move(ball), std::move(pictures)};
}

}  // namespace

Result<std::vector<ShotInClip>> readClip(image::FrameSource& source,
                                         const timebase::ClipClock& clock,
                                         const timebase::FrameStamps& stamps,
                                         const std::optional<media::SoundEnvelope>& sound,
                                         const FilmingFacts& facts, std::stop_token stop) {
    BOOST_OUTCOME_TRY(found, shots::findShots(source, clock, stamps, sound, stop));
    std::vector<ShotInClip> shots;
    std::vector<TrackedShot> tracked;
    for (const auto& shot : found) {
        auto ball = track(source, clock, shot, facts, shots.size(), stop);
        if (ball) {
            tracked.push_back(std::move(ball).value());
            shots.push_back({shot, fail(ErrorCode::NotFound, "The shot was not fitted.")});
        } else if (ball.error().code == ErrorCode::Cancelled) {
            return ball.error();
        } else {
            shots.push_back({shot, ball.error()});
        }
    }
    std::vector<spin::fit::FitInput> inputs;
    inputs.reserve(tracked.size());
    for (const auto& shot : tracked) {
        inputs.push_back(shot.pictures.input());
    }
    if (inputs.empty()) {
        return shots;
    }
    BOOST_OUTCOME_TRY(fits, spin::fit::fitJointly(inputs, stop));
    for (std::size_t i = 0; i < tracked.size(); ++i) {
        shots[tracked[i].place].reading =
            completeReading(std::move(tracked[i].track), std::move(fits[i]), clock, facts);
    }
    return shots;
}

}  // namespace core::pictures
