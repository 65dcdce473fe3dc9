#include "core/plan/advice.h"

#include <fmt/format.h>

#include <cmath>
#include <set>

#include "core/base/words.h"
#include "core/stats/comparison/power.h"

namespace core::plan {
namespace {

constexpr double kSecondsPerMinute = 60.0;
constexpr double kDegreesPerTurn = 360.0;
constexpr double kWholeTolerance = 1e-9;  // rounding of a quotient

void say(Advice& advice, std::string text) {
    advice.lines.push_back({std::move(text), false});
}

void warn(Advice& advice, std::string text) {
    advice.lines.push_back({std::move(text), true});
}

std::string percent(double share) {
    return share > 0.995 ? said("more than 99 %") : fmt::format("{:.0f} %", 100.0 * share);
}

/// Few digits: what is planned with is an assumption.
std::string rpm(double value) {
    return said("{:.0f} rpm", value);
}

/// Absent when the numbers allow no answer (beyond ten million shots, for example).
std::optional<int> wholeShots(const stats::StepDesign& design) {
    const auto shots = stats::shotsForStep(design, {kAdvisedPower});
    if (!shots || shots.value() > kMaxPlannedShots) {
        return std::nullopt;
    }
    return static_cast<int>(std::ceil(shots.value() - kWholeTolerance));
}

void sayPlannedPower(const Plan& plan, const stats::StepDesign& design, Advice& advice) {
    if (plan.shotsPerCell < 2) {
        warn(advice,
             said("One shot per cell says nothing of the scatter: no difference can be tested."));
        return;
    }
    const auto power = stats::powerForStep(design, plan.shotsPerCell);
    if (!power) {
        return;
    }
    advice.powerAsPlanned = power.value();
    const auto text = said(
        "With the {} per cell that are planned, such a difference between two implements is found "
        "with a probability of {}.",
        counted(plan.shotsPerCell, "shot", "shots"), percent(power.value()));
    power.value() < kAdvisedPower ? warn(advice, text) : say(advice, text);
}

std::string scatterOrigin(const Plan& plan, bool isMeasured) {
    if (!isMeasured) {
        return said("standard deviation, assumed");
    }
    return plan.assumedScatterRpm ? said(
                                        "standard deviation, measured in this project; the {} that "
                                        "you expected are not used",
                                        rpm(*plan.assumedScatterRpm))
                                  : said("standard deviation, measured in this project");
}

/// From three shots on: with two the scatter itself is hardly known, and the curve shoots up.
std::vector<int> curveShots(int planned) {
    constexpr int kFewest = 3;
    constexpr int kLeastEnd = 18;
    constexpr int kPlaces = 15;
    const int end = std::max(kLeastEnd, 2 * planned);
    std::set<int> shots{std::max(2, planned)};
    for (int place = 0; place <= kPlaces; ++place) {
        shots.insert(kFewest + (end - kFewest) * place / kPlaces);
    }
    return {shots.begin(), shots.end()};
}

void findSmallestSteps(const Plan& plan, double scatterRpm, Advice& advice) {
    const stats::StepDesign design{0.0, scatterRpm, kAdvisedAlpha, false};
    for (const int shots : curveShots(plan.shotsPerCell)) {
        const auto step = stats::smallestStep(design, shots, {kAdvisedPower});
        if (!step) {
            continue;  // a scatter that is no number: refused where it was typed
        }
        advice.smallestSteps.push_back({shots, step.value()});
        if (shots == plan.shotsPerCell) {
            advice.smallestStepAsPlannedRpm = step.value();
            say(advice,
                said("{} per cell find differences from {} between two implements of one "
                     "hitter with a probability of {}.",
                     counted(shots, "shot", "shots"), rpm(step.value()), percent(kAdvisedPower)));
        }
    }
}

void adviseShots(const Plan& plan, const AdviceFacts& facts, Advice& advice) {
    const bool isMeasured = facts.measuredScatterRpm.has_value();
    const auto scatter = isMeasured ? facts.measuredScatterRpm : plan.assumedScatterRpm;
    if (scatter) {
        findSmallestSteps(plan, *scatter, advice);
    }
    if (!scatter || !facts.noticeableStepRpm) {
        say(advice, !facts.noticeableStepRpm
                        ? said("Set the noticeable step (the difference in spin that matters to a "
                               "player) to see how many shots it takes to find it.")
                        : said("Give the scatter you expect from shot to shot (a standard "
                               "deviation) to see how many shots it takes."));
        return;
    }
    stats::StepDesign design{*facts.noticeableStepRpm, *scatter, kAdvisedAlpha, false};
    advice.shotsForOnePair = wholeShots(design);
    if (!advice.shotsForOnePair) {
        warn(advice, said("A step of {} cannot be found in a scatter of {} with any number of "
                          "shots that can be filmed.",
                          rpm(design.step), rpm(*scatter)));
        return;
    }
    say(advice,
        said("To find a difference of {} between two implements of one hitter with a probability "
             "of {}, when single shots scatter by {} ({}), film {} per cell.",
             rpm(design.step), percent(kAdvisedPower), rpm(*scatter),
             scatterOrigin(plan, isMeasured), counted(*advice.shotsForOnePair, "shot", "shots")));
    sayPlannedPower(plan, design, advice);
    const auto count = plan.implements.size();
    if (count > 2) {
        const auto pairs = count * (count - 1) / 2;
        design.alpha = kAdvisedAlpha / static_cast<double>(pairs);
        advice.shotsForAllPairs = wholeShots(design);
        if (advice.shotsForAllPairs) {
            say(advice,
                said("{} make {}. To hold the chance of any false difference at {} over all of "
                     "them, it takes {} per cell.",
                     counted(count, "implement", "implements"), counted(pairs, "pair", "pairs"),
                     percent(kAdvisedAlpha), counted(*advice.shotsForAllPairs, "shot", "shots")));
        }
    }
}

void adviseCounting(double fps, double expectedRpm, Advice& advice) {
    const double frames = kSecondsPerMinute * fps / expectedRpm;
    const double more = std::ceil(frames - kWholeTolerance);
    const double fewer = std::max(1.0, std::floor(frames + kWholeTolerance));
    advice.countedBelowRpm = kSecondsPerMinute * fps / more;
    advice.countedAboveRpm = kSecondsPerMinute * fps / fewer;
    if (fewer < more) {
        say(advice,
            said("Counting whole frames over one turn, {} would come out as {} or {} and nothing "
                 "in between. Reading over several turns, or from the pictures, is finer.",
                 rpm(expectedRpm), rpm(*advice.countedBelowRpm), rpm(*advice.countedAboveRpm)));
    } else {
        say(advice,
            said("A turn takes a whole number of frames: counting them gives {}, and the next "
                 "values are {} and {}. The ball shows the same few orientations turn after turn.",
                 rpm(expectedRpm), rpm(kSecondsPerMinute * fps / (more + 1.0)),
                 more > 1.0 ? rpm(kSecondsPerMinute * fps / (more - 1.0)) : said("no more")));
    }
}

void adviseFrames(const Plan& plan, double fps, double expectedRpm, Advice& advice) {
    const int symmetry = symmetryOrder(plan.marking);
    advice.framesPerTurn = kSecondsPerMinute * fps / expectedRpm;
    const double looks = *advice.framesPerTurn / symmetry;
    const std::string twice = symmetry == 1
                                  ? std::string{}
                                  : " " + said(
                                              "The marking looks the same after half a turn, so "
                                              "there are only {:.1f} frames until it looks alike.",
                                              looks);
    say(advice, said("At {:g} frames per second a ball at {} turns once in {:.1f} frames.", fps,
                     rpm(expectedRpm), *advice.framesPerTurn) +
                    twice);
    const double wanted = kFewFramesPerTurn * symmetry * expectedRpm / kSecondsPerMinute;
    if (looks < kTooFewFramesPerTurn) {
        warn(advice, said("That is too few: the rate cannot be told from another one. Film with at "
                          "least {:.0f} frames per second.",
                          std::ceil(wanted)));
    } else if (looks < kFewFramesPerTurn) {
        warn(advice, said("That is few: turns are easily miscounted. {:.0f} frames per second or "
                          "more are safer.",
                          std::ceil(wanted)));
    }
    adviseCounting(fps, expectedRpm, advice);
}

void adviseBlur(double exposureSeconds, double expectedRpm, Advice& advice) {
    advice.blurDegrees = kDegreesPerTurn * expectedRpm / kSecondsPerMinute * exposureSeconds;
    const auto text = said("While the shutter is open ({:.2g} ms) the mark turns by {:.0f}°.",
                           1000.0 * exposureSeconds, *advice.blurDegrees);
    if (*advice.blurDegrees > kMuchBlurDegrees) {
        warn(advice,
             text + " " +
                 said("Above {:.0f}° it is hard to read: use {:.2g} ms or less, and more light.",
                      kMuchBlurDegrees,
                      1000.0 * kMuchBlurDegrees * kSecondsPerMinute /
                          (kDegreesPerTurn * expectedRpm)));
    } else {
        say(advice, text);
    }
}

void adviseFilming(const Plan& plan, Advice& advice) {
    const FilmingSetup& filming = plan.filming;
    if (!filming.expectedRpm || (!filming.captureFps && !filming.exposureSeconds)) {
        say(advice, said("Give the capture rate, the exposure and the spin you expect to see how "
                         "many frames a turn will have and how much the mark will blur."));
        return;
    }
    if (filming.captureFps) {
        adviseFrames(plan, *filming.captureFps, *filming.expectedRpm, advice);
    }
    if (filming.exposureSeconds) {
        if (filming.captureFps && *filming.exposureSeconds * *filming.captureFps > 1.0) {
            warn(advice, said("The exposure is longer than a frame: check the two numbers."));
        }
        adviseBlur(*filming.exposureSeconds, *filming.expectedRpm, advice);
    }
}

}  // namespace

Advice adviceFor(const Plan& plan, const AdviceFacts& facts) {
    Advice advice;
    adviseShots(plan, facts, advice);
    adviseFilming(plan, advice);
    return advice;
}

}  // namespace core::plan
