#include <charconv>
#include <cmath>
#include <set>

#include "core/findings/find_trends.h"

namespace core::findings {
namespace {

struct NumberWithUnit {
    double value{};
    std::string unit;
};

std::optional<NumberWithUnit> numberWithUnit(const std::string& text) {
    const char* const end = text.data() + text.size();
    const char* begin = text.data();
    while (begin != end && *begin == ' ') {
        ++begin;
    }
    NumberWithUnit number;
    const auto [rest, error] = std::from_chars(begin, end, number.value);
    if (error != std::errc{} || !std::isfinite(number.value)) {
        return std::nullopt;
    }
    number.unit.assign(rest, end);
    while (!number.unit.empty() && number.unit.front() == ' ') {
        number.unit.erase(0, 1);
    }
    while (!number.unit.empty() && number.unit.back() == ' ') {
        number.unit.pop_back();
    }
    // A comma may be a decimal mark or a list, and a further number makes a list or a range: what
    // is meant cannot be known. A digit within a word ("cm3") is part of a unit.
    const auto isFurtherNumber = [&number](std::size_t at) {
        return number.unit[at] >= '0' && number.unit[at] <= '9' &&
               (at == 0 || number.unit[at - 1] == ' ');
    };
    bool isDoubtful =
        !number.unit.empty() &&
        (number.unit.front() == ',' || number.unit.front() == '/' || number.unit.front() == '-');
    for (std::size_t at = 0; at < number.unit.size(); ++at) {
        isDoubtful = isDoubtful || isFurtherNumber(at);
    }
    return isDoubtful ? std::nullopt : std::optional{number};
}

std::optional<NumberWithUnit> attributeOf(const project::Implement& implement,
                                          const std::string& key) {
    const auto at = implement.attributes.find(key);
    return at == implement.attributes.end() ? std::nullopt : numberWithUnit(at->second);
}

Trend trendOf(const stats::Correlation& spearman) {
    const bool isShown = spearman.pValue < 0.05 && !holdsZero(spearman);
    return !isShown ? Trend::None : spearman.coefficient > 0.0 ? Trend::More : Trend::Less;
}

AttributeFinding findAttribute(const project::Snapshot& snapshot, const Comparison& together,
                               const std::string& key) {
    AttributeFinding found;
    found.attribute = key;
    found.key = key;
    std::set<std::string> units;
    std::vector<double> x;
    std::vector<double> y;
    for (const RankedImplement& row : together.ranked) {
        const auto* implement = snapshot.implements.find(row.implement);
        const auto number = implement != nullptr ? attributeOf(*implement, key) : std::nullopt;
        if (!number) {
            found.leftOut.push_back(row.name);
            continue;
        }
        units.insert(number->unit);
        x.push_back(number->value);
        y.push_back(row.mean.value);
        found.points.push_back(
            {number->value, row.mean.value, row.implement, std::nullopt, row.name});
    }
    if (units.size() > 1) {
        found.pearson = WhyNot::Kind::DifferentUnits;
        found.spearman = WhyNot::Kind::DifferentUnits;
    } else {
        found.pearson = Said<stats::Correlation>{stats::pearson({x, y})};
        found.spearman = Said<stats::Correlation>{stats::spearman({x, y})};
        if (!units.empty() && !units.begin()->empty()) {
            found.unit = *units.begin();
            found.attribute += ", " + found.unit;
        }
        if (found.spearman) {
            found.trend = trendOf(*found.spearman);
        }
    }
    return found;
}

}  // namespace

bool holdsZero(const stats::Correlation& correlation) {
    return correlation.interval
               ? correlation.interval->low <= 0.0 && correlation.interval->high >= 0.0
               : correlation.pValue >= 0.05;
}

std::vector<AttributeFinding> findAttributes(const project::Snapshot& snapshot,
                                             const Comparison& together) {
    std::set<std::string> keys;
    for (const auto& implement : snapshot.implements) {
        for (const auto& [key, value] : implement.attributes) {
            keys.insert(key);
        }
    }
    std::vector<AttributeFinding> found;
    for (const std::string& key : keys) {
        AttributeFinding attribute = findAttribute(snapshot, together, key);
        if (attribute.points.size() >= 3) {
            found.push_back(std::move(attribute));
        }
    }
    for (AttributeFinding& attribute : found) {
        attribute.lookedAt = found.size();
    }
    return found;
}

}  // namespace core::findings
