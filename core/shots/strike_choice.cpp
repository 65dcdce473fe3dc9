#include "core/shots/strike_choice.h"

#include <algorithm>
#include <cmath>

namespace core::shots {

namespace {

constexpr double kPlaceFrames = 2.0;  // of flight: how well a hitter's place is kept and learnt
constexpr double kElsewhere = 0.05;   // weight of a sound that leads to another place
const double kNearEnough = std::exp(-2.0);  // two deviations of the place
constexpr std::size_t kMinFlights = 3;
constexpr double kMinAgreement = 0.6;  // of the flights

struct Candidate {
    Seconds time;
    double strength{};
    double placePx{};  ///< across the picture, of the ball when it was struck at this sound
};

struct Heard {
    std::vector<Candidate> candidates;
    double stepPx{};     ///< way in a frame at first sight, signed
    double strongest{};  ///< of the candidates
    bool isUsualWay{};
};

Heard soundsAbout(const ContainerTime& time, const timebase::ClipClock& clock,
                  const SeenFlight& flight, const std::vector<SoundRise>& rises) {
    const std::int64_t first = flight.range.first.value;
    const Seconds seen = clock.captureSeconds({first});
    const double interval = clock.captureSeconds({first + 1}).seconds - seen.seconds;
    Heard heard;
    heard.stepPx = flight.path.velocityAt(seen).x * interval;
    const double from = time.seconds(first) - kUnseenSeconds;
    const double to = time.seconds(first) + kSoundLateSeconds;
    for (const SoundRise& rise : rises) {
        if (rise.time.seconds >= from && rise.time.seconds <= to) {
            const double back = time.framesBetween(rise.time, first);
            heard.candidates.push_back(
                {rise.time, rise.strength, flight.path.centreAt(seen).x - heard.stepPx * back});
            heard.strongest = std::max(heard.strongest, rise.strength);
        }
    }
    return heard;
}

double nearness(const Candidate& candidate, const Heard& heard, double placePx) {
    const double frames = (candidate.placePx - placePx) / (kPlaceFrames * heard.stepPx);
    return std::exp(-0.5 * frames * frames);
}

/// How many flights, about, were struck there.
double agreement(const std::vector<Heard>& all, double placePx) {
    double sum = 0.0;
    for (const Heard& heard : all) {
        double best = 0.0;
        for (const Candidate& candidate : heard.candidates) {
            best = std::max(
                best, candidate.strength / heard.strongest * nearness(candidate, heard, placePx));
        }
        sum += heard.isUsualWay ? best : 0.0;
    }
    return sum;
}

std::optional<double> hittersPlace(const std::vector<Heard>& all) {
    const auto flights =
        static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [](const Heard& heard) {
            return heard.isUsualWay && !heard.candidates.empty();
        }));
    if (flights < kMinFlights) {
        return std::nullopt;
    }
    std::optional<double> place;
    double best =
        std::max(static_cast<double>(kMinFlights), kMinAgreement * static_cast<double>(flights)) -
        0.5;
    for (const Heard& heard : all) {
        for (const Candidate& candidate : heard.candidates) {
            const double agreed = agreement(all, candidate.placePx);
            if (heard.isUsualWay && agreed > best) {
                best = agreed;
                place = candidate.placePx;
            }
        }
    }
    return place;
}

}  // namespace

std::vector<std::optional<StrikeSound>> chooseStrikeSounds(const ContainerTime& time,
                                                           const timebase::ClipClock& clock,
                                                           const std::vector<SeenFlight>& flights,
                                                           const std::vector<SoundRise>& rises,
                                                           double usualDirection) {
    std::vector<Heard> all;
    for (const SeenFlight& flight : flights) {
        all.push_back(soundsAbout(time, clock, flight, rises));
        all.back().isUsualWay = usualDirection * flight.directionX() > 0.0;
    }
    const auto place = hittersPlace(all);
    std::vector<std::optional<StrikeSound>> chosen;
    for (const Heard& heard : all) {
        const bool isPlaceKnown = place.has_value() && heard.isUsualWay;
        double best = 0.0;
        chosen.emplace_back();
        for (const Candidate& candidate : heard.candidates) {
            const double near = isPlaceKnown ? nearness(candidate, heard, *place) : 0.0;
            const double weight = candidate.strength * (isPlaceKnown ? kElsewhere + near : 1.0);
            if (weight > best) {
                best = weight;
                chosen.back() = StrikeSound{candidate.time, near > kNearEnough};
            }
        }
    }
    return chosen;
}

}  // namespace core::shots
