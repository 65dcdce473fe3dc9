#pragma once

#include <QString>
#include <optional>

#include "core/base/result.h"

/// Numbers between the window and the person, with the decimal sign of the language. What goes into
/// files or is copied for a spreadsheet does not pass here.
namespace ui::models {

/// A number, or a line with numbers, that core wrote with decimal points.
[[nodiscard]] QString numberText(QString withPoints);

/// As QString::number() writes it: 'f' or 'g', without grouping.
[[nodiscard]] QString numberText(double value, char format = 'g', int precision = 6);

/// Reads a field, as core::positiveNumberFrom() does: point and comma are decimal signs. Where the
/// language has a decimal comma, "23,976" is 23.976, and "1.000" would be 1000 to one person and 1
/// to another. Errors: those of positiveNumberFrom(); Contradiction for the latter.
[[nodiscard]] core::Result<std::optional<double>> typedNumber(const QString& text, double most);

}  // namespace ui::models
