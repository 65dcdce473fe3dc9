#include "ui/reading/card/headline.h"

#include <gtest/gtest.h>

#include "ui/models/spin_unit.h"

/// What stands where there is no number. Refusals are those of the fit and of the track.
namespace ui::reading {
namespace {

using core::spin::fit::CandidateKind;

ShotView viewWith(core::Result<core::reading::PictureReading> outcome) {
    ShotView view;
    view.clip.clock = core::project::ClockSetting{};
    view.proposal =
        std::make_shared<const PictureProposal>(PictureProposal{{}, std::move(outcome)});
    return view;
}

core::reading::PictureReading refused(const std::string& reason) {
    core::reading::PictureReading read;
    read.reason = reason;
    return read;
}

QStringList textsOf(const QList<Help>& helps) {
    QStringList texts;
    for (const Help& help : helps) {
        texts << help.text;
    }
    return texts;
}

const core::project::Session kNothingKnown{};

TEST(Headline, SaysNoReadingAndWhy) {
    const auto view = viewWith(core::fail(core::ErrorCode::NotFound, "No ball in flight."));
    const auto headline = headlineOf(view, nullptr, methodToKeep(view, std::nullopt));
    EXPECT_EQ(headline.number, QString{});
    EXPECT_EQ(headline.words, QStringLiteral("No reading"));
    EXPECT_TRUE(whyNoNumber(view).startsWith(QStringLiteral("No ball in flight.")));
    EXPECT_EQ(textsOf(helpsFor(view, &kNothingKnown)),
              QStringList{QStringLiteral("Point at the ball")});
}

TEST(Headline, AClockThatIsNotSettledComesFirst) {
    auto view = viewWith(core::fail(core::ErrorCode::NotFound, "No ball in flight."));
    view.clip.clock.reset();
    EXPECT_EQ(textsOf(helpsFor(view, &kNothingKnown)),
              QStringList{QStringLiteral("Enter the rate")});
}

TEST(Headline, OffersTheTwoRatesThatARefusalNames) {
    auto read = refused("Two rates explain the pictures about equally well: 1203 and 2405 rpm.");
    for (const auto& [kind, rpm] :
         {std::pair{CandidateKind::Best, 1202.6}, std::pair{CandidateKind::Minimum, 2405.3},
          std::pair{CandidateKind::Minimum, 3333.0}, std::pair{CandidateKind::Alias, 2405.0}}) {
        core::spin::fit::Candidate candidate;
        candidate.kind = kind;
        candidate.rate = {rpm};
        read.fit.candidates.push_back(candidate);
    }
    const auto helps = helpsFor(viewWith(read), nullptr);
    EXPECT_EQ(textsOf(helps),
              (QStringList{QStringLiteral("Lay out 1203 rpm"), QStringLiteral("Lay out 2405 rpm"),
                           QStringLiteral("Point at the ball")}));
    EXPECT_DOUBLE_EQ(helps[1].rpm, 2405.3);
}

TEST(Headline, AsksForFactsOfTheDayThatAreNotKnown) {
    const auto view = viewWith(refused("The marking does not show."));
    EXPECT_EQ(textsOf(helpsFor(view, &kNothingKnown)),
              (QStringList{QStringLiteral("Point at the ball"), QStringLiteral("Enter the readout"),
                           QStringLiteral("Enter the field of view")}));
    core::project::Session known;
    known.readoutSeconds = 0.008;
    known.fieldOfViewDeg = 60.0;
    EXPECT_EQ(textsOf(helpsFor(view, &known)), QStringList{QStringLiteral("Point at the ball")});
}

// 2400 rpm are 40 turns a second and 251.3 rad/s.
TEST(Headline, ShowsTheOtherUnitWhereAPersonChoseIt) {
    auto read = refused({});
    read.rate = core::Measured<core::Rpm>{{2400.0}, {6.0}};
    read.interval95 = core::Interval<core::Rpm>{{2388.0}, {2412.0}};
    const auto view = viewWith(read);
    const auto intervalIn = [&view](models::SpinUnit unit) {
        models::setSpinUnit(unit);
        return headlineOf(view, nullptr, Method::Pictures).interval;
    };
    EXPECT_TRUE(intervalIn(models::SpinUnit::TurnsPerSecond)
                    .endsWith(QStringLiteral("\n40.00 ± 0.10 turns/s")));
    EXPECT_TRUE(intervalIn(models::SpinUnit::RadiansPerSecond)
                    .endsWith(QStringLiteral("\n251.33 ± 0.63 rad/s")));
    EXPECT_FALSE(intervalIn(models::SpinUnit::RpmOnly).contains(QLatin1Char{'\n'}));
}

TEST(Headline, MarksWithoutANumberAreNotPassedOver) {
    auto read = refused({});
    read.rate = core::Measured<core::Rpm>{{2405.3}, {4.1}};
    read.interval95 = core::Interval<core::Rpm>{{2397.0}, {2413.6}};
    auto view = viewWith(read);
    EXPECT_EQ(methodToKeep(view, std::nullopt), Method::Pictures);
    view.shot.marks.returns = {core::spin::ReturnMark::nearest({12}, 1)};
    EXPECT_EQ(methodToKeep(view, std::nullopt), std::nullopt);
    EXPECT_EQ(methodToKeep(view, Method::Pictures), Method::Pictures) << "the reader chose";
}

TEST(Headline, AKeptNumberIsTheHeadlineAndSaysWhenItIsReadOtherwiseNow) {
    auto read = refused({});
    read.rate = core::Measured<core::Rpm>{{2405.3}, {4.1}};
    read.interval95 = core::Interval<core::Rpm>{{2397.0}, {2413.6}};
    const auto view = viewWith(read);
    core::project::Reading kept;
    kept.method = core::project::ReadingMethod::RotationFit;
    kept.rate = {{2405.3}, {4.1}};
    kept.interval95 = *read.interval95;
    const auto same = headlineOf(view, &kept, Method::Pictures);
    EXPECT_EQ(same.number, QStringLiteral("2405.3"));
    EXPECT_EQ(same.source, QStringLiteral("Kept, from the pictures"));
    EXPECT_TRUE(same.isKept);
    EXPECT_FALSE(same.isSaidOtherwise);
    kept.rate.value = {2380.0};
    EXPECT_TRUE(headlineOf(view, &kept, Method::Pictures).isSaidOtherwise);
}

}  // namespace
}  // namespace ui::reading
