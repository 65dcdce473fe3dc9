#include "core/report/reading_report.h"

#include <fmt/format.h>

#include <iterator>
#include <nlohmann/json.hpp>

#include "core/base/words.h"
#include "core/report/number_format.h"

namespace core::report {
namespace {

using Json = nlohmann::ordered_json;

Json pairOf(const Interval<Rpm>& interval) {
    return Json::array({interval.low.rpm, interval.high.rpm});
}

Json budgetJson(const spin::UncertaintyBudget& budget) {
    Json rows = Json::array();
    for (const auto& row : budget.rows) {
        rows.push_back({{"name", row.name},
                        {"value", row.value},
                        {"unit", row.unit},
                        {"distribution", spin::distributionName(row.distribution)},
                        {"half_width", row.halfWidth ? Json(*row.halfWidth) : Json()},
                        {"standard_uncertainty", row.sigma},
                        {"sensitivity", row.sensitivity},
                        {"contribution_rpm", row.contribution},
                        {"share", row.share}});
    }
    return rows;
}

Json ratesOf(const spin::MarksReading& reading, spin::LookAlike::Kind kind) {
    Json rates = Json::array();
    for (const auto& alike : reading.lookAlikes) {
        if (alike.kind == kind) {
            rates.push_back(alike.rate.rpm);
        }
    }
    return rates;
}

std::string budgetText(const spin::UncertaintyBudget& budget) {
    std::string text =
        fmt::format("  {:<34}{:>16}{:>18}{:>14}{:>9}\n", said("contribution"), said("distribution"),
                    said("u of the input"), said("u in rpm"), said("share"));
    for (const auto& row : budget.rows) {
        const bool assessed = row.distribution != spin::Distribution::NotAssessed;
        text += fmt::format(
            "  {:<34}{:>16}{:>18}{:>14}{:>9}\n", saidText(row.name),
            saidText(spin::distributionName(row.distribution)),
            assessed ? words::decimal(fmt::format("{:.3g} {}", row.sigma, row.unit)) : "–",
            assessed ? fixed(row.contribution, 2) : "–",
            assessed ? fixed(100.0 * row.share, 1) + " %" : "–");
    }
    return text;
}

}  // namespace

std::string readingJson(const spin::MarksReading& reading) {
    Json turns = Json::array();
    for (const auto& item : reading.returns) {
        turns.push_back(
            {{"frame", item.frame.value}, {"turns", item.turns}, {"given", item.wasGiven}});
    }
    Json warnings = Json::array();
    for (const auto& warning : reading.warnings) {
        warnings.push_back(
            {{"kind", spin::marksWarningName(warning.kind)}, {"message", warning.message}});
    }
    const Json json{
        {"marked_rpm", reading.marked.rpm},
        {"rate_rpm", reading.estimate.rpm},
        {"standard_uncertainty_rpm", reading.standardUncertainty.rpm},
        {"interval_rpm", pairOf(reading.interval95)},
        {"bounds_rpm", reading.bounds ? pairOf(*reading.bounds) : Json()},
        {"frames_per_turn", reading.framesPerTurn},
        {"budget", budgetJson(reading.budget)},
        {"aliases_rpm", ratesOf(reading, spin::LookAlike::Kind::Alias)},
        {"symmetry_alternatives_rpm", ratesOf(reading, spin::LookAlike::Kind::Symmetry)},
        {"turns", turns},
        {"blur_deg_per_exposure",
         reading.blurPerExposure ? Json(toDegrees(*reading.blurPerExposure)) : Json()},
        {"warnings", warnings}};
    return json.dump(2);
}

std::string readingText(const spin::MarksReading& reading) {
    const double sigma = reading.standardUncertainty.rpm;
    std::string text;
    auto line = [&text](const std::string& name, const std::string& value) {
        fmt::format_to(std::back_inserter(text), "{:<24}{}\n", name, value);
    };
    line(said("marked"), said("{} rpm", fixed(reading.marked.rpm, 1)));
    line(said("rate"), said("{} rpm", withDigitsOf(reading.estimate.rpm, sigma)));
    line(said("standard uncertainty"), said("{} rpm ({:.2g} %)", withDigitsOf(sigma, sigma),
                                            100.0 * sigma / reading.estimate.rpm));
    line(said("95 % interval"), said("{} to {} rpm", fixed(reading.interval95.low.rpm, 1),
                                     fixed(reading.interval95.high.rpm, 1)));
    if (reading.bounds) {
        line(said("bounds from the marks"), said("{} to {} rpm", fixed(reading.bounds->low.rpm, 1),
                                                 fixed(reading.bounds->high.rpm, 1)));
    }
    line(said("frames per turn"), fixed(reading.framesPerTurn, 2));
    for (const auto& item : reading.returns) {
        line(item.wasGiven ? said("return") : said("return (turns inferred)"),
             said("frame {}: {}", item.frame.value, counted(item.turns, "turn", "turns")));
    }
    if (reading.blurPerExposure) {
        line(said("turn per exposure"),
             fmt::format("{}°", fixed(toDegrees(*reading.blurPerExposure), 1)));
    }
    std::string aliases;
    for (const auto& alike : reading.lookAlikes) {
        if (alike.kind == spin::LookAlike::Kind::Alias) {
            aliases += (aliases.empty() ? "" : ", ") + fixed(alike.rate.rpm, 0);
        }
    }
    if (!aliases.empty()) {
        line(said("looks the same at"), said("{} rpm", aliases));
    }
    text += said("uncertainty budget") + '\n' + budgetText(reading.budget);
    for (const auto& warning : reading.warnings) {
        line(said("note"), warning.message);
    }
    return text;
}

}  // namespace core::report
