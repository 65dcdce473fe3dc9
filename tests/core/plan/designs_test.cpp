#include "core/plan/designs.h"

#include <gtest/gtest.h>

#include <map>
#include <numeric>
#include <set>

namespace core::plan {
namespace {

constexpr std::size_t kMostTreatments = 12;

/// Every row names every treatment once.
void expectRowsAreComplete(const Design& design, std::size_t n) {
    for (const auto& row : design) {
        EXPECT_EQ(std::set<std::size_t>(row.begin(), row.end()).size(), n);
        EXPECT_EQ(row.size(), n);
        EXPECT_LT(*std::max_element(row.begin(), row.end()), n);
    }
}

/// How often each treatment stands in each place.
std::map<std::pair<std::size_t, std::size_t>, int> placeCounts(const Design& design) {
    std::map<std::pair<std::size_t, std::size_t>, int> counts;
    for (const auto& row : design) {
        for (std::size_t place = 0; place < row.size(); ++place) {
            ++counts[{place, row[place]}];
        }
    }
    return counts;
}

/// How often each ordered pair stands side by side.
std::map<std::pair<std::size_t, std::size_t>, int> neighbourCounts(const Design& design) {
    std::map<std::pair<std::size_t, std::size_t>, int> counts;
    for (const auto& row : design) {
        for (std::size_t place = 1; place < row.size(); ++place) {
            ++counts[{row[place - 1], row[place]}];
        }
    }
    return counts;
}

void expectAllEqual(const std::map<std::pair<std::size_t, std::size_t>, int>& counts,
                    std::size_t howMany, int each) {
    EXPECT_EQ(counts.size(), howMany);
    for (const auto& [pair, count] : counts) {
        EXPECT_EQ(count, each) << pair.first << ", " << pair.second;
    }
}

void expectWilliams(const Design& design, std::size_t n) {
    const int squares = n % 2 == 0 || n == 1 ? 1 : 2;
    EXPECT_EQ(design.size(), n * static_cast<std::size_t>(squares));
    expectRowsAreComplete(design, n);
    expectAllEqual(placeCounts(design), n * n, squares);
    expectAllEqual(neighbourCounts(design), n * (n - 1), squares);
}

// The defining properties of the design in Williams (1949): each treatment equally often in each
// place, each ordered pair of neighbours equally often, one square for n even and two for n odd.
TEST(Designs, WilliamsHasTheBalanceThatDefinesIt) {
    for (std::size_t n = 1; n <= kMostTreatments; ++n) {
        SCOPED_TRACE(n);
        expectWilliams(williamsDesign(n), n);
        RandomOrder random{n};
        expectWilliams(randomWilliamsDesign(n, random), n);
    }
}

// The square for four treatments as text books on cross-over trials print it (A B D C / B C A D /
// C D B A / D A C B); from memory, for example Jones and Kenward, Design and Analysis of Cross-Over
// Trials.
TEST(Designs, WilliamsForFourIsThePublishedSquare) {
    const Design published{{0, 1, 3, 2}, {1, 2, 0, 3}, {2, 3, 1, 0}, {3, 0, 2, 1}};
    EXPECT_EQ(williamsDesign(4), published);
}

// A Latin square: each symbol once in each row and once in each column (ISO 3534-3).
TEST(Designs, LatinSquaresHaveEachOnceInRowAndColumn) {
    for (std::size_t n = 1; n <= kMostTreatments; ++n) {
        RandomOrder random{7 * n};
        for (const Design& design : {cyclicSquare(n), randomLatinSquare(n, random)}) {
            EXPECT_EQ(design.size(), n);
            expectRowsAreComplete(design, n);
            expectAllEqual(placeCounts(design), n * n, 1);
        }
    }
}

// First numbers of SplitMix64 from the seed 1234567, as they are listed for implementations of it
// in many languages; from memory.
TEST(RandomOrderTest, IsSplitMix64) {
    RandomOrder random{1234567};
    for (const std::uint64_t published :
         {6457827717110365317U, 3203168211198807973U, 9817491932198370423U, 4593380528125082431U,
          16408922859458223821U}) {
        EXPECT_EQ(random.next(), published);
    }
}

TEST(RandomOrderTest, EveryOrderOfThreeIsEquallyProbable) {
    constexpr int kShuffles = 60000;
    std::map<std::vector<int>, int> counts;
    RandomOrder random{5};
    for (int i = 0; i < kShuffles; ++i) {
        std::vector<int> items{0, 1, 2};
        random.shuffle(items);
        ++counts[items];
    }
    ASSERT_EQ(counts.size(), 6U);
    double chiSquare = 0.0;
    for (const auto& [order, count] : counts) {
        chiSquare += (count - kShuffles / 6.0) * (count - kShuffles / 6.0) / (kShuffles / 6.0);
    }
    // 99.9 % quantile of chi-square with 5 degrees of freedom (R: qchisq(0.999, 5) = 20.515).
    EXPECT_LT(chiSquare, 20.515);
}

TEST(RandomOrderDeathTest, NothingBelowZeroIsABug) {
    RandomOrder random{1};
    EXPECT_DEATH((void)random.below(0), "precondition");
}

}  // namespace
}  // namespace core::plan
