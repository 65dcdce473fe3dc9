#include "core/findings/bands.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <set>
#include <sstream>

#include "core/base/number.h"
#include "core/base/words.h"

namespace core::findings {
namespace {

// More than any struck ball spins: beyond it is a slip of the pen.
constexpr double kMostEdgeRpm = 1e5;

/// As the project keeps it.
std::string edgeText(Rpm edge) {
    return fmt::format("{}", edge.rpm);
}

std::string shownEdge(Rpm edge) {
    return core::words::decimal(edgeText(edge));
}

Result<void> checkBandNames(const std::vector<Band>& bands) {
    std::set<std::string> names;
    for (const Band& band : bands) {
        if (band.name.find_first_not_of(" \t") == std::string::npos) {
            return fail(ErrorCode::InvalidInput,
                        said("The band {} has no name. Write a word before or after each "
                             "edge: low 1200 medium 1500 high.",
                             rangeText(band)));
        }
        if (!names.insert(band.name).second) {
            return fail(ErrorCode::InvalidInput,
                        said("Two bands are named \"{}\". Give each its own name.", band.name));
        }
    }
    return ok();
}

Result<void> checkNeighbours(const Band& below, const Band& above) {
    if (!below.high || !above.low) {
        return fail(ErrorCode::InvalidInput,
                    said("The bands \"{}\" and \"{}\" overlap: one of them has no edge "
                         "where they meet. Only the lowest band is open below and only the "
                         "highest above.",
                         below.name, above.name));
    }
    const double gap = above.low->rpm - below.high->rpm;
    if (gap > 0.0) {
        return fail(ErrorCode::InvalidInput,
                    said("Between the bands \"{}\" and \"{}\" there is a gap: a value from "
                         "{} to below {} rpm would be in none. Let one begin where the "
                         "other ends.",
                         below.name, above.name, shownEdge(*below.high), shownEdge(*above.low)));
    }
    if (gap < 0.0) {
        return fail(ErrorCode::InvalidInput,
                    said("The bands \"{}\" and \"{}\" overlap: a value from {} to below {} "
                         "rpm would be in both. Let one begin where the other ends.",
                         below.name, above.name, shownEdge(*above.low), shownEdge(*below.high)));
    }
    return ok();
}

Result<void> checkEdges(const Band& band) {
    for (const auto& edge : {band.low, band.high}) {
        if (edge && !std::isfinite(edge->rpm)) {
            return fail(ErrorCode::InvalidInput,
                        said("An edge of the band \"{}\" is not a number.", band.name));
        }
    }
    if (band.low && band.high && !(band.low->rpm < band.high->rpm)) {
        return fail(ErrorCode::InvalidInput,
                    said("The band \"{}\" from {} to {} rpm holds no value. Edges must grow "
                         "from left to right.",
                         band.name, shownEdge(*band.low), shownEdge(*band.high)));
    }
    return ok();
}

}  // namespace

Result<Bands> Bands::from(std::vector<Band> bands) {
    Bands made;
    if (bands.empty()) {
        return made;
    }
    BOOST_OUTCOME_TRY(checkBandNames(bands));
    for (const Band& band : bands) {
        BOOST_OUTCOME_TRY(checkEdges(band));
    }
    for (std::size_t i = 0; i + 1 < bands.size(); ++i) {
        BOOST_OUTCOME_TRY(checkNeighbours(bands[i], bands[i + 1]));
    }
    if (bands.front().low || bands.back().high) {
        return fail(ErrorCode::InvalidInput,
                    bands.front().low
                        ? said("A value below {} rpm would be in no band. Leave the lowest band "
                               "open below and the highest open above.",
                               shownEdge(*bands.front().low))
                        : said("A value of {} rpm and above would be in no band. Leave the lowest "
                               "band open below and the highest open above.",
                               shownEdge(*bands.back().high)));
    }
    made.m_bands = std::move(bands);
    return made;
}

Result<Bands> Bands::parse(std::string_view text) {
    std::istringstream words{std::string{text}};
    std::vector<Band> bands(1);
    for (std::string word; words >> word;) {
        const auto edge = numberFrom(word);
        if (edge && std::abs(edge.value()) > kMostEdgeRpm) {
            return fail(ErrorCode::InvalidInput,
                        said("The edge {} is more than any ball spins, in rpm.", word));
        }
        if (edge) {
            bands.back().high = Rpm{edge.value()};
            bands.push_back({{}, Rpm{edge.value()}, std::nullopt});
        } else if (edge.error().code == ErrorCode::Contradiction) {
            return edge.error();
        } else {
            bands.back().name += (bands.back().name.empty() ? "" : " ") + word;
        }
    }
    if (bands.size() == 1 && bands.front().name.empty()) {
        return Bands{};
    }
    if (bands.size() == 1) {
        return fail(ErrorCode::InvalidInput,
                    said("\"{}\" names one band and no edge. Write names and edges in rpm "
                         "in turn: low 1200 medium 1500 high.",
                         bands.front().name));
    }
    return from(std::move(bands));
}

std::string Bands::text() const {
    std::string text;
    for (const Band& band : m_bands) {
        text += (band.low ? " " + edgeText(*band.low) + " " : "") + band.name;
    }
    return text;
}

const Band* Bands::bandOf(Rpm value) const noexcept {
    const auto at = std::find_if(m_bands.begin(), m_bands.end(), [value](const Band& band) {
        return !band.high || value.rpm < band.high->rpm;
    });
    return at == m_bands.end() ? nullptr : &*at;
}

std::string rangeText(const Band& band) {
    if (band.low && band.high) {
        return said("{} to below {}", shownEdge(*band.low), shownEdge(*band.high));
    }
    if (band.high) {
        return said("below {}", shownEdge(*band.high));
    }
    return band.low ? said("{} and more", shownEdge(*band.low)) : said("all values");
}

}  // namespace core::findings
