#include "core/project/rescue.h"

#include <gtest/gtest.h>

#include <fstream>
#include <iterator>

#include "tests/core/project/project_maker.h"

/// Damaged pages and rows: what is sound comes out as it was, what is lost is said, and the new
/// project is sound.
namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
namespace fs = std::filesystem;

class DamagedSeason : public ::testing::Test {
protected:
    static constexpr int kShots = 120;

    DamagedSeason() {
        {
            auto store = Store::create(file).value();
            const SmallProject small = fill(*store);
            const auto clip =
                store->addClip(clipNamed("long.mp4", small.session, 12000), framesOf(12000))
                    .value();
            std::vector<Shot> shots;
            for (int i = 0; i < kShots; ++i) {
                shots.push_back(shotOver(clip, 100 * i, 100 * i + 40));
            }
            std::int64_t first = 0;
            const auto ids = store->addShots(shots).value();
            for (const ShotId shot : ids) {
                EXPECT_TRUE(store->setMarks(shot, startAndReturn(first + 12, first + 17)));
                const double rpm = 1400.0 + static_cast<double>(shot.value);
                EXPECT_TRUE(store->keepReading(readingOf(shot, rpm)));
                first += 100;
            }
            all = store->snapshot();
        }
        std::ifstream stream{file, std::ios::binary};
        bytes.assign(std::istreambuf_iterator<char>{stream}, {});
    }
    void write(const std::string& changed) const {
        std::ofstream{file, std::ios::binary} << changed;
    }
    /// Saved shots and readings are those that were written.
    void expectTrue(const Snapshot& snapshot) const {
        for (const Shot& shot : snapshot.shots) {
            const Shot* was = all->shots.find(shot.id);
            ASSERT_NE(was, nullptr);
            EXPECT_EQ(shot.firstFrame, was->firstFrame);
            EXPECT_EQ(shot.lastFrame, was->lastFrame);
            EXPECT_TRUE(shot.counting == was->counting || !shot.counting);
        }
        for (const Reading& reading : snapshot.readings) {
            const Reading* was = all->readings.find(reading.id);
            ASSERT_NE(was, nullptr);
            EXPECT_EQ(reading.rate.value.rpm, was->rate.value.rpm);
            EXPECT_EQ(reading.shot, was->shot);
        }
    }

    TemporaryFolder folder;
    fs::path file = folder.path() / "p.turnmark";
    fs::path saved = folder.path() / "saved.turnmark";
    std::string bytes;
    SnapshotPtr all;
};

TEST_F(DamagedSeason, ASoundProjectIsSavedWhole) {
    const auto rescue = rescueProject(file, saved);
    ASSERT_TRUE(rescue) << rescue.error().message;
    EXPECT_EQ(rescue.value().lostCount(), 0U);
    const auto store = Store::open(saved).value();
    EXPECT_EQ(contentOf(*store->snapshot()), contentOf(*all));
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
    std::ifstream stream{file, std::ios::binary};
    EXPECT_EQ(std::string(std::istreambuf_iterator<char>{stream}, {}), bytes);
}

/// Every fifth page of the file in turn is lost, as a bad block of a disk loses it
/// (https://www.sqlite.org/fileformat2.html: the size of a page stands at byte 16).
TEST_F(DamagedSeason, WithAnyPageLostTheRestIsSaved) {
    const auto at = [this](std::size_t byte) { return static_cast<unsigned char>(bytes[byte]); };
    const std::size_t pageSize = at(16) == 0 && at(17) == 1 ? 65536U : at(16) * 256U + at(17);
    const std::size_t pages = bytes.size() / pageSize;
    ASSERT_GT(pages, 20U);
    std::size_t rescued = 0;
    std::size_t shots = 0;
    for (std::size_t page = 1; page < pages; page += 5) {
        std::string damaged = bytes;
        damaged.replace(page * pageSize, pageSize, pageSize, '\0');
        write(damaged);
        fs::remove(saved);
        const auto rescue = rescueProject(file, saved);
        if (!rescue) {  // a page of the schema
            EXPECT_EQ(rescue.error().code, ErrorCode::Damaged) << rescue.error().message;
            EXPECT_FALSE(fs::exists(saved));
            continue;
        }
        const auto store = Store::open(saved);
        ASSERT_TRUE(store) << store.error().message;
        EXPECT_TRUE(store.value()->faults().value().empty());
        const auto snapshot = store.value()->snapshot();
        expectTrue(*snapshot);
        if (snapshot->shots.size() < all->shots.size()) {
            EXPECT_GT(rescue.value().lostCount(), 0U) << "page " << page;
        }
        ++rescued;
        shots += snapshot->shots.size();
    }
    RecordProperty("pages", static_cast<int>(pages));
    RecordProperty("rescued", static_cast<int>(rescued));
    EXPECT_GT(rescued, pages / 5 * 3 / 4);
    // A quarter of the pages holds the time stamps of the long clip, and its shots go with it; one
    // of the others holds a few shots.
    EXPECT_GT(shots, rescued * all->shots.size() * 2 / 3);
}

TEST_F(DamagedSeason, AFileThatIsThereIsNotReplaced) {
    std::ofstream{saved} << "other";
    EXPECT_EQ(rescueProject(file, saved).error().code, ErrorCode::InvalidInput);
}

TEST_F(DamagedSeason, ANameOfNothingIsNotFound) {
    EXPECT_EQ(rescueProject(folder.path() / "nothing.turnmark", saved).error().code,
              ErrorCode::NotFound);
}

}  // namespace
}  // namespace tests::project
