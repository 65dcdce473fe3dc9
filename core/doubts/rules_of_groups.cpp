#include "core/doubts/rules_of_groups.h"

#include <algorithm>
#include <cmath>

namespace core::doubts {
namespace {

using findings::CellFinding;
using findings::Findings;
using project::ShotId;
using ShotDoubts = std::map<ShotId, std::vector<Doubt>>;

// An interval this many times as wide as the middle one of its cell, and wider than this share of
// the rate, tells little beside the others.
constexpr double kWideTimes = 3.0;
constexpr double kWideRelativeSigma = 0.01;
constexpr std::size_t kLeastShots = 5;  // for a middle that means something
constexpr double kSurely = 0.01;        // p below which a cell is off for more than chance

double medianOf(std::vector<double> values) {
    const auto middle = values.begin() + static_cast<std::ptrdiff_t>(values.size() / 2);
    std::nth_element(values.begin(), middle, values.end());
    if (values.size() % 2 == 1) {
        return *middle;
    }
    return (*middle + *std::max_element(values.begin(), middle)) / 2.0;
}

void addOddShots(const CellFinding& cell, ShotDoubts& doubts) {
    for (const auto& odd : cell.oddShots) {
        const bool isOutlier = odd.word == stats::OutlierWord::Outlier;
        doubts[odd.shot].push_back({isOutlier ? Reason::Outlier : Reason::Straggler,
                                    isOutlier ? Grade::Question : Grade::Note, odd.statistic, odd});
    }
}

void addWideIntervals(const CellFinding& cell, ShotDoubts& doubts) {
    if (cell.row.readings.size() < kLeastShots) {
        return;
    }
    std::vector<double> sigmas;
    for (const auto& reading : cell.row.readings) {
        sigmas.push_back(reading.rate.sigma.rpm);
    }
    const double usual = medianOf(sigmas);
    for (const auto& reading : cell.row.readings) {
        const double sigma = reading.rate.sigma.rpm;
        if (sigma > kWideTimes * usual && sigma > kWideRelativeSigma * reading.rate.value.rpm) {
            doubts[reading.shot].push_back({Reason::WideInterval, Grade::Note,
                                            sigma / std::max(usual, 1e-9) / kWideTimes,
                                            WideInCell{{sigma}, {usual}}});
        }
    }
}

void addSpeeds(const CellFinding& cell, const DoubtMaterial& material, ShotDoubts& doubts) {
    std::map<ShotId, double> speeds;
    std::vector<double> all;
    for (const auto& reading : cell.row.readings) {
        const auto opinion = material.opinions.find(reading.shot);
        if (opinion != material.opinions.end() && opinion->second->speedMetresPerSecond) {
            speeds[reading.shot] = *opinion->second->speedMetresPerSecond;
            all.push_back(speeds[reading.shot]);
        }
    }
    for (const auto& [shot, speed] : speeds) {
        const auto z = modifiedZScore(speed, all);
        if (z && std::abs(*z) > kUnusualZScore) {
            doubts[shot].push_back({Reason::BallSpeed, Grade::Note, std::abs(*z) / kUnusualZScore,
                                    SpeedInCell{speed, medianOf(all)}});
        }
    }
}

}  // namespace

std::optional<double> modifiedZScore(double value, std::vector<double> all) {
    if (all.size() < kLeastShots) {
        return std::nullopt;
    }
    const double middle = medianOf(all);
    for (double& each : all) {
        each = std::abs(each - middle);
    }
    const double deviation = medianOf(std::move(all));
    return deviation > 0.0 ? std::optional{0.6745 * (value - middle) / deviation} : std::nullopt;
}

std::map<ShotId, std::vector<Doubt>> doubtsOfShotsInCells(const DoubtMaterial& material,
                                                          const Findings& findings) {
    ShotDoubts doubts;
    for (const auto& cell : findings.cells) {
        addOddShots(cell, doubts);
        addWideIntervals(cell, doubts);
        addSpeeds(cell, material, doubts);
    }
    return doubts;
}

std::vector<Doubted> doubtsOfCells(const Findings& findings) {
    std::vector<Doubted> cells;
    for (const CellFinding& cell : findings.cells) {
        if (cell.oddScatter) {
            cells.push_back(
                {std::nullopt,
                 cell.row.cell,
                 {{Reason::ScatterDiffers,
                   cell.oddScatter->pValue < kSurely ? Grade::Question : Grade::Note,
                   -std::log10(std::max(cell.oddScatter->pValue, 1e-12)), *cell.oddScatter}},
                 false});
        }
    }
    for (const auto& odd : findings.hitters.interaction) {
        const auto cell = std::find_if(
            findings.cells.begin(), findings.cells.end(), [&odd](const CellFinding& each) {
                return each.row.implement == odd.implement && each.row.hitter == odd.hitter;
            });
        if (cell == findings.cells.end()) {
            continue;
        }
        const double p = std::max(odd.adjustedP, 1e-12);
        const auto together = findings.hitters.groupOf(odd);
        cells.push_back({std::nullopt,
                         cell->row.cell,
                         {{Reason::HittersDiffer, p < kSurely ? Grade::Grave : Grade::Question,
                           -std::log10(p), std::vector(together.begin(), together.end())}},
                         false});
    }
    return cells;
}

}  // namespace core::doubts
