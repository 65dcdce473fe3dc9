#include "core/stats/comparison/letters.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <random>
#include <string>
#include <vector>

#include "core/stats/comparison/pairwise.h"
#include "tests/core/stats/grouped.h"

namespace {

using namespace core::stats;
using core::ErrorCode;
using tests::Grouped;
using tests::ReferenceTable;

std::vector<std::string> lettersOf(const std::vector<double>& means,
                                   const std::vector<PairComparison>& pairs) {
    std::vector<DifferentPair> different;
    for (const auto& pair : pairs) {
        if (pair.pValue <= 0.05) {
            different.emplace_back(pair.first, pair.second);
        }
    }
    return compactLetters(means, different).value();
}

// Insert and absorb by Piepho 2004 on R data sets, made with R (comparisons/letters_expected).
TEST(Letters, AreThoseOfPiephosMethod) {
    const auto table = ReferenceTable::load("comparisons/letters_expected.csv");
    ASSERT_EQ(table.rowCount(), 21U);
    for (std::size_t row = 0; row < table.rowCount(); ++row) {
        const std::string name = table.text(row, "dataset");
        const auto data = Grouped::load("comparisons/data_" + name + ".csv", "group", "y");
        std::vector<double> means;
        for (const auto& moments : data.moments()) {
            means.push_back(static_cast<double>(moments.mean));
        }
        const std::size_t group = data.indexOf(table.text(row, "group"));
        EXPECT_EQ(
            lettersOf(means, tukeyPairs(tests::meansOfOneVariance(data.moments())).value())[group],
            table.text(row, "cld_tukey"))
            << name;
    }
}

bool shareALetter(const std::string& a, const std::string& b) {
    return std::any_of(a.begin(), a.end(),
                       [&](char letter) { return b.find(letter) != std::string::npos; });
}

// The defining property, for arbitrary patterns: sharing a letter is the same as not being told
// apart.
TEST(Letters, ShareIfAndOnlyIfNotToldApart) {
    constexpr std::size_t kGroups = 7;
    std::mt19937_64 generator{4};
    for (int trial = 0; trial < 200; ++trial) {
        std::vector<double> means;
        std::vector<DifferentPair> different;
        for (std::size_t i = 0; i < kGroups; ++i) {
            means.push_back(std::uniform_real_distribution<double>{}(generator));
            for (std::size_t j = 0; j < i; ++j) {
                if (std::bernoulli_distribution{0.4}(generator)) {
                    different.emplace_back(i, j);
                }
            }
        }
        const auto letters = compactLetters(means, different).value();
        for (std::size_t i = 0; i < kGroups; ++i) {
            for (std::size_t j = 0; j < i; ++j) {
                const bool isTold = std::find(different.begin(), different.end(),
                                              DifferentPair{i, j}) != different.end();
                ASSERT_EQ(shareALetter(letters[i], letters[j]), !isTold) << trial;
            }
        }
    }
}

TEST(Letters, GoOnAfterZ) {
    std::vector<double> means;
    std::vector<DifferentPair> different;
    for (std::size_t i = 0; i < 28; ++i) {
        means.push_back(-static_cast<double>(i));
        for (std::size_t j = 0; j < i; ++j) {
            different.emplace_back(j, i);
        }
    }
    const auto letters = compactLetters(means, different).value();
    EXPECT_EQ(letters[0], "a");
    EXPECT_EQ(letters[25], "z");
    EXPECT_EQ(letters[27], "b1");
}

TEST(Letters, BadInputIsNamed) {
    const std::vector<double> two{1.0, 2.0};
    const std::vector<DifferentPair> outside{{0, 2}};
    const std::vector<DifferentPair> itself{{1, 1}};
    EXPECT_EQ(compactLetters(two, outside).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(compactLetters(two, itself).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(compactLetters({}, {}).error().code, ErrorCode::InvalidInput);
}

}  // namespace
