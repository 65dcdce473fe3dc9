#include "core/findings/flight_words.h"

#include <fmt/format.h>

#include <cmath>

#include "core/base/words.h"
#include "core/reading/inputs_json.h"
#include "core/report/number_format.h"

namespace core::findings {
namespace {

std::string withUnit(const std::string& number, std::string_view unit) {
    const bool isDegree = unit == "°";
    return fmt::format("{}{}{}", number, unit.empty() || isDegree ? "" : " ", unit);
}

/// Topspin and sidespin have a word for each sense.
std::string titleOf(const FlightNumber& number) {
    if (number.name == "topspin" && number.value < 0.0) {
        return "Backspin";
    }
    if (number.name == "sidespin") {
        return number.value < 0.0 ? "Sidespin, left" : "Sidespin, right";
    }
    return std::string{number.title};
}

bool hasSense(const FlightNumber& number) {
    return number.name == "topspin" || number.name == "sidespin" || number.name == "rifle_spin";
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
        return FlightNumber{name, title, "rpm", "rpm", part.value.rpm, part.sigma.rpm};
    };
    const auto angle = [](std::string_view name, std::string_view title,
                          const Measured<Radians>& part) {
        return FlightNumber{name, title, "°", "deg", toDegrees(part.value), toDegrees(part.sigma)};
    };
    return {FlightNumber{"ball_speed", "Ball speed", "m/s", "m_s",
                         flight.speed.value.metresPerSecond, flight.speed.sigma.metresPerSecond},
            angle("launch_angle", "Launch angle", flight.launchAngle),
            rpm("topspin", "Topspin", flight.topspin),
            rpm("sidespin", "Sidespin", flight.sidespin),
            rpm("rifle_spin", "Rifle spin", flight.rifleSpin),
            angle("axis_tilt", "Axis tilt", flight.axisTilt),
            FlightNumber{"spin_parameter", "Spin parameter", "", "",
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

std::optional<reading::ShotFlight> flightOf(const project::Reading& reading) {
    // Looked for before a long text is taken apart for nothing.
    if (reading.method != project::ReadingMethod::RotationFit ||
        reading.inputsJson.find("\"flight\"") == std::string::npos) {
        return std::nullopt;
    }
    const auto kept = reading::keptFitFromJson(reading.inputsJson);
    return kept ? kept.value().flight : std::nullopt;
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
        const bool isSide = mean.name == "sidespin";
        std::string title = isSide ? "Sidespin" : titleOf(mean);
        title[0] = static_cast<char>(title[0] - 'A' + 'a');
        const int decimals =
            report::decimalsFor(spread.deviation > 0.0 ? spread.deviation : mean.sigma).value_or(1);
        words += fmt::format("{} {} {}", words.empty() ? "" : ",", title,
                             withUnit(report::fixed(shown, decimals), mean.unit));
        words += isSide ? mean.value < 0.0 ? " to the left" : " to the right" : "";
        if (flights.size() > 1) {
            words += fmt::format(" (sd {})", report::fixed(spread.deviation, decimals));
        }
    }
    return fmt::format("Of {}:{}.", counted(flights.size(), "shot", "shots"), words);
}

}  // namespace core::findings
