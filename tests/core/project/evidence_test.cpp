#include <gtest/gtest.h>

#include "core/project/file/database.h"
#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using core::ErrorCode;
using core::project::Store;
using core::project::StoredPicture;
using core::project::StoredPictures;

/// Two frames, the second without a known ball; the bytes are no picture, which the store cannot
/// know.
StoredPictures twoPictures() {
    StoredPicture first{{12}, 0.05, 310.0, 99.0, 88.0, 88, {}, std::string("a\0b\xFF", 4)};
    first.ball = StoredPicture::Ball{354.25, 143.5, 22.125};
    const StoredPicture second{{13}, 0.054, -280.0, 0.0, 1280.0, 160, {}, "xyz"};
    return {"2026-05-03T09:41:07Z", "image/webp", {first, second}};
}

class Evidence : public ::testing::Test {
protected:
    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
};

TEST_F(Evidence, R26_ComesBackAfterClosing) {
    EXPECT_FALSE(store->picturesOf(small.shots[0]).value());
    ASSERT_TRUE(store->notePictures(small.shots[0], twoPictures()));
    store.reset();
    store = Store::open(file).value();
    EXPECT_EQ(store->picturesOf(small.shots[0]).value(), twoPictures());
    EXPECT_FALSE(store->picturesOf(small.shots[1]).value());
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

/// 20 GB said of a picture that has four bytes.
TEST_F(Evidence, R26_APictureSaidToBeHugeIsDamageAndTakesNoMemory) {
    ASSERT_TRUE(store->notePictures(small.shots[0], twoPictures()));
    store.reset();
    {
        namespace p = core::project;
        const auto database = p::Database::open(file).value();
        auto row = database->query("SELECT * FROM evidence").value().at(0);
        row.pop_back();
        auto& said = std::get<std::string>(row.at(5));
        const auto at = said.find("\"bytes\":4");
        ASSERT_NE(at, std::string::npos) << said;
        said.replace(at, 9, "\"bytes\":20000000000");
        const p::Row sealed = p::sealed(row);
        ASSERT_TRUE(database->run("UPDATE evidence SET pictures_json = ?, row_check = ?",
                                  {sealed.at(5), sealed.back()}));
    }
    store = Store::open(file).value();
    const auto pictures = store->picturesOf(small.shots[0]);
    ASSERT_FALSE(pictures);
    EXPECT_EQ(pictures.error().code, ErrorCode::Damaged) << pictures.error().message;
}

TEST_F(Evidence, SizesSayWhatThereIs) {
    ASSERT_TRUE(store->notePictures(small.shots[1], twoPictures()));
    const auto sizes = store->pictureSizes().value();
    ASSERT_EQ(sizes.size(), 1U);
    EXPECT_EQ(sizes[0].shot, small.shots[1]);
    EXPECT_EQ(sizes[0].firstFrame.value, 12);
    EXPECT_EQ(sizes[0].lastFrame.value, 13);
    EXPECT_EQ(sizes[0].bytes, 4 + 3);
}

TEST_F(Evidence, IsNoEditAndNeedsAShot) {
    const auto undo = store->undoText();
    const auto lines = store->history().value().size();
    ASSERT_TRUE(store->notePictures(small.shots[0], twoPictures()));
    EXPECT_EQ(store->undoText(), undo);
    EXPECT_EQ(store->history().value().size(), lines);
    EXPECT_EQ(store->notePictures({9999}, twoPictures()).error().code, ErrorCode::NotFound);
}

TEST_F(Evidence, IsThereAgainWhenTheRemovalOfItsShotIsUndone) {
    ASSERT_TRUE(store->notePictures(small.shots[0], twoPictures()));
    ASSERT_TRUE(store->removeShots(std::vector{small.shots[0]}));
    ASSERT_TRUE(store->notePictures(small.shots[1], twoPictures()));
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(store->picturesOf(small.shots[0]).value(), twoPictures());
}

TEST_F(Evidence, DroppingMakesTheFileShorter) {
    StoredPictures large = twoPictures();
    large.pictures[0].bytes.assign(1'000'000, 'x');
    ASSERT_TRUE(store->notePictures(small.shots[0], large));
    ASSERT_TRUE(store->notePictures(small.shots[1], twoPictures()));
    const auto before = std::filesystem::file_size(file);
    ASSERT_TRUE(store->dropPictures(std::vector{small.shots[0]}));
    EXPECT_LT(std::filesystem::file_size(file) + 900'000, before);
    EXPECT_FALSE(store->picturesOf(small.shots[0]).value());
    EXPECT_EQ(store->picturesOf(small.shots[1]).value(), twoPictures());
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
}

}  // namespace
}  // namespace tests::project
