#include <gtest/gtest.h>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using core::ErrorCode;
using core::project::PictureArchive;
using core::project::Store;

class Archives : public ::testing::Test {
protected:
    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
};

TEST_F(Archives, R25_ComeBackAfterClosing) {
    EXPECT_FALSE(store->archiveOf(small.shots[0]).value());
    ASSERT_TRUE(store->noteArchive(small.shots[0], smallArchive()));
    const PictureArchive newer{"another key", std::string(50'000, '\x7F')};
    ASSERT_TRUE(store->noteArchive(small.shots[1], smallArchive()));
    ASSERT_TRUE(store->noteArchive(small.shots[1], newer));
    store.reset();
    store = Store::open(file).value();
    EXPECT_EQ(store->archiveOf(small.shots[0]).value(), smallArchive());
    EXPECT_EQ(store->archiveOf(small.shots[1]).value(), newer);
    EXPECT_FALSE(store->archiveOf(small.shots[2]).value());
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

TEST_F(Archives, AreNoEdit) {
    const auto undo = store->undoText();
    const auto lines = store->history().value().size();
    bool isTold = false;
    const auto listening = store->listen([&isTold](const Store::Change&) { isTold = true; });
    ASSERT_TRUE(store->noteArchive(small.shots[0], smallArchive()));
    EXPECT_EQ(store->undoText(), undo);
    EXPECT_EQ(store->history().value().size(), lines);
    EXPECT_FALSE(isTold);
}

TEST_F(Archives, NeedAShotAndGoWithIt) {
    ASSERT_TRUE(store->noteArchive(small.shots[0], smallArchive()));
    ASSERT_TRUE(store->removeShots(std::vector{small.shots[0]}));
    EXPECT_EQ(store->noteArchive(small.shots[0], smallArchive()).error().code, ErrorCode::NotFound);
    ASSERT_TRUE(store->noteArchive(small.shots[1], smallArchive()));
    EXPECT_FALSE(store->archiveOf(small.shots[0]).value());
}

}  // namespace
}  // namespace tests::project
