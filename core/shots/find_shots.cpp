#include "core/shots/find_shots.h"

#include <algorithm>
#include <cmath>

#include "core/base/words.h"
#include "core/image/track_ball.h"
#include "core/shots/container_time.h"
#include "core/shots/flight_search.h"
#include "core/shots/recent_frames.h"
#include "core/shots/sound_onsets.h"
#include "core/shots/strike_choice.h"

namespace core::shots {

namespace {

constexpr std::int64_t kFramesBeforeSound = 20;
constexpr std::int64_t kFramesAfterSound = 50;
constexpr std::size_t kFramesKept = 88;  // one window of the search and a little more
constexpr std::int64_t kBackgroundBefore = 12;
constexpr std::int64_t kBackgroundAfter = 8;
constexpr std::int64_t kMostUnseenFrames = 20;
constexpr double kSoundTravelSeconds = 0.005;  // from a strike 1 to 3 m away: 3 to 9 ms
constexpr double kHalfScore = 2.0;             // score at which confidence is one half
constexpr double kHeardDoubt = 1.0 / 3.0;      // doubt that is left when the strike is heard
constexpr double kUnheardTrust = 0.75;
constexpr double kWrongWayTrust = 0.6;
constexpr double kMinConfidence = 0.5;

std::vector<image::FrameRange> aroundOnsets(const ContainerTime& time,
                                            const std::vector<SoundOnset>& onsets) {
    std::vector<image::FrameRange> ranges;
    for (const SoundOnset& onset : onsets) {
        const std::int64_t at = time.firstFrom(onset.time);
        const auto range = time.clamped(at - kFramesBeforeSound, at + kFramesAfterSound);
        if (!ranges.empty() && range.first <= ranges.back().last) {
            ranges.back().last = range.last;
        } else {
            ranges.push_back(range);
        }
    }
    return ranges;
}

std::optional<SoundOnset> loudestAbout(const ContainerTime& time, const SeenFlight& flight,
                                       const std::vector<SoundOnset>& onsets) {
    const double first = time.seconds(flight.range.first.value);
    std::optional<SoundOnset> best;
    for (const SoundOnset& onset : onsets) {
        const bool isNear = onset.time.seconds >= first - kUnseenSeconds &&
                            onset.time.seconds <= first + kSoundLateSeconds;
        if (isNear && (!best || onset.prominence > best->prominence)) {
            best = onset;
        }
    }
    return best;
}

double usualDirection(const std::vector<SeenFlight>& flights) {
    double sum = 0.0;
    for (const SeenFlight& flight : flights) {
        sum += flight.isAfterKink ? 0.0 : std::copysign(flight.path.score, flight.directionX());
    }
    return sum;
}

// Without a sound: the first frame in which the fitted path still shows a ball, for at first it may
// be seen against the hitter, where it makes no blob of its own.
struct Sight {
    timebase::FrameIndex strike;
    image::FrameRange seen;  ///< in which the path shows a ball
};

Result<Sight> sightOf(image::FrameSource& source, const SeenFlight& flight,
                      const std::stop_token& stop) {
    const image::TrackOptions options{.focalPx = {}, .readout = {}, .shot = flight.range};
    const auto found = image::framesWithBall(source, *flight.window, options, stop);
    if (!found) {
        if (found.error().code == ErrorCode::Cancelled) {
            return fail(found.error().code, found.error().message);
        }
        return Sight{flight.range.first, flight.range};
    }
    const image::FrameRange seen = found.value();
    const bool isBefore = seen.first < flight.range.first &&
                          flight.range.first.value - seen.first.value <= kMostUnseenFrames;
    return Sight{isBefore ? seen.first : flight.range.first, seen};
}

std::int64_t framesInBoth(const image::FrameRange& a, const image::FrameRange& b) {
    return std::max<std::int64_t>(
        0, std::min(a.last, b.last).value - std::max(a.first, b.first).value + 1);
}

/// A shot and the flight that tells of it.
struct ToldShot {
    FoundShot shot;
    const SeenFlight* flight{};
};

/// Whether what was followed from one shot is the ball of another: a limb that moved just before
/// the strike leads to the ball that is struck then, and half a flight to the other half.
bool isOfAnother(const image::FrameRange& seen, const FoundShot& own,
                 const std::vector<ToldShot>& shots) {
    return std::any_of(shots.begin(), shots.end(), [&](const ToldShot& told) {
        const FoundShot& other = told.shot;
        const std::int64_t shared = framesInBoth(seen, other.flight);
        return other.flight.first != own.flight.first && other.confidence > own.confidence &&
               (shared > framesInBoth(seen, own.flight) || 2 * shared > other.flight.count());
    });
}

// The strike is not after its sound and not after the first sight of the flying ball.
FoundShot describe(const ContainerTime& time, const SeenFlight& flight,
                   const std::vector<SoundOnset>& onsets,
                   const std::optional<StrikeSound>& strikeSound, double direction) {
    FoundShot shot;
    shot.flight = flight.range;
    shot.strike = flight.range.first;
    shot.searchRange = time.clamped(flight.range.first.value - kBackgroundBefore,
                                    flight.range.last.value + kBackgroundAfter);
    shot.confidence = flight.path.score / (flight.path.score + kHalfScore);
    const auto loudest = loudestAbout(time, flight, onsets);
    if (loudest || (strikeSound && strikeSound->leadsToHitter)) {
        const Seconds heard = strikeSound ? strikeSound->time : loudest->time;
        shot.strike = {
            std::min(shot.strike.value, time.firstFrom({heard.seconds - kSoundTravelSeconds}))};
    }
    if (loudest) {
        shot.isHeard = true;
        shot.confidence = 1.0 - kHeardDoubt * (1.0 - shot.confidence);
    } else if (!onsets.empty()) {
        shot.confidence *= kUnheardTrust;
    }
    if (direction * flight.directionX() < 0.0) {
        shot.confidence *= kWrongWayTrust;
    }
    return shot;
}

/// The shots and, each behind its own, the flights that go on from them.
std::vector<ToldShot> shotsOf(const ContainerTime& time, const timebase::ClipClock& clock,
                              const std::vector<SeenFlight>& flights,
                              const std::vector<SoundOnset>& onsets,
                              const std::vector<SoundRise>& rises) {
    const double direction = usualDirection(flights);
    const auto strikeSounds = chooseStrikeSounds(time, clock, flights, rises, direction);
    std::vector<ToldShot> shots;
    for (std::size_t i = 0; i < flights.size(); ++i) {
        FoundShot shot = describe(time, flights[i], onsets, strikeSounds[i], direction);
        bool isKept = shot.confidence >= kMinConfidence;
        if (flights[i].isAfterKink) {
            shot.strike = shot.flight.first;
            shot.isHeard = false;
            shot.isAfterKink = true;
        } else {
            // A flight that goes on is one, however short it is until then.
            for (std::size_t k = i + 1; k < flights.size() && flights[k].isAfterKink; ++k) {
                const double score = flights[k].path.score;
                shot.confidence = std::max(shot.confidence, score / (score + kHalfScore));
            }
            isKept = shot.confidence >= kMinConfidence;
        }
        if (isKept) {
            shots.push_back({shot, &flights[i]});
        }
    }
    return shots;
}

}  // namespace

Result<std::vector<FoundShot>> findShots(image::FrameSource& source,
                                         const timebase::ClipClock& clock,
                                         const timebase::FrameStamps& stamps,
                                         const std::optional<media::SoundEnvelope>& sound,
                                         std::stop_token stop) {
    const ContainerTime time(stamps);
    if (time.count() != clock.frameCount() || time.count() == 0) {
        return fail(ErrorCode::InvalidInput,
                    said("The clip's clock and its time stamps count different numbers of frames. "
                         "Take the clip in again."));
    }
    RecentFrames recent(source, kFramesKept);
    const std::vector<SoundOnset> onsets = sound ? findOnsets(*sound) : std::vector<SoundOnset>{};
    std::vector<SeenFlight> flights;
    if (!onsets.empty()) {
        BOOST_OUTCOME_TRY(found, searchFlights(recent, clock, aroundOnsets(time, onsets), stop));
        flights = std::move(found);
    }
    if (flights.empty()) {
        BOOST_OUTCOME_TRY(found,
                          searchFlights(recent, clock, {time.clamped(0, time.count() - 1)}, stop));
        flights = std::move(found);
    }
    const std::vector<ToldShot> shots =
        shotsOf(time, clock, flights, onsets, sound ? findRises(*sound) : std::vector<SoundRise>{});
    std::vector<FoundShot> own;
    for (const ToldShot& told : shots) {
        FoundShot shot = told.shot;
        if (!shot.isHeard && !shot.isAfterKink) {
            BOOST_OUTCOME_TRY(sight, sightOf(recent, *told.flight, stop));
            if (isOfAnother(sight.seen, shot, shots)) {
                continue;
            }
            shot.strike = std::min(shot.strike, sight.strike);
        }
        own.push_back(shot);
    }
    return own;
}

}  // namespace core::shots
