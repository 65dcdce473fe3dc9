#include "core/stats/letters.h"

#include <algorithm>
#include <functional>
#include <numeric>

#include "core/stats/checks.h"

namespace core::stats {
namespace {

using Column = std::vector<bool>;  // which groups, highest mean first, share one letter

bool isWithin(const Column& inner, const Column& outer) {
    for (std::size_t i = 0; i < inner.size(); ++i) {
        if (inner[i] && !outer[i]) {
            return false;
        }
    }
    return true;
}

// Adds a column unless one of the columns holds it already.
void absorb(std::vector<Column>& columns, const Column& candidate) {
    const bool isHeld = std::any_of(columns.begin(), columns.end(), [&](const Column& column) {
        return isWithin(candidate, column);
    });
    if (!isHeld) {
        columns.push_back(candidate);
    }
}

// Splits every column in which both groups stand, so that each part keeps one of them.
std::vector<Column> insert(const std::vector<Column>& columns, DifferentPair different) {
    std::vector<Column> kept;
    std::vector<Column> split;
    for (const Column& column : columns) {
        (column[different.first] && column[different.second] ? split : kept).push_back(column);
    }
    for (const Column& column : split) {
        for (const std::size_t leaving : {different.second, different.first}) {
            Column part = column;
            part[leaving] = false;
            absorb(kept, part);
        }
    }
    return kept;
}

std::string letterName(std::size_t index) {
    constexpr std::size_t kAlphabet = 26;
    std::string name(1, static_cast<char>('a' + static_cast<char>(index % kAlphabet)));
    return index < kAlphabet ? name : name + std::to_string(index / kAlphabet);
}

// Position of each group when the highest mean comes first; ties keep their order.
std::vector<std::size_t> positionsByMean(std::span<const double> means) {
    std::vector<std::size_t> order(means.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return means[a] > means[b]; });
    std::vector<std::size_t> positions(means.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        positions[order[i]] = i;
    }
    return positions;
}

}  // namespace

Result<std::vector<std::string>> compactLetters(std::span<const double> means,
                                                std::span<const DifferentPair> different) {
    BOOST_OUTCOME_TRY(checkValues(means, "Letters", 1));
    const auto positions = positionsByMean(means);
    std::vector<DifferentPair> pairs;
    for (const auto& [a, b] : different) {
        if (a >= means.size() || b >= means.size() || a == b) {
            return fail(ErrorCode::InvalidInput, "Letters: pair (" + std::to_string(a) + ", " +
                                                     std::to_string(b) +
                                                     ") does not name two of the groups.");
        }
        pairs.emplace_back(std::minmax(positions[a], positions[b]));
    }
    std::sort(pairs.begin(), pairs.end());
    std::vector<Column> columns{Column(means.size(), true)};
    for (const auto& pair : pairs) {
        columns = insert(columns, pair);
    }
    std::sort(columns.begin(), columns.end(), std::greater<>{});  // highest group first
    std::vector<std::string> letters(means.size());
    for (std::size_t group = 0; group < means.size(); ++group) {
        for (std::size_t i = 0; i < columns.size(); ++i) {
            letters[group] += columns[i][positions[group]] ? letterName(i) : "";
        }
    }
    return letters;
}

}  // namespace core::stats
