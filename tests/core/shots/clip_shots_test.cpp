// Shots of independently rendered clips against their truth (tests/data/footage/README.md).
#include <gtest/gtest.h>

#include <cmath>
#include <cstdlib>
#include <fstream>
#include <map>
#include <nlohmann/json.hpp>

#include "core/media/file/sound_envelope.h"
#include "core/media/frames/frame_decoder.h"
#include "core/shots/find_shots.h"
#include "tests/support/reference_csv.h"

namespace {

using namespace core::shots;
using core::media::FrameDecoder;
using core::timebase::ClipClock;

class DecodedFrames : public core::image::FrameSource {
public:
    explicit DecodedFrames(std::unique_ptr<FrameDecoder> decoder) : m_decoder{std::move(decoder)} {}
    core::Result<core::media::FramePtr> frame(core::timebase::FrameIndex index) override {
        auto& kept = m_kept[index.value];
        if (!kept) {
            BOOST_OUTCOME_TRY(decoded, m_decoder->decode(index));
            kept = decoded;
        }
        return kept;
    }

private:
    std::unique_ptr<FrameDecoder> m_decoder;
    std::map<std::int64_t, core::media::FramePtr> m_kept;
};

struct Searched {
    nlohmann::json truth;
    std::vector<FoundShot> shots;
};

core::Result<ClipClock> trueClock(const nlohmann::json& truth,
                                  const core::media::ClipIndex& index) {
    using namespace core::timebase;
    if (truth["variable_frame_rate"].get<bool>()) {
        return ClipClock::stamped(index.stamps);
    }
    const auto fps = std::lround(truth["capture_fps"].get<double>());
    return ClipClock::counted(index.frameCount(), CaptureRate{Rational(fps)});
}

core::Result<Searched> search(const std::filesystem::path& folder, const std::string& name) {
    const auto file = folder / (name + ".mp4");
    std::ifstream text(folder / (name + ".json"));
    Searched out{nlohmann::json::parse(text), {}};
    BOOST_OUTCOME_TRY(index, core::media::readClipIndex(file));
    BOOST_OUTCOME_TRY(decoder, FrameDecoder::open(file, index, 1));
    BOOST_OUTCOME_TRY(sound, core::media::readSoundEnvelope(file));
    BOOST_OUTCOME_TRY(clock, trueClock(out.truth, index));
    DecodedFrames source(std::move(decoder));
    BOOST_OUTCOME_TRY(shots, findShots(source, clock, index.stamps, sound));
    out.shots = shots;
    return out;
}

class SingleFlight : public testing::TestWithParam<const char*> {};

// These clips begin in the flight or before it and show no strike: what counts is that the search
// range holds the flight.
TEST_P(SingleFlight, IsFoundOnce) {
    const auto found = search(tests::dataFolder() / "footage", GetParam());
    ASSERT_TRUE(found.has_value()) << found.error().message;
    const auto& [truth, shots] = found.value();
    ASSERT_EQ(shots.size(), 1U);
    const auto& shot = truth["shots"][0];
    constexpr std::int64_t kCutByTheBorder = 3;  // frames at either end that may be missed
    EXPECT_LE(shots[0].searchRange.first.value, shot["first_frame"].get<std::int64_t>());
    EXPECT_GE(shots[0].searchRange.last.value, shot["last_frame"].get<std::int64_t>());
    EXPECT_NEAR(static_cast<double>(shots[0].strike.value), shot["first_frame"].get<double>(),
                static_cast<double>(kCutByTheBorder));
    EXPECT_FALSE(shots[0].isHeard);
}

INSTANTIATE_TEST_SUITE_P(IndependentFootage, SingleFlight,
                         testing::Values("quarter_120fps", "half_120fps",
                                         "seam_print_tilted_120fps", "quarter_tilted_120fps",
                                         "band_240fps", "band_dot_240fps_hevc",
                                         "slow_240in30_tagged", "slow_240in30_untagged",
                                         "dropped_frames_120fps", "low_light_120fps",
                                         "rolling_shutter_120fps"),
                         [](const auto& clip) { return std::string(clip.param); });

/// Where clips too large for the source tree may lie.
std::filesystem::path largeFootage() {
    const char* named = std::getenv("TURNMARK_FOOTAGE");
    return named != nullptr ? std::filesystem::path(named)
                            : tests::dataFolder() / "../../../shared/footage";
}

// Six strikes, a clap, a hum, a moving figure.
TEST(SessionClip, GivesItsSixShotsAndNothingElse) {
    if (!std::filesystem::exists(largeFootage() / "session_240fps.mp4")) {
        GTEST_SKIP() << "session_240fps.mp4 is not in " << largeFootage()
                     << "; name its folder in TURNMARK_FOOTAGE.";
    }
    const auto found = search(largeFootage(), "session_240fps");
    ASSERT_TRUE(found.has_value()) << found.error().message;
    const auto& [truth, shots] = found.value();
    ASSERT_EQ(shots.size(), truth["shots"].size());
    constexpr double kStrikeTol = 2.0;  // frames; the sound travels for an unknown 3 to 9 ms
    for (std::size_t k = 0; k < shots.size(); ++k) {
        const auto& shot = truth["shots"][k];
        EXPECT_NEAR(static_cast<double>(shots[k].strike.value), shot["first_frame"].get<double>(),
                    kStrikeTol);
        EXPECT_GE(shots[k].searchRange.last.value + 1, shot["last_frame"].get<std::int64_t>());
        EXPECT_TRUE(shots[k].isHeard) << k;
    }
}

}  // namespace
