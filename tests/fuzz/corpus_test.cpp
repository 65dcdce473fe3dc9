#include <gtest/gtest.h>

#include <algorithm>
#include <filesystem>
#include <random>

#include "tests/fuzz/taken.h"
#include "tests/support/process.h"

/// A short round of every fuzzer: what lies in its corpus, and the same with seeded damage.
namespace tests::fuzz {
namespace {

namespace fs = std::filesystem;

constexpr int kRounds = 8;

class Corpus : public ::testing::TestWithParam<Target> {
protected:
    static std::vector<fs::path> files() {
        std::vector<fs::path> files;
        for (const auto& entry : fs::directory_iterator{fs::path{"fuzz"} / GetParam().name}) {
            files.push_back(entry.path());
        }
        std::sort(files.begin(), files.end());
        return files;
    }
    static void feed(const std::string& bytes) {
        GetParam().feed({reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size()});
    }
};

std::string damaged(std::string bytes, std::mt19937& random) {
    for (unsigned change = random() % 4; change < 4 && !bytes.empty(); ++change) {
        const std::size_t at = random() % bytes.size();
        const std::size_t size = std::min<std::size_t>(random() % 8, bytes.size() - at);
        switch (random() % 4) {
            case 0:
                bytes[at] ^= static_cast<char>(1U << (random() % 8));
                break;
            case 1:
                bytes[at] = static_cast<char>(random() & 255U);
                break;
            case 2:
                bytes.erase(at, size);
                break;
            default:
                bytes.insert(at, bytes, random() % bytes.size(), size);
        }
    }
    return bytes;
}

TEST_P(Corpus, ComesThroughItsDoorInWordsOrInValues) {
    ASSERT_FALSE(files().empty());
    for (const fs::path& file : files()) {
        EXPECT_NO_THROW(feed(tests::bytesOf(file))) << file;
    }
}

TEST_P(Corpus, ComesThroughItsDoorDamagedToo) {
    std::mt19937 random{20261129};
    for (const fs::path& file : files()) {
        const std::string bytes = tests::bytesOf(file);
        for (int round = 0; round < kRounds; ++round) {
            EXPECT_NO_THROW(feed(damaged(bytes, random))) << file << ", round " << round;
        }
    }
}

INSTANTIATE_TEST_SUITE_P(Doors, Corpus, ::testing::ValuesIn(targets().begin(), targets().end()),
                         [](const auto& target) { return std::string{target.param.name}; });

}  // namespace
}  // namespace tests::fuzz
