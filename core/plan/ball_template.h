#pragma once

#include <string>

#include "core/base/result.h"

namespace core::plan {

/// Balls that a template is made for, millimetres.
inline constexpr double kLeastBallMm = 10.0;
inline constexpr double kLargestBallMm = 330.0;

enum class TemplateFile { Pdf, Svg };

/// A paper strip in true size that goes once round a ball: as long as the ball's circumference, π
/// times the diameter, with a line at every quarter (A, B, C, D and A again) and a cross at every
/// 32nd part of its middle line; as wide as the band of a marking, 0.22 of the diameter and 8 to
/// 30 mm. On a sheet A4 lying (ISO 216), with a line of 50 mm that tells whether the printer kept
/// the size. A strip longer than the sheet comes in two or four equal pieces, to be joined letter
/// on letter. Errors: NotFinite, OutOfRange for the diameter; WriteFailed.
Result<std::string> ballTemplate(double diameterMm, TemplateFile kind);

}  // namespace core::plan
