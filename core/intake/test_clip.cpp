#include "core/intake/test_clip.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <optional>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/clip_shots.h"
#include "core/plan/sheet.h"
#include "core/reading/target_conditions.h"
#include "core/report/number_format.h"
#include "core/stats/sample/sample_summary.h"

namespace core::intake {
namespace {

using reading::PictureReading;
using Kind = TestPoint::Kind;
using Verdict = TestPoint::Verdict;

struct PointNames {
    std::string_view name;
    std::string_view title;
};

constexpr std::array<PointNames, 12> kPointNames{{{"shots", toSay("Shots")},
                                                  {"ball_size", toSay("Ball across")},
                                                  {"frames_in_view", toSay("Frames in view")},
                                                  {"turns_in_view", toSay("Turns in view")},
                                                  {"spin_limit", toSay("Highest readable spin")},
                                                  {"blur", toSay("Blur")},
                                                  {"light", toSay("Light")},
                                                  {"squareness", toSay("Square to the flight")},
                                                  {"capture_rate", toSay("Capture rate")},
                                                  {"readout", toSay("Shutter readout")},
                                                  {"sound", toSay("Sound")},
                                                  {"uncertainty", toSay("Uncertainty")}}};

/// The shots of the implement whose ball was followed; of those, whose rotation was found.
struct SeenShots {
    std::vector<const PictureReading*> tracked;
    std::vector<const PictureReading*> turning;
    std::size_t found{};
    std::size_t read{};
    std::string firstReason;  ///< why a shot has no reading
};

SeenShots seenShots(const FilmReading& film) {
    SeenShots seen;
    for (const FilmShot& shot : film.shots) {
        if (isFlightAfterKink(shot.shot)) {
            continue;
        }
        ++seen.found;
        std::string reason;
        if (!shot.reading) {
            reason = shot.reading.error().message;
        } else {
            const PictureReading& reading = shot.reading.value();
            reason = saidKept(reading.reason);
            seen.read += reading.rate ? 1U : 0U;
            seen.tracked.push_back(&reading);
            if (reading.fit.status == spin::fit::FitStatus::Reading) {
                seen.turning.push_back(&reading);
            }
        }
        if (seen.firstReason.empty()) {
            seen.firstReason = reason;
        }
    }
    return seen;
}

template <class Value>
std::optional<double> medianOf(const std::vector<const PictureReading*>& shots, Value value) {
    if (shots.empty()) {
        return std::nullopt;
    }
    std::vector<double> values;
    for (const PictureReading* shot : shots) {
        values.push_back(value(*shot));
    }
    return stats::median(values);
}

/// Two limits of a number that had better be large: good from the one, to be changed below the
/// other.
Verdict verdictFrom(double value, double good, double change) {
    return value >= good ? Verdict::Good : value < change ? Verdict::Change : Verdict::Check;
}

/// The same for one that had better be small.
Verdict verdictUpTo(double value, double good, double change) {
    return value <= good ? Verdict::Good : value > change ? Verdict::Change : Verdict::Check;
}

TestPoint point(Kind kind, Verdict verdict, std::string value, std::string advice) {
    return {kind, verdict, std::move(value),
            verdict == Verdict::Good ? std::string{} : std::move(advice)};
}

TestPoint notSeen(Kind kind) {
    return {kind, Verdict::Check, said("not seen"),
            said("No shot shows it: mend the other points first.")};
}

TestPoint judgeShots(const SeenShots& seen) {
    if (seen.found == 0) {
        return point(Kind::Shots, Verdict::Change, said("no ball in flight was found"),
                     said("Keep the camera still, have the whole flight in the picture and a plain "
                          "background behind it, and strike at least three balls."));
    }
    const std::string value = said("{} found, {} read", seen.found, seen.read);
    if (seen.read == seen.found) {
        return point(Kind::Shots, seen.found < 3 ? Verdict::Check : Verdict::Good, value,
                     said("Strike at least three balls: one or two can come out well by chance."));
    }
    return point(Kind::Shots, 2 * seen.read < seen.found ? Verdict::Change : Verdict::Check, value,
                 seen.firstReason);
}

double widthPx(const PictureReading& shot) {
    std::vector<double> widths;
    for (const auto& ball : shot.track.frames) {
        widths.push_back(2.0 * ball.radiusPx);
    }
    return stats::median(widths);
}

TestPoint judgeBallSize(const SeenShots& seen) {
    const auto width = medianOf(seen.tracked, widthPx);
    if (!width) {
        return notSeen(Kind::BallSize);
    }
    return point(Kind::BallSize, verdictFrom(*width, reading::kTargetBallPx, 25.0),
                 said("{:.0f} px", *width),
                 said("Film from nearer, or zoom in, until the ball is at least {:g} px across.",
                      reading::kTargetBallPx));
}

double measuredFrames(const PictureReading& shot) {
    return static_cast<double>(shot.track.measuredCount());
}

TestPoint judgeFramesInView(const SeenShots& seen) {
    const auto frames = medianOf(seen.tracked, measuredFrames);
    if (!frames) {
        return notSeen(Kind::FramesInView);
    }
    return point(
        Kind::FramesInView, verdictFrom(*frames, static_cast<double>(reading::kTargetFrames), 6.0),
        said("{:g} a shot", *frames),
        said("Show more of the flight: turn the camera along it or go further back, or film at "
             "a higher frame rate."));
}

TestPoint judgeTurnsInView(const SeenShots& seen) {
    const auto turns = medianOf(seen.turning, [](const PictureReading& shot) {
        return shot.fit.turnsPerFrame * (measuredFrames(shot) - 1.0);
    });
    if (!turns) {
        return notSeen(Kind::TurnsInView);
    }
    return point(Kind::TurnsInView, verdictFrom(*turns, 1.0, 0.4),
                 words::decimal(fmt::format("{:.1f}", *turns)),
                 said("Show more of the flight, so that the ball turns once or more in view."));
}

TestPoint judgeSpinLimit(const FilmReading& film, const SeenShots& seen) {
    const auto turnsPerFrame =
        medianOf(seen.turning, [](const PictureReading& shot) { return shot.fit.turnsPerFrame; });
    if (!film.captureRate) {
        return notSeen(Kind::SpinLimit);
    }
    constexpr double kSecondsPerMinute = 60.0;
    const double limitRpm = 0.5 * kSecondsPerMinute * film.captureRate->fps.toDouble();
    const std::string advice = said(
        "Film at a higher frame rate: beyond this spin a slower one, turning the other way, looks "
        "the same.");
    if (turnsPerFrame) {
        return point(Kind::SpinLimit, verdictUpTo(*turnsPerFrame, 1.0 / 3.0, 0.45),
                     said("{:.0f} rpm; here {:.1f} frames a turn", limitRpm, 1.0 / *turnsPerFrame),
                     advice);
    }
    return point(Kind::SpinLimit, verdictFrom(limitRpm, 3600.0, 1800.0),
                 said("{:.0f} rpm", limitRpm), advice);
}

TestPoint judgeBlur(const SeenShots& seen) {
    const std::string advice =
        said("Film with a shorter exposure (1/1000 s or less), which needs more light.");
    const auto degrees =
        medianOf(seen.turning, [](const PictureReading& shot) { return shot.fit.smearDegrees; });
    const auto widths = medianOf(seen.tracked, [](const PictureReading& shot) {
        const auto& ball = shot.track.frames[shot.track.frames.size() / 2];
        return std::hypot(ball.smear.x, ball.smear.y) / (2.0 * ball.radiusPx);
    });
    if (!widths) {
        return notSeen(Kind::Blur);
    }
    std::string value = said("{:.2f} ball widths", *widths);
    Verdict verdict = verdictUpTo(*widths, 0.5, 0.9);
    if (degrees) {
        value = said("{:.0f}° of turn, {}", *degrees, value);
        verdict = std::max(verdict, verdictUpTo(*degrees, reading::kTargetExposureTurnDeg, 45.0));
    }
    return point(Kind::Blur, verdict, value, advice);
}

/// Standard deviation of the marking over the ball's surface, by Parseval's theorem on the sphere.
double contrastOf(const spin::fit::SurfacePattern& pattern) {
    double power = 0.0;
    for (const auto& colour : pattern.redGreenBlue) {
        for (std::size_t i = 1; i < colour.size(); ++i) {  // the first one is the mean
            power += colour[i] * colour[i];
        }
    }
    return std::sqrt(power / (3.0 * 4.0 * std::numbers::pi));
}

TestPoint judgeLight(const SeenShots& seen) {
    const auto ratio = medianOf(seen.turning, [](const PictureReading& shot) {
        return contrastOf(shot.fit.pattern) / std::max(shot.fit.residualRms, 1e-3);
    });
    if (!ratio) {
        return notSeen(Kind::Light);
    }
    return point(
        Kind::Light, verdictFrom(*ratio, 1.5, 0.8),
        said("the marking is {:.1f} times as strong as the noise", *ratio),
        said("Bring more light to the ball, or mark it darker or brighter: noise comes near "
             "the marking."));
}

TestPoint judgeSquareness(const SeenShots& seen) {
    const auto growth = medianOf(seen.tracked, [](const PictureReading& shot) {
        const double ratio = shot.track.frames.back().radiusPx / shot.track.frames.front().radiusPx;
        return std::max(ratio, 1.0 / ratio);
    });
    if (!growth) {
        return notSeen(Kind::Squareness);
    }
    return point(
        Kind::Squareness, verdictUpTo(*growth, 1.3, 2.0),
        said("the ball changes its size by a factor of {:.2f}", *growth),
        said("Stand square to the flight, so that the ball comes neither nearer nor goes away."));
}

TestPoint judgeCaptureRate(const FilmReading& film, const SeenShots& seen,
                           const project::Session& session) {
    if (!film.captureRate) {
        return point(Kind::CaptureRate, Verdict::Change, said("not known"),
                     said("State the capture rate as the camera's manual gives it."));
    }
    const auto* evidence = timebase::decidingEvidence(film.clip.evidence);
    const std::string value =
        said("{:.6g} frames per second: {}", film.captureRate->fps.toDouble(),
             evidence != nullptr ? timebase::describe(*evidence)
                                 : said("the file's own speed, nothing else states it."));
    for (const PictureReading* shot : seen.tracked) {
        if (shot->isClockRefuted()) {
            return point(
                Kind::CaptureRate, Verdict::Change, value,
                saidKept(shot->gravity->statement) + ' ' +
                    said("Copy the original from the camera, not an edited export, or state "
                         "the true rate."));
        }
    }
    if (std::any_of(seen.tracked.begin(), seen.tracked.end(), [](const PictureReading* shot) {
            return shot->gravity && shot->gravity->kind == image::GravityVerdict::Kind::Fits;
        })) {
        return point(Kind::CaptureRate, Verdict::Good,
                     value + ' ' + said("The ball falls as it must."), {});
    }
    return point(
        Kind::CaptureRate, Verdict::Check, value,
        session.ballDiameterMm
            ? said("The flights are too short or too level to check it by the ball's fall: "
                   "film something of known rate with these settings (a clock check).")
            : said("State the ball's diameter, so that the ball's fall can check it."));
}

TestPoint judgeReadout(const SeenShots& seen) {
    if (seen.turning.empty()) {
        return notSeen(Kind::Readout);
    }
    constexpr double kMsPerS = 1000.0;
    const auto& widest = **std::max_element(seen.turning.begin(), seen.turning.end(),
                                            [](const PictureReading* a, const PictureReading* b) {
                                                return std::abs(a->readout.relativeSigma()) <
                                                       std::abs(b->readout.relativeSigma());
                                            });
    const auto& part = widest.readout;
    const double share = 100.0 * std::abs(part.relativeSigma());
    const std::string value =
        part.source == reading::ReadoutSource::Stated
            ? said("{:g} ms, as stated", kMsPerS * part.readout.mean.seconds)
            : said("{} ms by the ball's outline; at most {:.2f} % of the spin",
                   report::plusMinus(kMsPerS * part.readout.mean.seconds,
                                     kMsPerS * part.readout.sigma.seconds),
                   share);
    return point(
        Kind::Readout, verdictUpTo(share, 0.3, 2.0), value,
        said("Keep the flight level in the picture, or state the readout time of the camera in "
             "this mode."));
}

TestPoint judgeSound(const FilmReading& film) {
    // Many cameras record none at a high frame rate, and shots are found all the same.
    return point(Kind::Sound, Verdict::Good,
                 film.clip.hasSound ? said("recorded: shows the frame of a strike")
                                    : said("none: shots are found by movement alone"),
                 {});
}

TestPoint judgeUncertainty(const SeenShots& seen) {
    std::vector<const PictureReading*> read;
    std::copy_if(seen.tracked.begin(), seen.tracked.end(), std::back_inserter(read),
                 [](const PictureReading* shot) { return shot->rate.has_value(); });
    const auto relative = medianOf(read, [](const PictureReading& shot) {
        return shot.rate->sigma.rpm / shot.rate->value.rpm;
    });
    if (!relative) {
        return {
            Kind::Uncertainty, Verdict::Change, said("no reading"),
            said("Nothing could be read: change what is named above and film another test clip.")};
    }
    const auto rate =
        medianOf(read, [](const PictureReading& shot) { return shot.rate->value.rpm; });
    const auto decimals = report::decimalsFor(*relative * *rate).value_or(0);
    return point(Kind::Uncertainty, verdictUpTo(*relative, 0.01, 0.03),
                 said("{} rpm at {:.0f} rpm ({:.2f} %) a shot",
                      report::fixed(*relative * *rate, decimals), *rate, 100.0 * *relative),
                 said("The points above say what widens it."));
}

}  // namespace

std::string_view nameOf(TestPoint::Kind kind) noexcept {
    return kPointNames.at(static_cast<std::size_t>(kind)).name;
}

std::string_view titleOf(TestPoint::Kind kind) {
    return words::inLanguage(kPointNames.at(static_cast<std::size_t>(kind)).title);
}

std::string_view nameOf(TestPoint::Verdict verdict) noexcept {
    switch (verdict) {
        case Verdict::Good:
            return toSay("good");
        case Verdict::Check:
            return toSay("check");
        case Verdict::Change:
            break;
    }
    return toSay("change");
}

Verdict TestClip::verdict() const noexcept {
    Verdict worst = Verdict::Good;
    for (const TestPoint& each : points) {
        worst = std::max(worst, each.verdict);
    }
    return worst;
}

std::string verdictSentence(const TestClip& clip) {
    switch (clip.verdict()) {
        case Verdict::Good:
            return said("Good to film like this.");
        case Verdict::Check:
            return said("Good to film once the points to check are settled.");
        case Verdict::Change:
            break;
    }
    return said("Do not film like this: change the points below and film another test clip.");
}

Result<std::string> testClipPdf(const std::string& film, const TestClip& clip) {
    plan::Sheet sheet{said("Test clip: {}", film), verdictSentence(clip), {}, {}};
    for (const TestPoint& each : clip.points) {
        sheet.rows.push_back({saidText(nameOf(each.verdict)), std::string{titleOf(each.kind)},
                              each.value, each.advice});
    }
    return plan::sheetPdf(sheet);
}

TestClip judgeTestClip(const FilmReading& film, const project::Session& session) {
    const SeenShots seen = seenShots(film);
    return {{judgeShots(seen), judgeBallSize(seen), judgeFramesInView(seen), judgeTurnsInView(seen),
             judgeSpinLimit(film, seen), judgeBlur(seen), judgeLight(seen), judgeSquareness(seen),
             judgeCaptureRate(film, seen, session), judgeReadout(seen), judgeSound(film),
             judgeUncertainty(seen)}};
}

}  // namespace core::intake
