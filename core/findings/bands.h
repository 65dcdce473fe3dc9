#pragma once

#include <cstddef>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"

namespace core::findings {

/// A named range of spin for grouping the table: low <= value < high. The first band may be open
/// below and the last one above.
struct Band {
    std::string name;
    std::optional<Rpm> low;   ///< absent: no lower edge
    std::optional<Rpm> high;  ///< absent: no upper edge
    bool operator==(const Band&) const = default;
};

/// The bands that the tester has set: they lie side by side without gap or overlap, open at both
/// ends, so every value falls into exactly one. Empty when none are set. Immutable.
class Bands {
public:
    Bands() = default;

    /// Bands in the order of their ranges. Errors: InvalidInput, naming the two bands and the
    /// range, for a gap, an overlap, an edge that is no number, a band that is empty or has no
    /// name, two equal names, or ends that are not open.
    static Result<Bands> from(std::vector<Band> bands);
    /// From what the tester types, lowest first, names and edges in turn:
    /// "low 1200 medium 1500 high" makes three bands. A name may have several words ("very low");
    /// a number is an edge. Empty text: no bands. Errors: as from().
    static Result<Bands> parse(std::string_view text);
    /// The text that parse() reads.
    [[nodiscard]] std::string text() const;

    [[nodiscard]] const std::vector<Band>& all() const noexcept { return m_bands; }
    [[nodiscard]] bool isEmpty() const noexcept { return m_bands.empty(); }
    /// The band a value falls into; null without bands. value must be a number.
    [[nodiscard]] const Band* bandOf(Rpm value) const noexcept;
    bool operator==(const Bands&) const = default;

private:
    std::vector<Band> m_bands;
};

/// "below 1200", "1200 to below 1500", "1500 and above" (rpm not written).
[[nodiscard]] std::string rangeText(const Band& band);

}  // namespace core::findings
