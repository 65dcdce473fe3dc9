#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>
#include <functional>
#include <random>

#include "core/spin/reading_by_marks.h"

namespace core::spin {
namespace {

using timebase::ClipClock;
using timebase::FrameStamps;
using timebase::Rational;

// The 95 % interval must hold the truth in 95 % of the shots, within three standard errors.
constexpr double kLevel = 0.95;
double threeStandardErrors(int shots) {
    return 3.0 * std::sqrt(kLevel * (1.0 - kLevel) / shots);
}

constexpr double kTickSeconds = 1.0 / 90000.0;

// A clip of variable frame rate: intervals of 1/120 s, each off by up to a quarter of it.
FrameStamps variableStamps(std::mt19937_64& random) {
    constexpr int kFrames = 80;
    std::uniform_int_distribution<std::int64_t> gap{563, 937};
    FrameStamps stamps{{0}, Rational{1, 90000}};
    for (int i = 1; i < kFrames; ++i) {
        stamps.ticks.push_back(stamps.ticks.back() + gap(random));
    }
    return stamps;
}

// What a careful reader would mark for an instant, given the true capture times.
class Reader {
public:
    Reader(std::vector<double> times, std::mt19937_64& random)
        : m_times{std::move(times)}, m_random{random} {}

    FrameIndex nearest(double t) const {
        const auto after = std::lower_bound(m_times.begin(), m_times.end(), t);
        const auto i = after - m_times.begin();
        return {t - m_times[static_cast<std::size_t>(i - 1)] < *after - t ? i - 1 : i};
    }
    ReturnMark markOf(double t, std::optional<int> turns) {
        const auto after = std::lower_bound(m_times.begin(), m_times.end(), t) - m_times.begin();
        const FrameIndex before{after - 1};
        switch (std::uniform_int_distribution{0, 2}(m_random)) {
            case 0:
                return ReturnMark::nearest(nearest(t), turns);
            case 1:
                return ReturnMark::between(before, {after}, turns);
            default:
                return ReturnMark::between(before, {after}, turns, fractionOf(t, after));
        }
    }

private:
    // Judged within ± 0.15 of the truth, anywhere in that range; kept away from the ends, where a
    // judgement would be one-sided.
    BracketFraction fractionOf(double t, std::ptrdiff_t after) {
        const auto i = static_cast<std::size_t>(after);
        const double truth = (t - m_times[i - 1]) / (m_times[i] - m_times[i - 1]);
        constexpr double kHalfWidth = 0.15;
        const double error =
            std::uniform_real_distribution<double>{-kHalfWidth, kHalfWidth}(m_random);
        return {std::clamp(truth + error, 0.0, 1.0), kHalfWidth};
    }

    std::vector<double> m_times;
    std::mt19937_64& m_random;
};

struct Shot {
    double truthRpm{};
    Result<MarksReading> reading;
};

// One shot: a spin, a clip whose true clock differs from the stamped one, marks, the reading.
Shot randomShot(std::mt19937_64& random, double rpm, double clockSigma) {
    const FrameStamps stamps = variableStamps(random);
    const double stretch = 1.0 + std::normal_distribution<double>{0.0, clockSigma}(random);
    std::vector<double> times;
    for (const auto tick : stamps.ticks) {
        times.push_back(static_cast<double>(tick) * kTickSeconds / stretch);
    }
    Reader reader{times, random};
    const bool spread = std::bernoulli_distribution{0.4}(random);
    double start = times[5];
    MarkSet marks;
    marks.start = StartMark{{5}, {}};
    if (spread) {
        start = std::uniform_real_distribution<double>{times[5], times[9]}(random);
        marks.start = StartMark{reader.nearest(start), 0.5};
    }
    const int turns = std::uniform_int_distribution{1, 4}(random);
    for (int n = 1; n <= turns; ++n) {
        const double instant = start + n * 60.0 / rpm;
        if (n == turns || std::bernoulli_distribution{0.6}(random)) {
            marks.returns.push_back(reader.markOf(instant, n));
        }
    }
    const auto clock = ClipClock::stamped(stamps, clockSigma).value();
    return {rpm, readMarks(marks, clock)};
}

double coverageOf(int shots, const std::function<Shot()>& next) {
    int held = 0;
    for (int i = 0; i < shots; ++i) {
        const Shot shot = next();
        if (!shot.reading) {
            ADD_FAILURE() << shot.reading.error().message;
            return 0.0;
        }
        const auto& interval = shot.reading.value().interval95;
        held += interval.low.rpm <= shot.truthRpm && shot.truthRpm <= interval.high.rpm ? 1 : 0;
    }
    return static_cast<double>(held) / shots;
}

TEST(Coverage, PeriodsEquallyProbable) {
    // The prior of the reading: every period equally probable, here 3 to 12 frames of 1/120 s.
    std::mt19937_64 random{20261};
    constexpr int kShots = 3000;
    std::uniform_real_distribution<double> frames{3.0, 12.0};
    const double share =
        coverageOf(kShots, [&] { return randomShot(random, 7200.0 / frames(random), 0.0); });
    EXPECT_NEAR(share, kLevel, threeStandardErrors(kShots));
}

TEST(Coverage, RatesEquallyProbable) {
    // Another prior than the reading assumes: every rate from 600 to 2400 rpm equally probable.
    std::mt19937_64 random{20262};
    constexpr int kShots = 3000;
    std::uniform_real_distribution<double> rpm{600.0, 2400.0};
    const double share = coverageOf(kShots, [&] { return randomShot(random, rpm(random), 0.0); });
    EXPECT_NEAR(share, kLevel, threeStandardErrors(kShots));
}

TEST(Coverage, ClockUncertaintyIncluded) {
    // An uncertain clock of 2 %, as much as the marks of a few turns.
    std::mt19937_64 random{20263};
    constexpr int kShots = 1500;
    std::uniform_real_distribution<double> frames{3.0, 12.0};
    const double share =
        coverageOf(kShots, [&] { return randomShot(random, 7200.0 / frames(random), 0.02); });
    EXPECT_NEAR(share, kLevel, threeStandardErrors(kShots));
}

// Angles read in frames that follow each other, each with a normal error of three degrees.
Shot randomAngleShot(std::mt19937_64& random) {
    const double rpm = std::uniform_real_distribution<double>{300.0, 2400.0}(random);
    const FrameStamps stamps = variableStamps(random);
    std::normal_distribution<double> error{0.0, 3.0};
    MarkSet marks;
    const int count = std::uniform_int_distribution{3, 9}(random);
    for (int i = 0; i < count; ++i) {
        const double t =
            static_cast<double>(stamps.ticks[static_cast<std::size_t>(i)]) * kTickSeconds;
        const double degrees = 6.0 * rpm * t + error(random);
        marks.angles.push_back({{i},
                                fromDegrees(std::remainder(degrees, 360.0)),
                                fromDegrees(3.0),
                                AngleMark::Spread::Normal,
                                {}});
    }
    return {rpm, readMarks(marks, ClipClock::stamped(stamps).value())};
}

TEST(Coverage, AnglesHoldTheTruthAtLeastAsOften) {
    // The larger of two uncertainties is taken, so the interval may hold the truth more often.
    std::mt19937_64 random{20264};
    constexpr int kShots = 1500;
    const double share = coverageOf(kShots, [&] { return randomAngleShot(random); });
    EXPECT_GE(share, kLevel - threeStandardErrors(kShots));
    EXPECT_LE(share, 0.99);
}

}  // namespace
}  // namespace core::spin
