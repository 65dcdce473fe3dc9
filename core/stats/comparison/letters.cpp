#include "core/stats/comparison/letters.h"

#include <algorithm>
#include <boost/dynamic_bitset.hpp>
#include <functional>
#include <numeric>
#include <utility>

#include "core/base/words.h"
#include "core/stats/sample/checks.h"

namespace core::stats {
namespace {

// Which groups share one letter; the last bit is the group with the highest mean, so that the
// greatest column is the one that begins highest.
using Column = boost::dynamic_bitset<>;

// Lists the largest sets of groups of which no two differ. By Bron and Kerbosch (1973) with the
// pivot of Tomita, Tanaka and Takahashi (2006): the time goes with the number of sets, and however
// many groups there are, the sets are few where groups differ that lie far apart.
class SetsOfAlike {
public:
    // alike: for each group those that it does not differ from, itself not among them.
    explicit SetsOfAlike(const std::vector<Column>& alike) : m_alike{alike} {}

    [[nodiscard]] std::vector<Column> all() {
        const Column none(m_alike.size());
        extend(none, ~none, none);
        return std::move(m_found);
    }

private:
    // open: may be added to the set; done: may be added, but all sets with it are found.
    void extend(const Column& set, Column open, Column done) {
        if (open.none()) {
            if (done.none()) {
                m_found.push_back(set);
            }
            return;
        }
        const Column tried = open - m_alike[pivotOf(open, done)];
        for (auto group = tried.find_first(); group != Column::npos;
             group = tried.find_next(group)) {
            Column larger = set;
            larger.set(group);
            extend(larger, open & m_alike[group], done & m_alike[group]);
            open.reset(group);
            done.set(group);
        }
    }

    [[nodiscard]] std::size_t pivotOf(const Column& open, const Column& done) const {
        const Column either = open | done;
        std::size_t best = either.find_first();
        std::size_t most = 0;
        for (auto group = best; group != Column::npos; group = either.find_next(group)) {
            const std::size_t shared = (open & m_alike[group]).count();
            if (shared > most) {
                best = group;
                most = shared;
            }
        }
        return best;
    }

    const std::vector<Column>& m_alike;
    std::vector<Column> m_found;
};

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
    BOOST_OUTCOME_TRY(checkValues(means, toSay("Letters"), 1));
    const auto bits = bitsByMean(means);
    std::vector<Column> alike(means.size(), Column(means.size()).set());
    for (std::size_t bit = 0; bit < means.size(); ++bit) {
        alike[bit].reset(bit);
    }
    for (const auto& [a, b] : different) {
        if (a >= means.size() || b >= means.size() || a == b) {
            return fail(ErrorCode::InvalidInput,
                        said("Letters: pair ({}, {}) does not name two of the groups.", a, b));
        }
        alike[bits[a]].reset(bits[b]);
        alike[bits[b]].reset(bits[a]);
    }
    std::vector<Column> columns = SetsOfAlike{alike}.all();
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
