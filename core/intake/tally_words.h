#pragma once

#include <optional>
#include <string>
#include <string_view>

#include "core/intake/tally_sheet.h"

/// The words in headers of tables of counts. Private to core/intake.
namespace core::intake {

/// A header that numbers a shot: "3", "Shot 3", "Anna 3", "Anna, shot 3".
struct ShotHeader {
    std::string group;  ///< "Anna"; empty where only the shot is named
    int number{};
};
[[nodiscard]] std::optional<ShotHeader> shotHeader(std::string_view header);

/// The role that a header names by itself, LeaveOut for what is made from counts or is no fact of
/// an implement ("mean", "date"). Absent for an unknown one.
[[nodiscard]] std::optional<TallyRole> roleOfHeader(std::string_view header);

/// How well a header names its role: 0 the best word for it. Only for known headers.
[[nodiscard]] std::size_t rankOfHeader(std::string_view header);

/// Whether a field holds a number, perhaps one with two readings.
[[nodiscard]] bool isNumber(std::string_view field);

}  // namespace core::intake
