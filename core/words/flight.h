#pragma once

#include <array>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "core/reading/shot_flight.h"

/// How balls fly, as numbers for tables and in words; one place for window and published files.
namespace core::words {

/// One number of a flight.
struct FlightNumber {
    std::string_view name;    ///< stable, for example "launch_angle"
    std::string_view title;   ///< "Launch angle", to be said by saidText()
    std::string_view unit;    ///< "°", to be said by saidText(); empty for a ratio
    std::string_view column;  ///< unit in a published column: "deg"
    double value{};
    double sigma{};
};
inline constexpr std::size_t kFlightNumbers = 7;

/// Speed, launch angle, topspin (negative: backspin), sidespin (positive: to the right), rifle
/// spin, axis tilt, spin parameter (reading/shot_flight.h).
[[nodiscard]] std::array<FlightNumber, kFlightNumbers> numbersOf(const reading::ShotFlight& flight);

/// "22.4 ± 0.3 m/s", "Backspin" as its own word: {"Backspin", "2413 ± 5 rpm"}.
struct FlightLine {
    std::string title;
    std::string text;
};
[[nodiscard]] std::vector<FlightLine> linesOf(const reading::ShotFlight& flight);

/// "Of 12 shots: speed 24.1 m/s (sd 0.8), launch angle 3.2° (sd 0.6), …"; empty for none.
[[nodiscard]] std::string summaryOf(std::span<const reading::ShotFlight> flights);

}  // namespace core::words
