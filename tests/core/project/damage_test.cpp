#include <gtest/gtest.h>

#include <fstream>
#include <iterator>
#include <random>

#include "tests/core/project/project_maker.h"

/// R06: files that are cut off or whose bits have flipped.
namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;
namespace fs = std::filesystem;

class DamagedProject : public ::testing::Test {
protected:
    DamagedProject() {
        {
            auto store = Store::create(file).value();
            const SmallProject small = fill(*store);
            EXPECT_TRUE(store->setMarks(small.shots[0], startAndReturn(12, 17)));
            EXPECT_TRUE(store->keepReading(readingOf(small.shots[0], 1490)));
            content = contentOf(*store->snapshot());
        }
        std::ifstream stream{file, std::ios::binary};
        bytes.assign(std::istreambuf_iterator<char>{stream}, {});
    }
    void write(const std::string& changed) const {
        std::ofstream{file, std::ios::binary} << changed;
    }
    [[nodiscard]] std::string onDisk() const {
        std::ifstream stream{file, std::ios::binary};
        return {std::istreambuf_iterator<char>{stream}, {}};
    }

    TemporaryFolder folder;
    fs::path file = folder.path() / "p.turnmark";
    std::string bytes;
    std::string content;
};

TEST_F(DamagedProject, R06_AFileThatIsCutOffIsRefused) {
    for (const double part : {0.002, 0.01, 0.1, 0.33, 0.5, 0.77, 0.999}) {
        const auto size = static_cast<std::size_t>(part * static_cast<double>(bytes.size()));
        write(bytes.substr(0, size));
        const auto opened = Store::open(file);
        ASSERT_FALSE(opened) << size << " bytes";
        EXPECT_EQ(opened.error().code, ErrorCode::Damaged) << opened.error().message;
        EXPECT_EQ(onDisk(), bytes.substr(0, size));
        EXPECT_EQ(folder.names(), std::vector<std::string>{"p.turnmark"});
    }
}

/// Whatever bit flips: the file is refused and untouched, or what it says is what was written.
TEST_F(DamagedProject, R06_NoFlippedBitEverChangesWhatAProjectSays) {
    constexpr int kFlips = 600;
    std::mt19937_64 random{11};
    int refused = 0;
    for (int i = 0; i < kFlips; ++i) {
        std::string flipped = bytes;
        // The first flips go through the header of the file, the others anywhere.
        const std::size_t at = i < 100 ? static_cast<std::size_t>(i) : random() % bytes.size();
        flipped[at] = static_cast<char>(flipped[at] ^ (1 << (random() % 8)));
        write(flipped);
        auto opened = Store::open(file);
        if (opened) {
            EXPECT_EQ(contentOf(*opened.value()->snapshot()), content) << "byte " << at;
            opened.value().reset();
        } else {
            ++refused;
        }
        ASSERT_EQ(onDisk(), flipped) << "byte " << at;
        ASSERT_EQ(folder.names(), std::vector<std::string>{"p.turnmark"}) << "byte " << at;
    }
    // Much of a small file is unused space in its pages, where a flip does no harm.
    EXPECT_GT(refused, kFlips / 20);
}

TEST_F(DamagedProject, R06_AFlippedDigitInsideAValueIsNoticed) {
    const std::string wanted = "\"frame\":17";
    const auto at = bytes.find(wanted);
    ASSERT_NE(at, std::string::npos);
    // Every copy of the marks: in the row and, harmless there, in the steps of undo.
    std::string flipped = bytes;
    for (auto each = at; each != std::string::npos; each = flipped.find(wanted, each + 1)) {
        flipped[each + wanted.size() - 1] = '6';
    }
    write(flipped);
    const auto opened = Store::open(file);
    ASSERT_FALSE(opened);
    EXPECT_EQ(opened.error().code, ErrorCode::Damaged);
    EXPECT_NE(opened.error().message.find("table shot, row 1"), std::string::npos)
        << opened.error().message;
}

}  // namespace
}  // namespace tests::project
