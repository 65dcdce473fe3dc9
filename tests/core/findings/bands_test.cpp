#include "core/findings/bands.h"

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include <cmath>
#include <limits>

namespace {

using core::ErrorCode;
using core::Rpm;
using core::findings::Band;
using core::findings::Bands;
using ::testing::HasSubstr;

constexpr double kInfinity = std::numeric_limits<double>::infinity();

void expectRefused(const core::Result<Bands>& bands, const std::string& why) {
    ASSERT_FALSE(bands.has_value());
    EXPECT_EQ(bands.error().code, ErrorCode::InvalidInput);
    EXPECT_THAT(bands.error().message, HasSubstr(why));
}

TEST(Bands, NamesAndEdgesInTurnMakeBandsWithoutGaps) {
    const auto bands = Bands::parse("low 1200 medium 1500 very high");
    ASSERT_TRUE(bands.has_value()) << bands.error().message;
    ASSERT_EQ(bands.value().all().size(), 3U);
    EXPECT_EQ(bands.value().all()[0], (Band{"low", std::nullopt, Rpm{1200.0}}));
    EXPECT_EQ(bands.value().all()[1], (Band{"medium", Rpm{1200.0}, Rpm{1500.0}}));
    EXPECT_EQ(bands.value().all()[2], (Band{"very high", Rpm{1500.0}, std::nullopt}));
}

TEST(Bands, EveryValueFallsIntoExactlyOne) {
    const auto bands = Bands::parse("low 1200 medium 1500 high 1500.5 top").value();
    for (const double rpm : {-kInfinity, -5.0, 0.0, 1199.999, 1200.0, 1499.9, 1500.0, 1500.49,
                             1500.5, 9e9, kInfinity}) {
        int holding = 0;
        for (const Band& band : bands.all()) {
            const bool isIn =
                (!band.low || band.low->rpm <= rpm) && (!band.high || rpm < band.high->rpm);
            holding += isIn ? 1 : 0;
            if (isIn) {
                EXPECT_EQ(bands.bandOf({rpm}), &band) << rpm;
            }
        }
        EXPECT_EQ(holding, 1) << rpm;
    }
}

TEST(Bands, AnEdgeBelongsToTheUpperBand) {
    EXPECT_EQ(Bands::parse("low 1200 high").value().bandOf({1200.0})->name, "high");
}

TEST(Bands, GapIsRefusedWithTheRangeThatWouldBeInNone) {
    expectRefused(Bands::from({{"low", std::nullopt, Rpm{1200.0}}, {"high", Rpm{1300.0}, {}}}),
                  "from 1200 to below 1300 rpm would be in none");
}

TEST(Bands, OverlapIsRefusedWithTheRangeThatWouldBeInBoth) {
    expectRefused(Bands::from({{"low", std::nullopt, Rpm{1300.0}}, {"high", Rpm{1200.0}, {}}}),
                  "from 1200 to below 1300 rpm would be in both");
}

TEST(Bands, OpenEndInTheMiddleIsAnOverlap) {
    expectRefused(Bands::from({{"low", std::nullopt, std::nullopt}, {"high", Rpm{1200.0}, {}}}),
                  "overlap");
}

TEST(Bands, ClosedEndsAreRefused) {
    expectRefused(Bands::from({{"low", Rpm{100.0}, Rpm{1200.0}}, {"high", Rpm{1200.0}, {}}}),
                  "below 100 rpm would be in no band");
    expectRefused(
        Bands::from({{"low", std::nullopt, Rpm{1200.0}}, {"high", Rpm{1200.0}, Rpm{2000.0}}}),
        "of 2000 rpm and above would be in no band");
}

TEST(Bands, EdgesThatFallAreRefused) {
    expectRefused(Bands::parse("low 1500 medium 1200 high"), "holds no value");
    expectRefused(Bands::parse("low 1500 medium 1500 high"), "holds no value");
}

TEST(Bands, EdgeThatIsNoNumberIsRefused) {
    expectRefused(Bands::from({{"low", std::nullopt, Rpm{std::nan("")}},
                               {"high", Rpm{std::nan("")}, std::nullopt}}),
                  "not a number");
}

TEST(Bands, EdgeBeyondAnySpinIsRefused) {
    const auto bands = Bands::parse("low 1e99 high");
    ASSERT_FALSE(bands.has_value());
    EXPECT_EQ(bands.error().code, ErrorCode::InvalidInput);
}

TEST(Bands, EdgeWithTwoReadingsIsRefused) {
    const auto bands = Bands::parse("low 1,200 high");
    ASSERT_FALSE(bands.has_value());
    EXPECT_EQ(bands.error().code, ErrorCode::Contradiction);
    EXPECT_THAT(bands.error().message, HasSubstr("1200 or 1.200"));
}

TEST(Bands, MissingAndRepeatedNamesAreRefused) {
    expectRefused(Bands::parse("1200 high"), "has no name");
    expectRefused(Bands::parse("low 1200 1500 high"), "1200 to below 1500 has no name");
    expectRefused(Bands::parse("low 1200 low"), "Two bands are named \"low\"");
    expectRefused(Bands::parse("low"), "no edge");
}

TEST(Bands, NothingTypedMeansNoBands) {
    EXPECT_TRUE(Bands::parse("  ").value().isEmpty());
    EXPECT_EQ(Bands{}.bandOf({1000.0}), nullptr);
}

TEST(Bands, TextReadsBackToTheSameBands) {
    const auto bands = Bands::parse(" low  1200.5   rather high 1500 high ").value();
    EXPECT_EQ(bands.text(), "low 1200.5 rather high 1500 high");
    EXPECT_EQ(Bands::parse(bands.text()).value(), bands);
}

}  // namespace
