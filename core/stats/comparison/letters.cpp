#include "core/stats/comparison/letters.h"

#include <algorithm>
#include <boost/dynamic_bitset.hpp>
#include <functional>
#include <numeric>
#include <utility>

#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

// Which groups share one letter; the last bit is the group with the highest mean, so that the
// greatest column is the one that begins highest.
using Column = boost::dynamic_bitset<>;

// Adds a column unless one of the columns holds it already.
void absorb(std::vector<Column>& columns, const Column& candidate) {
    const bool isHeld = std::any_of(columns.begin(), columns.end(), [&](const Column& column) {
        return candidate.is_subset_of(column);
    });
    if (!isHeld) {
        columns.push_back(candidate);
    }
}

// Splits every column in which both groups stand, so that each part keeps one of them.
std::vector<Column> insert(std::vector<Column> columns, DifferentPair different) {
    std::vector<Column> kept;
    std::vector<Column> split;
    kept.reserve(columns.size() + 1);
    for (Column& column : columns) {
        const bool hasBoth = column[different.first] && column[different.second];
        (hasBoth ? split : kept).push_back(std::move(column));
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

// Bit of each group when the highest mean has the last one; of equal means the first has the later.
std::vector<std::size_t> bitsByMean(std::span<const double> means) {
    std::vector<std::size_t> order(means.size());
    std::iota(order.begin(), order.end(), std::size_t{0});
    std::stable_sort(order.begin(), order.end(),
                     [&](std::size_t a, std::size_t b) { return means[a] > means[b]; });
    std::vector<std::size_t> bits(means.size());
    for (std::size_t i = 0; i < order.size(); ++i) {
        bits[order[i]] = means.size() - 1 - i;
    }
    return bits;
}

}  // namespace

Result<std::vector<std::string>> compactLetters(std::span<const double> means,
                                                std::span<const DifferentPair> different) {
    BOOST_OUTCOME_TRY(checkValues(means, "Letters", 1));
    const auto bits = bitsByMean(means);
    std::vector<DifferentPair> pairs;
    for (const auto& [a, b] : different) {
        if (a >= means.size() || b >= means.size() || a == b) {
            return fail(ErrorCode::InvalidInput, "Letters: pair (" + std::to_string(a) + ", " +
                                                     std::to_string(b) +
                                                     ") does not name two of the groups.");
        }
        pairs.emplace_back(std::max(bits[a], bits[b]), std::min(bits[a], bits[b]));
    }
    std::sort(pairs.begin(), pairs.end(), std::greater<>{});
    std::vector<Column> columns{Column(means.size()).set()};
    for (const auto& pair : pairs) {
        columns = insert(std::move(columns), pair);
    }
    std::sort(columns.begin(), columns.end(), std::greater<>{});  // highest group first
    std::vector<std::string> letters(means.size());
    for (std::size_t group = 0; group < means.size(); ++group) {
        for (std::size_t i = 0; i < columns.size(); ++i) {
            letters[group] += columns[i][bits[group]] ? letterName(i) : "";
        }
    }
    return letters;
}

}  // namespace core::stats
