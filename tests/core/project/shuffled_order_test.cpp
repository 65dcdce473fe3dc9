#include "core/project/shuffled_order.h"

#include <gtest/gtest.h>

#include <algorithm>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;

class ShuffledOrder : public ::testing::Test {
protected:
    [[nodiscard]] std::vector<ShotId> order() const {
        const auto snapshot = store->snapshot();
        std::vector<ShotId> ids;
        for (const Shot* shot : shotsShuffled(*snapshot)) {
            ids.push_back(shot->id);
        }
        return ids;
    }
    void addShots(int count) {
        const auto clip = store->snapshot()->clips.begin()->id;
        std::vector<Shot> shots(static_cast<std::size_t>(count));
        for (Shot& shot : shots) {
            shot.clip = clip;
        }
        ASSERT_TRUE(store->addShots(shots));
    }

    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
};

TEST_F(ShuffledOrder, HasEveryShotOnceAndStaysAfterOpeningAgain) {
    addShots(40);
    const auto before = order();
    auto sorted = before;
    std::sort(sorted.begin(), sorted.end());
    EXPECT_EQ(std::adjacent_find(sorted.begin(), sorted.end()), sorted.end());
    EXPECT_EQ(sorted.size(), store->snapshot()->shots.size());
    EXPECT_NE(sorted, before);
    store.reset();
    store = Store::open(file).value();
    EXPECT_EQ(order(), before);
}

TEST_F(ShuffledOrder, ShotsThatComeOrGoLeaveTheOthersInTheirOrder) {
    addShots(20);
    const auto before = order();
    addShots(20);
    auto after = order();
    std::erase_if(after, [&](ShotId id) {
        return std::find(before.begin(), before.end(), id) == before.end();
    });
    EXPECT_EQ(after, before);
}

// Under a random order, of 1000 shots filmed one after the other about half come later than the one
// filmed before them: 499.5, with a standard deviation of sqrt((n + 1) / 12) = 9.1 (ascents of a
// random permutation; D. E. Knuth, The Art of Computer Programming 3, 5.1.3, from memory).
TEST_F(ShuffledOrder, TellsNothingOfTheOrderOfTheFilm) {
    addShots(1000);
    const auto shots = order();
    int ascents = 0;
    for (std::size_t i = 1; i < shots.size(); ++i) {
        ascents += shots[i] > shots[i - 1] ? 1 : 0;
    }
    const double expected = 0.5 * static_cast<double>(shots.size() - 1);
    EXPECT_NEAR(ascents, expected, 3.0 * 9.1);
}

}  // namespace
}  // namespace tests::project
