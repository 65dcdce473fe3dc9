// Parts that step as a reviewer does: steps, backward, memory.
#include <algorithm>
#include <chrono>
#include <fstream>
#include <stdexcept>
#include <string>
#include <thread>

#include "tests/benchmarks/media/bare_decoding.h"
#include "tests/benchmarks/media/media_parts.h"
#include "tests/benchmarks/media/served_clip.h"
#include "tests/benchmarks/support/figures.h"

namespace benchmarks {
namespace {

using Clock = std::chrono::steady_clock;
using Direction = ServedClip::Direction;

constexpr double kMostStepMilliseconds = 2.0;
constexpr double kMostBackwardMilliseconds = 100.0;
constexpr double kMostMebibytesBeyondBudget = 300.0;
constexpr double kMebibyte = 1024.0 * 1024.0;

double millisecondsOf(const Cost& cost) {
    return 1000.0 * cost.wallSeconds;
}

/// A value of /proc/self/status in mebibytes.
double mebibytesOf(const std::string& entry) {
    std::ifstream status{"/proc/self/status"};
    for (std::string line; std::getline(status, line);) {
        if (line.rfind(entry + ":", 0) == 0) {
            return std::stod(line.substr(entry.size() + 1)) / 1024.0;
        }
    }
    throw std::runtime_error("/proc/self/status has no " + entry);
}

/// Seconds that the bare loop takes for all frames of the clip.
double bareSeconds(const std::filesystem::path& file) {
    return costOf([&] {
               BareClip bare{file};
               bare.openDecoder(0);
               bare.decodeAll();
           })
        .wallSeconds;
}

void stepAround(const std::string& name, const std::filesystem::path& file) {
    constexpr std::int64_t kReach = 20;  // well inside what a gibibyte holds of either clip
    constexpr int kRounds = 25;
    ServedClip served{file};
    const std::int64_t middle = served.index().frameCount() / 2;
    served.show(middle, Direction::Forward);
    served.waitUntilPrepared();
    std::vector<double> forward;
    std::vector<double> backward;
    for (int round = 0; round < kRounds; ++round) {
        for (std::int64_t frame = middle; frame < middle + kReach; ++frame) {
            forward.push_back(
                millisecondsOf(costOf([&] { served.show(frame + 1, Direction::Forward); })));
        }
        for (std::int64_t frame = middle + kReach; frame > middle; --frame) {
            backward.push_back(
                millisecondsOf(costOf([&] { served.show(frame - 1, Direction::Backward); })));
        }
    }
    printFigure("step forward in the prepared range, " + name + ", p99, ms",
                quantile(forward, 0.99), atMost(kMostStepMilliseconds));
    printFigure("step backward in the prepared range, " + name + ", p99, ms",
                quantile(backward, 0.99), atMost(kMostStepMilliseconds));
}

/// From the clip's end, steps at the given rate; a late answer delays the steps after it.
void stepBackward(const std::string& clip, const std::filesystem::path& file, int stepsPerSecond) {
    constexpr int kSteps = 500;
    const auto interval = std::chrono::nanoseconds{std::chrono::seconds{1}} / stepsPerSecond;
    const std::string name = std::to_string(kSteps) + " steps backward at " +
                             std::to_string(stepsPerSecond) + " a second, " + clip;
    ServedClip served{file};
    const std::int64_t last = served.index().frameCount() - 1;
    std::vector<double> later;  // waits for frames asked for after the first second
    const auto begin = Clock::now();
    auto due = begin;
    for (int step = 0; step < kSteps; ++step) {
        std::this_thread::sleep_until(due);
        const bool isLater = Clock::now() - begin > std::chrono::seconds{1};
        const Cost cost = costOf([&] { served.show(last - step, Direction::Backward); });
        if (isLater) {
            later.push_back(millisecondsOf(cost));
        }
        due = std::max(due + interval, Clock::now());
    }
    const auto late = std::count_if(later.begin(), later.end(),
                                    [](double wait) { return wait > kMostBackwardMilliseconds; });
    printFigure(name + ", slowest after 1 s, ms", quantile(later, 1.0),
                atMost(kMostBackwardMilliseconds));
    printFigure(name + ", steps above 100 ms", static_cast<double>(late));
    printFigure(name + ", p99, ms", quantile(later, 0.99));
    printFigure(name + ", pictures decoded and kept",
                static_cast<double>(served.service().counters().decoded));
    printFigure("bare decoding, " + clip + ", frames a second",
                static_cast<double>(last + 1) / bareSeconds(file));
}

}  // namespace

void measureSteps(const BenchClips& clips) {
    stepAround("H.264 1080p 240 fps", clips.h264At1080p());
    stepAround("H.264 2160p 120 fps", clips.h264At2160p());
}

void measureBackward(const BenchClips& clips, int stepsPerSecond) {
    stepBackward("H.264 1080p 240 fps", clips.h264At1080p(), stepsPerSecond);
    stepBackward("HEVC 1080p 240 fps", clips.hevcAt1080p(), stepsPerSecond);
    stepBackward("H.264 2160p 120 fps", clips.h264At2160p(), stepsPerSecond);
}

void measureMemory(const BenchClips& clips) {
    const auto file = clips.h264At2160p();
    {
        ServedClip served{file};
        for (std::int64_t frame = 0; frame < served.index().frameCount(); ++frame) {
            served.show(frame, Direction::Forward);
        }
    }
    const double budget =
        static_cast<double>(core::media::FrameService::Options{}.maxBytes) / kMebibyte;
    printFigure("memory, 2160p clip stepped end to end, largest resident set, MiB",
                mebibytesOf("VmHWM"), atMost(budget + kMostMebibytesBeyondBudget));
    printFigure("memory, budget for decoded pictures, MiB", budget);
}

}  // namespace benchmarks
