#include "core/words/flight.h"

#include <fmt/format.h>

#include <cmath>

#include "core/base/words.h"
#include "core/report/number_format.h"

namespace core::words {
namespace {

std::string withUnit(const std::string& number, std::string_view unit) {
    const bool isDegree = unit == "°";
    return fmt::format("{}{}{}", number, unit.empty() || isDegree ? "" : " ",
                       unit.empty() ? "" : saidText(unit));
}

/// Topspin and sidespin have a word for each sense.
std::string titleOf(const FlightNumber& number) {
    if (number.name == "topspin" && number.value < 0.0) {
        return said("Backspin");
    }
    if (number.name == "sidespin") {
        return number.value < 0.0 ? said("Sidespin, left") : said("Sidespin, right");
    }
    return saidText(number.title);
}

bool hasSense(const FlightNumber& number) {
    return number.name == "topspin" || number.name == "sidespin" || number.name == "rifle_spin";
}

/// The mean of a number of many flights within a sentence: "launch angle 3.2°".
std::string meanWords(const FlightNumber& mean, const std::string& text) {
    if (mean.name == "topspin") {
        return mean.value < 0.0 ? said("backspin {}", text) : said("topspin {}", text);
    }
    if (mean.name == "sidespin") {
        return mean.value < 0.0 ? said("sidespin {} to the left", text)
                                : said("sidespin {} to the right", text);
    }
    return mean.name == "ball_speed"     ? said("ball speed {}", text)
           : mean.name == "launch_angle" ? said("launch angle {}", text)
           : mean.name == "rifle_spin"   ? said("rifle spin {}", text)
           : mean.name == "axis_tilt"    ? said("axis tilt {}", text)
                                         : said("spin parameter {}", text);
}

struct Spread {
    double mean{};
    double deviation{};
};

Spread spreadOf(const std::vector<double>& values) {
    Spread spread;
    for (const double value : values) {
        spread.mean += value / static_cast<double>(values.size());
    }
    double squares = 0.0;
    for (const double value : values) {
        squares += (value - spread.mean) * (value - spread.mean);
    }
    spread.deviation =
        values.size() > 1 ? std::sqrt(squares / static_cast<double>(values.size() - 1)) : 0.0;
    return spread;
}

}  // namespace

std::array<FlightNumber, kFlightNumbers> numbersOf(const reading::ShotFlight& flight) {
    const auto rpm = [](std::string_view name, std::string_view title, const Measured<Rpm>& part) {
        return FlightNumber{name, title, toSay("rpm"), "rpm", part.value.rpm, part.sigma.rpm};
    };
    const auto angle = [](std::string_view name, std::string_view title,
                          const Measured<Radians>& part) {
        return FlightNumber{name, title, "°", "deg", toDegrees(part.value), toDegrees(part.sigma)};
    };
    return {FlightNumber{"ball_speed", toSay("Ball speed"), "m/s", "m_s",
                         flight.speed.value.metresPerSecond, flight.speed.sigma.metresPerSecond},
            angle("launch_angle", toSay("Launch angle"), flight.launchAngle),
            rpm("topspin", toSay("Topspin"), flight.topspin),
            rpm("sidespin", toSay("Sidespin"), flight.sidespin),
            rpm("rifle_spin", toSay("Rifle spin"), flight.rifleSpin),
            angle("axis_tilt", toSay("Axis tilt"), flight.axisTilt),
            FlightNumber{"spin_parameter", toSay("Spin parameter"), "", "",
                         flight.spinParameter.value.value, flight.spinParameter.sigma.value}};
}

std::vector<FlightLine> linesOf(const reading::ShotFlight& flight) {
    std::vector<FlightLine> lines;
    for (const FlightNumber& number : numbersOf(flight)) {
        const double shown = hasSense(number) ? std::abs(number.value) : number.value;
        lines.push_back(
            {titleOf(number), withUnit(report::plusMinus(shown, number.sigma), number.unit)});
    }
    return lines;
}

std::string summaryOf(std::span<const reading::ShotFlight> flights) {
    if (flights.empty()) {
        return {};
    }
    std::array<std::vector<double>, kFlightNumbers> values;
    for (const auto& flight : flights) {
        const auto numbers = numbersOf(flight);
        for (std::size_t i = 0; i < numbers.size(); ++i) {
            values[i].push_back(numbers[i].value);
        }
    }
    std::string words;
    const auto names = numbersOf(flights.front());
    for (std::size_t i = 0; i < names.size(); ++i) {
        const Spread spread = spreadOf(values[i]);
        FlightNumber mean = names[i];
        mean.value = spread.mean;
        const double shown = hasSense(mean) ? std::abs(mean.value) : mean.value;

        const int decimals =
            report::decimalsFor(spread.deviation > 0.0 ? spread.deviation : mean.sigma).value_or(1);
        words += words.empty() ? "" : ", ";
        words += meanWords(mean, withUnit(report::fixed(shown, decimals), mean.unit));

        if (flights.size() > 1) {
            words += said(" (sd {})", report::fixed(spread.deviation, decimals));
        }
    }
    return saidOf(flights.size(), "Of {} shot: {}.", "Of {} shots: {}.", flights.size(), words);
}

}  // namespace core::words
