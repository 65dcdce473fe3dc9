#include "core/accuracy/accuracy_table.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <limits>

#include "core/base/words.h"
#include "core/reading/target_conditions.h"
#include "core/synthesis/truth.h"

namespace core::accuracy {
namespace {

constexpr double kNone = std::numeric_limits<double>::quiet_NaN();

using Condition = std::function<bool(const Trial&)>;

/// Linear between order statistics (type 7 of Hyndman & Fan 1996).
double quantile(std::vector<double> values, double share) {
    if (values.empty()) {
        return kNone;
    }
    std::sort(values.begin(), values.end());
    const double at = share * static_cast<double>(values.size() - 1);
    const auto below = static_cast<std::size_t>(at);
    const auto above = std::min(below + 1, values.size() - 1);
    return values[below] + (at - std::floor(at)) * (values[above] - values[below]);
}

double share(std::size_t part, std::size_t whole) {
    return whole == 0 ? kNone : static_cast<double>(part) / static_cast<double>(whole);
}

/// What is gathered of a group of trials.
struct Gathered {
    std::vector<double> errors, axes, times;
    std::size_t covered{}, blunders{}, silent{}, kinks{};
    double zSquares{};

    void add(const Trial& trial) {
        if (trial.isFound) {
            times.push_back(trial.trackTime.seconds + trial.fitTime.seconds);
        }
        kinks += trial.hasKink ? 1U : 0U;
        bool isBlunder = trial.hasFalseReading;
        bool isSilent = trial.hasFalseReading;
        if (trial.isRead) {
            addReading(trial);
            const bool isOff = errors.back() > kBlunder;
            isBlunder = isBlunder || isOff;
            isSilent = isSilent || (isOff && !trial.isWarned);
        }
        blunders += isBlunder ? 1U : 0U;
        silent += isSilent ? 1U : 0U;
    }

private:
    void addReading(const Trial& trial) {
        errors.push_back(std::abs(trial.relativeError));
        axes.push_back(trial.axisErrorDeg);
        covered += trial.isCovered ? 1U : 0U;
        // The error is relative to the truth, the uncertainty to what was read.
        const double z = trial.relativeError / ((1.0 + trial.relativeError) * trial.relativeSigma);
        zSquares += z * z;
    }
};

AccuracyRow rowOf(std::string name, std::span<const Trial> trials, const Condition& belongs) {
    AccuracyRow row;
    row.name = std::move(name);
    Gathered all;
    for (const auto& trial : trials) {
        if (belongs(trial)) {
            ++row.trials;
            all.add(trial);
        }
    }
    row.readings = all.errors.size();
    row.medianError = quantile(all.errors, 0.5);
    row.error90 = quantile(all.errors, 0.9);
    row.medianAxisDeg = quantile(all.axes, 0.5);
    row.axis90Deg = quantile(all.axes, 0.9);
    row.noReading = share(row.trials - row.readings, row.trials);
    row.blunders = share(all.blunders, row.trials);
    row.silentBlunders = share(all.silent, row.trials);
    row.coverage = share(all.covered, row.readings);
    row.rmsZ =
        row.readings == 0 ? kNone : std::sqrt(all.zSquares / static_cast<double>(row.readings));
    row.kinks = share(all.kinks, row.trials);
    row.medianTime = Seconds{quantile(all.times, 0.5)};
    return row;
}

struct NamedCondition {
    std::string name;
    Condition belongs;
};

std::vector<NamedCondition> conditions() {
    using synthesis::Marking;
    std::vector<NamedCondition> all;
    for (const Marking marking :
         {Marking::ThreeQuartersDark, Marking::HalfDark, Marking::BandWithDot,
          Marking::SeamWithBlob, Marking::SeamWithPrint}) {
        all.push_back({synthesis::markingName(marking), [marking](const Trial& trial) {
                           return trial.conditions.marking == marking;
                       }});
    }
    const auto add = [&all](std::string name, Condition belongs) {
        all.push_back({std::move(name), std::move(belongs)});
    };
    add(said("120 frames a second"),
        [](const Trial& t) { return t.conditions.captureFps < 180.0; });
    add(said("240 frames a second"),
        [](const Trial& t) { return t.conditions.captureFps >= 180.0; });
    add(said("ball below 45 px"),
        [](const Trial& t) { return t.conditions.ballDiameterPx < 45.0; });
    add(said("ball 45 px and more"),
        [](const Trial& t) { return t.conditions.ballDiameterPx >= 45.0; });
    add(said("axis within 45° of the line of sight"),
        [](const Trial& t) { return t.conditions.axisToCameraDeg < 45.0; });
    add(said("axis more across"),
        [](const Trial& t) { return t.conditions.axisToCameraDeg >= 45.0; });
    add(said("under 6 frames a turn"),
        [](const Trial& t) { return t.conditions.framesPerTurn < 6.0; });
    add(said("6 frames a turn and more"),
        [](const Trial& t) { return t.conditions.framesPerTurn >= 6.0; });
    add(said("rolling shutter"), [](const Trial& t) { return t.conditions.readoutS > 0.0; });
    add(said("hand-held"), [](const Trial& t) { return t.conditions.isHandHeld; });
    add(said("a person in view"), [](const Trial& t) { return t.conditions.hasFigure; });
    add(said("quality 24 and worse"),
        [](const Trial& t) { return t.conditions.constantQuality >= 24; });
    return all;
}

std::string decimal(double value) {
    return words::decimal(fmt::format("{:.2f}", value));
}

std::string percent(double value) {
    return std::isfinite(value) ? decimal(100.0 * value) : "–";
}

}  // namespace

bool isOfTheTarget(const Trial& trial) noexcept {
    return trial.conditions.ballDiameterPx >= reading::kTargetBallPx &&
           trial.conditions.framesFullyInside >= reading::kTargetFrames &&
           trial.conditions.exposureTurnDeg <= reading::kTargetExposureTurnDeg;
}

std::vector<AccuracyRow> accuracyRows(std::span<const Trial> trials) {
    std::vector<AccuracyRow> rows;
    const auto isUsual = [](const Trial& trial) { return trial.situation == Situation::Usual; };
    const auto isTarget = [&](const Trial& trial) {
        return isUsual(trial) && isOfTheTarget(trial);
    };
    rows.push_back(rowOf(said("all shots"), trials, isUsual));
    rows.push_back(rowOf(said("ball ≥ 30 px, ≥ 8 frames, exposure ≤ 30°"), trials, isTarget));
    for (const auto& condition : conditions()) {
        rows.push_back(rowOf("  " + condition.name, trials, [&](const Trial& trial) {
            return isTarget(trial) && condition.belongs(trial);
        }));
    }
    for (const Situation situation : kFurtherSituations) {
        auto row = rowOf(situationTitle(situation), trials, [situation](const Trial& trial) {
            return trial.situation == situation &&
                   (isReadoutTold(situation) || isOfTheTarget(trial));
        });
        if (row.trials > 0) {
            rows.push_back(std::move(row));
        }
    }
    return rows;
}

std::string accuracyText(std::span<const AccuracyRow> rows) {
    std::string text = fmt::format(
        "{:<42}{:>6}{:>8}{:>8}{:>8}{:>8}{:>9}{:>9}{:>9}{:>10}{:>7}{:>8}{:>8}\n",
        said("percent unless said"), said("shots"), said("median"), said("90th"), said("axis °"),
        said("90th °"), said("no read"), said("off > 5"), said("unwarned"), said("coverage"),
        said("rms z"), said("kinks"), said("time s"));
    for (const auto& row : rows) {
        text +=
            fmt::format("{:<42}{:>6}{:>8}{:>8}{:>8}{:>8}{:>9}{:>9}{:>9}{:>10}{:>7}{:>8}{:>8}\n",
                        row.name, row.trials, percent(row.medianError), percent(row.error90),
                        decimal(row.medianAxisDeg), decimal(row.axis90Deg), percent(row.noReading),
                        percent(row.blunders), percent(row.silentBlunders), percent(row.coverage),
                        decimal(row.rmsZ), percent(row.kinks), decimal(row.medianTime.seconds));
    }
    return text;
}

}  // namespace core::accuracy
