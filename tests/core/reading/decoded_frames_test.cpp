#include "core/reading/decoded_frames.h"

#include <gtest/gtest.h>

namespace core::reading {
namespace {

constexpr std::size_t kMebibyte = std::size_t{1} << 20U;
constexpr std::size_t kFrameBytes = 64 * kMebibyte;

/// A picture that says it is large.
class LargeFrame : public media::Frame {
public:
    explicit LargeFrame(timebase::FrameIndex index) : m_index{index} {}
    [[nodiscard]] timebase::FrameIndex index() const noexcept override { return m_index; }
    [[nodiscard]] int width() const noexcept override { return 1; }
    [[nodiscard]] int height() const noexcept override { return 1; }
    [[nodiscard]] std::size_t bytesHeld() const noexcept override { return kFrameBytes; }
    [[nodiscard]] PixelBuffer rgb() const override { return rgbRegion(0, 0, 1, 1); }
    [[nodiscard]] PixelBuffer rgbRegion(int, int, int width, int height) const override {
        return {width, height, PixelFormat::Rgb8};
    }
    [[nodiscard]] PixelBuffer rgbScaledToFit(int, int) const override { return rgb(); }

private:
    timebase::FrameIndex m_index;
};

/// Counts what is decoded.
class CountingDecoder : public media::FrameDecoder {
public:
    explicit CountingDecoder(int& decoded) : m_decoded{decoded} {}
    [[nodiscard]] const media::ClipIndex& index() const noexcept override { return m_index; }
    Result<media::FramePtr> decode(timebase::FrameIndex frame, std::stop_token) override {
        ++m_decoded;
        return media::FramePtr{std::make_shared<LargeFrame>(frame)};
    }
    Result<void> decodeRange(timebase::FrameIndex, timebase::FrameIndex, const Sink&,
                             std::stop_token) override {
        return ok();
    }
    [[nodiscard]] timebase::FrameIndex keyBefore(timebase::FrameIndex frame) const override {
        return frame;
    }
    [[nodiscard]] bool goesOnTo(timebase::FrameIndex) const override { return true; }

private:
    media::ClipIndex m_index;
    int& m_decoded;
};

/// How many of the latest of twenty frames are kept.
int framesKept(jobs::MemoryBudget& budget) {
    int decoded = 0;
    DecodedFrames frames{
        std::make_unique<CountingDecoder>(decoded), {}, DecodedFrames::kUsualMaxBytes, budget};
    for (std::int64_t i = 0; i < 20; ++i) {
        EXPECT_TRUE(frames.frame({i}).has_value());
    }
    EXPECT_EQ(budget.counters().heldBytes[static_cast<std::size_t>(jobs::MemoryUse::Readings)] %
                  kFrameBytes,
              0U);
    int kept = 0;
    decoded = 0;
    for (std::int64_t i = 19; i >= 0 && decoded == 0; --i) {
        EXPECT_TRUE(frames.frame({i}).has_value());
        kept += decoded == 0 ? 1 : 0;
    }
    return kept;
}

TEST(DecodedFrames, KeepsTheLatestAsFarAsTheMemoryBudgetAllows) {
    jobs::MemoryBudget budget{1024 * kMebibyte};
    EXPECT_EQ(framesKept(budget), 5);  // 320 MiB
    jobs::MemoryBudget::Holding others{budget, jobs::MemoryUse::Pictures};
    others.set(800 * kMebibyte);
    EXPECT_EQ(framesKept(budget), 3);  // 224 MiB are left
    others.set(1024 * kMebibyte);
    EXPECT_EQ(framesKept(budget), 2);  // 128 MiB whatever others hold
    EXPECT_EQ(budget.counters().allBytes(), 1024 * kMebibyte);
}

}  // namespace
}  // namespace core::reading
