#include "core/media/frames/frame_plan.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace {

using namespace core;
using core::media::FramePlan;
using core::media::FramePtr;
using core::media::FrameService;
using core::timebase::FrameIndex;
using Direction = FrameService::Direction;

constexpr std::size_t kGibibyte = std::size_t{1} << 30U;
constexpr FrameService::ClipId kClip = 1;

struct Film {
    int width{};
    int height{};
    std::int64_t frames{};
    std::int64_t keyInterval{};
};

/// A picture of which only the size in memory counts.
class SizedPicture final : public media::Frame {
public:
    SizedPicture(std::int64_t frame, const Film& film)
        : m_index{frame}, m_width{film.width}, m_height{film.height} {}
    [[nodiscard]] FrameIndex index() const noexcept override { return m_index; }
    [[nodiscard]] int width() const noexcept override { return m_width; }
    [[nodiscard]] int height() const noexcept override { return m_height; }
    [[nodiscard]] std::size_t bytesHeld() const noexcept override {
        return static_cast<std::size_t>(m_width) * static_cast<std::size_t>(m_height) * 3 / 2;
    }
    [[nodiscard]] PixelBuffer rgb() const override { return {}; }
    [[nodiscard]] PixelBuffer rgbRegion(int, int, int, int) const override { return {}; }
    [[nodiscard]] PixelBuffer rgbScaledToFit(int, int) const override { return {}; }

private:
    FrameIndex m_index;
    int m_width;
    int m_height;
};

/// The plan with a worker and a reviewer who share a clock that ticks with each frame the decoder
/// goes over: how well the plan's order of work does, whatever else the machine is busy with.
class ClockedPlan {
public:
    ClockedPlan(const Film& film, std::size_t maxBytes) : m_film{film}, m_plan{maxBytes} {
        media::ClipIndex index;
        for (std::int64_t frame = 0; frame < film.frames; ++frame) {
            index.stamps.ticks.push_back(frame);
            index.isKey.push_back(frame % film.keyInterval == 0);
        }
        const auto clip = std::make_shared<media::ServedClip>("film.mp4", std::move(index));
        clip->id = kClip;
        clip->bytesPerFrame = SizedPicture{0, film}.bytesHeld();
        m_plan.clips.emplace(kClip, clip);
    }

    /// Asks for the frame and works until it is there; the ticks that took.
    std::int64_t show(std::int64_t frame, Direction direction) {
        m_plan.moveTo({kClip, frame, direction});
        if (isThere(frame)) {
            return 0;
        }
        m_plan.requests[kClip] = {++m_requests, frame, direction, {}};
        if (m_task && !m_task->leadsTo(kClip, frame)) {
            m_task.reset();
        }
        std::int64_t ticks = 0;
        for (; !isThere(frame); ++ticks) {
            tick();
        }
        return ticks;
    }
    /// The decoder goes over one frame, if there is work. False when there is none.
    bool tick() {
        if (!m_task) {
            m_task = m_plan.nextTask();
            if (!m_task) {
                return false;
            }
            m_decoding = m_task->clip->index.keyAtOrBefore(m_task->first).value_or(0);
        }
        if (m_decoding >= m_task->first) {
            take(m_decoding);
            m_task->first = m_decoding + 1;
        }
        if (++m_decoding > m_task->last) {
            m_task.reset();
        }
        return true;
    }
    [[nodiscard]] const media::FrameCache& cache() const { return m_plan.cache; }

private:
    [[nodiscard]] bool isThere(std::int64_t frame) const {
        return m_plan.cache.has({kClip, frame});
    }
    void take(std::int64_t frame) {
        m_plan.cache.insert({kClip, frame}, std::make_shared<SizedPicture>(frame, m_film),
                            [this](const auto& key, std::uint64_t lastUse) {
                                return m_plan.disposability(key, lastUse);
                            });
        const auto request = m_plan.requests.find(kClip);
        if (request != m_plan.requests.end() && request->second.frame == frame) {
            m_plan.requests.erase(request);
        }
    }

    Film m_film;
    FramePlan m_plan;
    std::optional<media::Task> m_task;
    std::int64_t m_decoding{};
    std::uint64_t m_requests{};
};

/// Longest wait, in seconds, of steps backward from the film's end that were asked for after the
/// first second.
double longestWait(ClockedPlan& plan, std::int64_t from, int steps, double framesPerSecond) {
    constexpr double kStepsPerSecond = 30.0;
    double longest = 0.0;
    double now = 0.0;  // ticks
    double due = 0.0;
    for (std::int64_t frame = from; frame > from - steps; --frame) {
        for (; now < due; now += 1.0) {
            plan.tick();
        }
        const auto waited = static_cast<double>(plan.show(frame, Direction::Backward));
        if (now > framesPerSecond) {
            longest = std::max(longest, waited / framesPerSecond);
        }
        now += waited;
        due = std::max(due + framesPerSecond / kStepsPerSecond, now);
    }
    return longest;
}

constexpr double kLongestWaitSeconds = 0.1;

// 86 pictures fit, a group has 120: two and a half frames decoded in the time of a step are enough.
TEST(FramePlan, RunsBackwardThroughGroupsThatDoNotFit) {
    for (const double framesPerSecond : {75.0, 100.0, 150.0, 300.0}) {
        ClockedPlan plan{{3840, 2160, 600, 120}, kGibibyte};
        EXPECT_LE(longestWait(plan, 599, 500, framesPerSecond), kLongestWaitSeconds)
            << framesPerSecond << " frames per second";
        EXPECT_LE(plan.cache().bytesHeld(), kGibibyte);
    }
}

TEST(FramePlan, RunsBackwardThroughGroupsOfAnyLength) {
    constexpr double kFramesPerSecond = 200.0;
    for (const std::int64_t interval : {1, 2, 12, 60, 240, 480}) {
        ClockedPlan plan{{1920, 1080, 960, interval}, kGibibyte};
        EXPECT_LE(longestWait(plan, 959, 900, kFramesPerSecond), kLongestWaitSeconds)
            << "a key frame every " << interval;
    }
}

// Wherever a run stops, what is left to prepare comes to an end.
TEST(FramePlan, RestsAfterARunBackward) {
    constexpr int kMostTicks = 3000;  // several groups' worth
    for (const std::size_t maxBytes : {kGibibyte / 64, kGibibyte / 4, kGibibyte, 4 * kGibibyte}) {
        for (int steps = 1; steps < 140; steps += 3) {
            ClockedPlan plan{{3840, 2160, 600, 120}, maxBytes};
            static_cast<void>(longestWait(plan, 599, steps, 75.0));
            int ticks = 0;
            while (ticks < kMostTicks && plan.tick()) {
                ++ticks;
            }
            EXPECT_LT(ticks, kMostTicks) << steps << " steps, " << maxBytes << " bytes";
        }
    }
}

}  // namespace
