#include "core/media/file/lens.h"

#include <algorithm>
#include <charconv>
#include <cmath>
#include <string_view>

#include "core/base/kept_words.h"

namespace core::media {
namespace {

constexpr std::string_view kEquivalentFocalLength = "focal_length.35mm_equivalent";
constexpr double kShortestMm = 5.0;
constexpr double kLongestMm = 1000.0;
constexpr double kScaleRelativeSigma = 0.08;

std::optional<double> focalLengthFrom(const std::string& text) {
    double mm = 0.0;
    const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), mm);
    const bool isNumber = error == std::errc{} && end == text.data() + text.size();
    return isNumber && mm >= kShortestMm && mm <= kLongestMm ? std::optional{mm} : std::nullopt;
}

}  // namespace

std::optional<LensData> lensOf(const StreamFacts& facts) {
    for (const auto& [key, value] : facts.tags) {
        if (std::string_view{key}.ends_with(kEquivalentFocalLength)) {
            if (const auto mm = focalLengthFrom(value)) {
                return LensData{key, *mm};
            }
        }
    }
    return std::nullopt;
}

Measured<Radians> fieldOfViewAcrossLongerSide(double equivalentFocalLengthMm, int widthPx,
                                              int heightPx) {
    const double diagonalMm = std::hypot(36.0, 24.0);
    const double share = std::max(widthPx, heightPx) / std::hypot(widthPx, heightPx);
    const double angle = 2.0 * std::atan(0.5 * share * diagonalMm / equivalentFocalLengthMm);
    // d(angle) = sin(angle) d ln tan(angle/2)
    return {{angle}, {kScaleRelativeSigma * std::sin(angle)}};
}

std::string lensWords(const LensData& lens, int widthPx, int heightPx) {
    const auto view = fieldOfViewAcrossLongerSide(lens.equivalentFocalLengthMm, widthPx, heightPx);
    return toKeep(
        "The file gives the lens as {:.4g} mm (for 36 mm x 24 mm): about {:.0f} degrees across the "
        "longer side, {:.0f} more or less. Readings rest on it unless the field of view is "
        "entered.",
        lens.equivalentFocalLengthMm, toDegrees(view.value), toDegrees(view.sigma));
}

}  // namespace core::media
