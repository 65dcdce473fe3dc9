#include "core/accuracy/trial.h"

#include <fmt/format.h>
#include <ctime>

#include <algorithm>
#include <cmath>
#include <numbers>
#include <system_error>
#include <vector>

#include "core/base/words.h"
#include "core/media/frames/frame_decoder.h"
#include "core/reading/decoded_frames.h"
#include "core/reading/read_shot.h"
#include "core/shots/find_shots.h"
#include "core/timebase/clip_clock.h"

namespace core::accuracy {
namespace {

/// Processor time of this thread, which other work on the machine does not lengthen.
Seconds processorTime() {
    timespec now{};
    clock_gettime(CLOCK_THREAD_CPUTIME_ID, &now);
    return {static_cast<double>(now.tv_sec) + 1e-9 * static_cast<double>(now.tv_nsec)};
}

Seconds since(Seconds start) {
    return {processorTime().seconds - start.seconds};
}

/// Removes a film and its truth when it goes out of sight.
struct FilmFile {
    std::filesystem::path path;
    explicit FilmFile(std::filesystem::path file) : path{std::move(file)} {}
    FilmFile(const FilmFile&) = delete;
    FilmFile& operator=(const FilmFile&) = delete;
    ~FilmFile() {
        std::error_code ignored;
        std::filesystem::remove(path, ignored);
        std::filesystem::remove(std::filesystem::path{path}.replace_extension(".json"), ignored);
    }
};

double degreesBetween(const spin::fit::Vector3& read, const synthesis::Vector3& truth) {
    const double length = std::hypot(read.x, read.y, read.z);
    const double cosine =
        (read.x * truth[0] + read.y * truth[1] + read.z * truth[2]) / std::max(length, 1e-12);
    return std::acos(std::clamp(cosine, -1.0, 1.0)) * 180.0 / std::numbers::pi;
}

void compareTrack(const image::BallTrack& track, const synthesis::ShotTruth& truth, Trial& trial) {
    double squares = 0.0;
    double radii = 0.0;
    int count = 0;
    for (const auto& frame : truth.frames) {
        const auto* ball = track.find(frame.frame);
        if (ball == nullptr || !frame.isFullyInside) {
            continue;
        }
        const double dx = ball->centre.x - frame.centre.x;
        const double dy = ball->centre.y - frame.centre.y;
        squares += dx * dx + dy * dy;
        radii += ball->radiusPx / frame.radiusPx - 1.0;
        ++count;
    }
    if (count > 0) {
        trial.centreErrorPx = std::sqrt(squares / count);
        trial.radiusError = radii / count;
    }
}

void compareReading(const reading::PictureReading& reading, const synthesis::ShotTruth& truth,
                    Trial& trial) {
    compareTrack(reading.track, truth, trial);
    trial.readoutSeen = reading.track.readoutSeen;
    trial.hasKink = trial.hasKink || reading.track.kink.has_value();
    trial.framesBeyond = std::max<std::int64_t>(
        0, reading.track.frames.back().frame.value - truth.frames.back().frame.value);
    trial.isWarned = !reading.fit.warnings.empty();
    trial.isRead = reading.rate.has_value();
    trial.reason = reading.reason;
    if (!reading.rate) {
        return;
    }
    const double rpm = reading.rate->value.rpm;
    trial.relativeError = (rpm - truth.spin.rpm) / truth.spin.rpm;
    trial.relativeSigma = reading.rate->sigma.rpm / rpm;
    trial.isCovered = reading.interval95->low.rpm <= truth.spin.rpm &&
                      truth.spin.rpm <= reading.interval95->high.rpm;
    trial.axisErrorDeg = degreesBetween(reading.fit.angularVelocity, truth.axis);
}

/// Decodes everything first, so that the times are those of tracking and fitting.
Result<void> warm(reading::DecodedFrames& frames, std::int64_t count) {
    for (std::int64_t i = 0; i < count; ++i) {
        BOOST_OUTCOME_TRY(frames.frame({i}));
    }
    return ok();
}

/// A film and what a tester tells the program of it.
struct BlindFilm {
    reading::DecodedFrames& frames;
    const timebase::ClipClock& clock;
    image::TrackOptions trackOptions;
    reading::FilmingFacts facts;
    std::stop_token stop;
};

struct TimedReading {
    Result<reading::PictureReading> reading{fail(ErrorCode::NotFound, said("Nothing was read."))};
    Seconds trackTime;
    Seconds fitTime;
};

Result<TimedReading> readBlind(const BlindFilm& film, const shots::FoundShot& found) {
    TimedReading timed;
    const auto trackStart = processorTime();
    auto options = film.trackOptions;
    options.shot = found.flight;
    auto track = image::trackBall(film.frames, film.clock, found.searchRange, options, film.stop);
    timed.trackTime = since(trackStart);
    if (!track) {
        timed.reading = track.error();
        return timed;
    }
    const auto fitStart = processorTime();
    BOOST_OUTCOME_TRY(cut, reading::ShotPictures::cutOut(track.value(), film.frames, film.facts));
    BOOST_OUTCOME_TRY(fit, spin::fit::fitRotation(cut.input(), film.stop));
    timed.fitTime = since(fitStart);
    timed.reading =
        reading::completeReading(std::move(track).value(), std::move(fit), film.clock, film.facts);
    return timed;
}

std::size_t framesInCommon(const shots::FoundShot& found, const synthesis::ShotTruth& truth) {
    return static_cast<std::size_t>(
        std::count_if(truth.frames.begin(), truth.frames.end(), [&found](const auto& frame) {
            return found.flight.first <= frame.frame && frame.frame <= found.flight.last;
        }));
}

/// The found shot that is nearest in time to the true one comes first; false when none is near.
bool putTrueShotFirst(std::vector<shots::FoundShot>& found, const synthesis::ShotTruth& truth) {
    std::stable_sort(found.begin(), found.end(), [&truth](const auto& a, const auto& b) {
        return framesInCommon(a, truth) > framesInCommon(b, truth);
    });
    return !found.empty() && framesInCommon(found.front(), truth) > 0;
}

bool isWrong(const reading::PictureReading& reading, Rpm truth) {
    return reading.rate && std::abs(reading.rate->value.rpm - truth.rpm) > kBlunder * truth.rpm;
}

Result<void> readFound(const BlindFilm& film, std::vector<shots::FoundShot> found,
                       const synthesis::ShotTruth& truth, Trial& trial) {
    trial.isFound = putTrueShotFirst(found, truth);
    if (!trial.isFound) {
        trial.reason = said("The shot was not found.");
    }
    for (std::size_t i = 0; i < found.size(); ++i) {
        BOOST_OUTCOME_TRY(timed, readBlind(film, found[i]));
        if (i > 0 || !trial.isFound) {
            trial.hasFalseReading = trial.hasFalseReading ||
                                    (timed.reading && isWrong(timed.reading.value(), truth.spin));
            continue;
        }
        trial.trackTime = timed.trackTime;
        trial.fitTime = timed.fitTime;
        if (timed.reading) {
            compareReading(timed.reading.value(), truth, trial);
        } else {
            trial.reason = timed.reading.error().message;
        }
    }
    return ok();
}

Result<void> readBlind(const std::filesystem::path& file, const synthesis::RandomShot& shot,
                       Trial& trial, std::stop_token stop) {
    BOOST_OUTCOME_TRY(index, media::readClipIndex(file, stop));
    BOOST_OUTCOME_TRY(clock, timebase::ClipClock::stamped(index.stamps));
    BOOST_OUTCOME_TRY(decoder, media::FrameDecoder::open(file, index));
    reading::DecodedFrames frames{std::move(decoder), stop};
    BOOST_OUTCOME_TRY(warm(frames, index.frameCount()));
    reading::FilmingFacts facts;
    if (isReadoutTold(trial.situation)) {
        facts.readout = Seconds{shot.conditions.readoutS};
    }
    const double diameter = shot.scene.flights.front().ball.diameterM;
    facts.ballDiameter = Measured<image::Metres>{{diameter}, {0.01 * diameter}};
    BOOST_OUTCOME_TRY(first, frames.frame({0}));
    const BlindFilm film{
        frames, clock, reading::trackOptions(facts, first->width(), first->height()), facts, stop};
    const auto start = processorTime();
    BOOST_OUTCOME_TRY(found, shots::findShots(frames, clock, index.stamps, std::nullopt, stop));
    trial.findTime = since(start);
    trial.hasKink =
        std::erase_if(found, [](const shots::FoundShot& one) { return one.isAfterKink; }) > 0;
    return readFound(film, std::move(found), shot.truth, trial);
}

}  // namespace

Result<Trial> runTrial(std::uint64_t seed, Situation situation, const std::filesystem::path& folder,
                       std::stop_token stop) {
    BOOST_OUTCOME_TRY(shot, synthesis::randomShot(seed, rangesOf(situation)));
    const FilmFile film{folder / fmt::format("shot_{}.mp4", seed)};
    BOOST_OUTCOME_TRY(synthesis::makeFootage(shot.scene, shot.encoding, film.path, {}, stop));
    Trial trial;
    trial.seed = seed;
    trial.situation = situation;
    trial.conditions = shot.conditions;
    trial.truth = shot.truth.spin;
    BOOST_OUTCOME_TRY(readBlind(film.path, shot, trial, stop));
    return trial;
}

}  // namespace core::accuracy
