#pragma once

#include <array>
#include <filesystem>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/text_table.h"

/// Tables of frame counts that were made elsewhere, as testers keep them: what their rows and
/// columns are.
namespace core::intake {

/// What a column of a table of counts holds.
enum class TallyRole {
    LeaveOut,
    Implement,
    Condition,
    Hitter,
    Shot,           ///< number or name of the shot, for people
    Frames,         ///< whole frames from the start to the return, over all turns counted
    FramesPerTurn,  ///< the same divided by the turns
    StartFrame,
    ReturnFrame,
    Turns,        ///< whole turns that were counted over; without the column one
    CaptureRate,  ///< frames per second
    Attribute,    ///< of the implement: mass, price, anything
};
inline constexpr std::size_t kTallyRoles = 12;

/// "leave out", "implement", "frames per turn" …: stable, for the command line and JSON.
[[nodiscard]] std::string_view roleName(TallyRole role) noexcept;
/// The same as people read it, in their language.
[[nodiscard]] std::string_view roleWords(TallyRole role);
/// Either of them backwards, in either case of the letters. Absent for another text.
[[nodiscard]] std::optional<TallyRole> roleNamed(std::string_view name);

struct TallyColumn {
    TallyRole role{TallyRole::LeaveOut};
    /// Of counts: the hitter who made them, where columns and not rows say it. Else empty.
    std::string hitter;
    bool operator==(const TallyColumn&) const = default;
};
/// What each column of a sheet holds, in order. Several columns of counts: each is a shot.
using TallyLayout = std::vector<TallyColumn>;

enum class TallyShape {
    ShotRows,      ///< one row a shot
    CellRows,      ///< one row an implement and hitter, one column a shot
    HitterBlocks,  ///< one row an implement, and for each hitter columns side by side, one a shot
};
inline constexpr std::array kTallyShapes{TallyShape::ShotRows, TallyShape::CellRows,
                                         TallyShape::HitterBlocks};
/// "shots", "cells", "hitters": stable, for the command line and JSON.
[[nodiscard]] std::string_view shapeName(TallyShape shape) noexcept;
[[nodiscard]] std::optional<TallyShape> shapeNamed(std::string_view name) noexcept;
/// "one row for each shot" and so on.
[[nodiscard]] std::string_view shapeWords(TallyShape shape);

/// A table with its header found. Immutable value.
///
/// A title (one field alone, above a header) is passed over. The header is the first row without
/// numbers other than those of shots: "1", "Shot 1", "Anna 1", counted up from 1. A second row that
/// numbers shots is part of it, below the names of hitters. A table that begins with numbers has no
/// header.
struct TallySheet {
    TextEncoding encoding{TextEncoding::Utf8};
    char separator{','};
    std::vector<std::string> headers;  ///< one a column; empty where a column has none
    /// Of a header in two rows the upper one, each name over the columns to the right that have
    /// none; else all empty.
    std::vector<std::string> upperHeaders;
    std::vector<TextRow> rows;  ///< below the header, each with as many fields as headers
};

/// Errors: those of readTextGrid(); InvalidInput for a table without content.
Result<TallySheet> tallySheetFrom(std::string_view bytes);
/// Errors: those of readTextFile() and tallySheetFrom(), with the file's name.
Result<TallySheet> readTallySheet(const std::filesystem::path& file);

/// "Racket", "Anna 3", or "column C" for one without a header.
[[nodiscard]] std::string columnLabel(const TallySheet& sheet, std::size_t column);
/// The column of a label, in either case of the letters, or of a letter ("C").
[[nodiscard]] std::optional<std::size_t> columnLabelled(const TallySheet& sheet,
                                                        std::string_view label);

/// What the columns seem to hold, from the words in the header, or when these do not say it from
/// which columns hold numbers. Columns of counts are those that are numbered, or unnamed behind
/// named ones, or have the same name. A further column is an attribute when every implement has one
/// value in it, else left out.
[[nodiscard]] TallyLayout proposeLayout(const TallySheet& sheet);
/// The same for a shape that somebody chose.
[[nodiscard]] TallyLayout proposeLayout(const TallySheet& sheet, TallyShape shape);
/// Says what a column holds. A role that one column has goes from the one that had it; all columns
/// of counts hold the same, frames or frames per turn, and take the place of start and return
/// frames, as these take theirs.
void assignRole(TallyLayout& layout, std::size_t column, TallyRole role);
/// Whether it is Frames or FramesPerTurn.
[[nodiscard]] bool isCount(TallyRole role) noexcept;
/// The shape that a layout makes.
[[nodiscard]] TallyShape shapeOf(const TallyLayout& layout);

/// "Read as Windows-1252, separated by semicolons: one row a shot."
[[nodiscard]] std::string describeSheet(const TallySheet& sheet, const TallyLayout& layout);

/// The bytes of a file. Errors: NotFound, Unreadable.
Result<std::string> readTextFile(const std::filesystem::path& file);

}  // namespace core::intake
