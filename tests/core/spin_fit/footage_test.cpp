#include <gtest/gtest.h>

#include <algorithm>
#include <cmath>

#include "tests/core/spin_fit/filmed_shot.h"

// The fit against footage that was rendered by path tracing, independently of this project
// (tests/data/footage/README.md): spin and axis stand in the truth beside each clip. The track is
// the truth with errors of kTrackErrorPx; the field of view is not given.
namespace core::spin::fit {
namespace {

constexpr double kTrackErrorPx = 0.3;    // what a tracker is expected to reach
constexpr double kClipRateShare = 0.01;  // the target for a single clip
constexpr double kClipSigmas = 3.0;      // and within three of the fit's own standard uncertainties
constexpr double kMedianShare = 0.003;
constexpr double kMedianAxisDegrees = 2.0;

struct Clip {
    const char* name;
    bool mayBeRefused;
};
// Strong noise and a ball that moves by half its width during the exposure; and a marking that is
// the same after half a turn: there "no reading" is an honest answer.
constexpr Clip kClips[] = {{"band_240fps", true},
                           {"band_dot_240fps_hevc", false},
                           {"dropped_frames_120fps", false},
                           {"half_120fps", false},
                           {"low_light_120fps", true},
                           {"quarter_120fps", false},
                           {"quarter_tilted_120fps", false},
                           {"rolling_shutter_120fps", false},
                           {"seam_print_tilted_120fps", false},
                           {"slow_240in30_tagged", false},
                           {"slow_240in30_untagged", false}};

struct Fitted {
    std::unique_ptr<tests::FilmedShot> shot;
    FitOutcome outcome;

    [[nodiscard]] double relativeError() const { return outcome.rate.value.rpm / shot->rpm - 1.0; }
    [[nodiscard]] double axisErrorDegrees() const {
        const Vector3& w = outcome.angularVelocity;
        const Eigen::Vector3d found{w.x, w.y, w.z};
        const double cosine = found.normalized().dot(shot->angularVelocity.normalized());
        return toDegrees({std::acos(std::clamp(cosine, -1.0, 1.0))});
    }
};

Fitted fitClip(const std::string& name, std::uint64_t seed) {
    const tests::TrackErrors errors{
        .centrePx = kTrackErrorPx, .radiusPx = kTrackErrorPx, .seed = seed};
    auto shot = std::make_unique<tests::FilmedShot>("footage/" + name + ".json", errors);
    auto outcome = fitRotation(shot->input);
    if (!outcome) {
        throw std::runtime_error{outcome.error().message};
    }
    return {std::move(shot), std::move(outcome.value())};
}

/// All clips fitted once for all tests.
const std::vector<Fitted>& fittedClips() {
    static const std::vector<Fitted> kFitted = [] {
        std::vector<Fitted> all;
        for (const Clip& clip : kClips) {
            all.push_back(fitClip(clip.name, all.size() + 1));
        }
        return all;
    }();
    return kFitted;
}

double median(std::vector<double> values) {
    std::sort(values.begin(), values.end());
    const std::size_t half = values.size() / 2;
    return values.size() % 2 == 1 ? values[half] : 0.5 * (values[half - 1] + values[half]);
}

TEST(FitOnFootage, EachClipIsReadRightOrRefusedWhereItMayBe) {
    const auto& fitted = fittedClips();
    for (std::size_t i = 0; i < fitted.size(); ++i) {
        SCOPED_TRACE(kClips[i].name);
        const FitOutcome& outcome = fitted[i].outcome;
        if (outcome.status == FitStatus::NoReading) {
            EXPECT_TRUE(kClips[i].mayBeRefused) << outcome.reason;
            EXPECT_FALSE(outcome.reason.empty());
            continue;
        }
        const double rpm = fitted[i].shot->rpm;
        EXPECT_NEAR(outcome.rate.value.rpm, rpm, kClipRateShare * rpm);
        EXPECT_NEAR(outcome.rate.value.rpm, rpm, kClipSigmas * outcome.rate.sigma.rpm);
    }
}

TEST(FitOnFootage, MediansMeetTheTargets) {
    std::vector<double> errors;
    std::vector<double> axes;
    for (const Fitted& clip : fittedClips()) {
        if (clip.outcome.status == FitStatus::Reading) {
            errors.push_back(std::abs(clip.relativeError()));
            axes.push_back(clip.axisErrorDegrees());
        }
    }
    ASSERT_GE(errors.size(), std::size(kClips) - 2);
    EXPECT_LE(median(errors), kMedianShare);
    EXPECT_LE(median(axes), kMedianAxisDegrees);
}

TEST(FitOnFootage, TheHalfTurnTwinOfABandIsListed) {
    const Fitted& band = fittedClips().front();
    // At 240 frames per second half a turn a frame is 7200 rpm.
    const double twinRpm = 7200.0 - band.shot->rpm;
    constexpr double kNearShare = 0.02;
    bool isListed = false;
    for (const Candidate& candidate : band.outcome.candidates) {
        isListed |= candidate.kind == CandidateKind::Twin &&
                    std::abs(candidate.rate.rpm - twinRpm) < kNearShare * twinRpm;
    }
    EXPECT_TRUE(isListed);
}

}  // namespace
}  // namespace core::spin::fit
