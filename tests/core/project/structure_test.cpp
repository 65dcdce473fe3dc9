#include <gtest/gtest.h>

#include <limits>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;

class ProjectStructure : public ::testing::Test {
protected:
    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();

    void reopen() {
        store.reset();
        store = Store::open(file).value();
    }
};

TEST_F(ProjectStructure, EverythingOfASessionComesBack) {
    Session session;
    session.name = "  Bench 1 ";
    session.date = "2026-05-03";
    session.marking = BallMarking::BandWithDot;
    session.ballDiameterMm = 66.9;
    session.fieldOfViewDeg = 54.3;
    session.exposureSeconds = 0.0005;
    session.readoutSeconds = 0.0;
    session.note = "wind from the left\nnone later";
    const SessionId id = store->addSession(session).value();
    reopen();
    session.id = id;
    session.name = "Bench 1";  // trimmed
    EXPECT_EQ(*store->snapshot()->sessions.find(id), session);
}

TEST_F(ProjectStructure, NamesMayBeOfAnyLanguage) {
    const std::string name = "Größe № 5 · 弦 🎾";
    const ImplementId implement =
        store->addImplement({{}, name, "neu — ungespielt", {{"größe", "弦"}}}).value();
    const HitterId hitter = store->addHitter({{}, "Žofie Ångström"}).value();
    reopen();
    EXPECT_EQ(store->snapshot()->implements.find(implement)->name, name);
    EXPECT_EQ(store->snapshot()->implements.find(implement)->attributes.at("größe"), "弦");
    EXPECT_EQ(store->snapshot()->hitters.find(hitter)->name, "Žofie Ångström");
}

TEST_F(ProjectStructure, EmptyAndRepeatedNamesAreRefused) {
    ASSERT_TRUE(store->addHitter({{}, "hitter A"}));
    const auto repeated = store->addHitter({{}, " hitter A "});
    ASSERT_FALSE(repeated);
    EXPECT_EQ(repeated.error().code, ErrorCode::InvalidInput);
    EXPECT_NE(repeated.error().message.find("hitter A"), std::string::npos);
    EXPECT_EQ(store->addHitter({{}, " \t"}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->addSession({}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->addImplement({}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->setReader("").error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->snapshot()->hitters.size(), 1U);
}

TEST_F(ProjectStructure, NewAndWornOfOneNameAreTwoImplements) {
    const SmallProject small = fill(*store);
    ASSERT_TRUE(store->addImplement({{}, "polyester 23 kg", "worn", {}}));
    EXPECT_EQ(store->addImplement({{}, "polyester 23 kg", "worn", {}}).error().code,
              ErrorCode::InvalidInput);
    const CellId cell = store->cellFor(small.session, small.implement, small.hitter).value();
    const CellId gut = store->cellFor(small.session, small.otherImplement, small.hitter).value();
    EXPECT_EQ(cellName(*store->snapshot(), cell), "polyester 23 kg (new) · hitter A");
    EXPECT_EQ(cellName(*store->snapshot(), gut), "gut 24 kg · hitter A");
}

TEST_F(ProjectStructure, TextThatIsNotUtf8IsRefused) {
    const auto bad = store->addHitter({{}, "\xff\xfe"});
    ASSERT_FALSE(bad);
    EXPECT_EQ(bad.error().code, ErrorCode::InvalidInput);
    const auto badAttribute = store->addImplement({{}, "x", "new", {{"note", "\xc3\x28"}}});
    ASSERT_FALSE(badAttribute);
    EXPECT_EQ(badAttribute.error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->addHitter({{}, std::string{"a\0b", 3}}).error().code, ErrorCode::InvalidInput);
}

TEST_F(ProjectStructure, NumbersOfASessionAreLookedAt) {
    Session session;
    session.name = "s";
    session.fieldOfViewDeg = 180.0;
    EXPECT_EQ(store->addSession(session).error().code, ErrorCode::OutOfRange);
    session.fieldOfViewDeg = std::numeric_limits<double>::quiet_NaN();
    EXPECT_EQ(store->addSession(session).error().code, ErrorCode::NotFinite);
    session.fieldOfViewDeg.reset();
    session.readoutSeconds = -0.01;
    EXPECT_EQ(store->addSession(session).error().code, ErrorCode::OutOfRange);
    session.readoutSeconds.reset();
    session.date = "3.5.2026";
    EXPECT_EQ(store->addSession(session).error().code, ErrorCode::InvalidInput);
}

TEST_F(ProjectStructure, WhatIsNotThereCannotBeChanged) {
    Session session;
    session.id = {77};
    session.name = "s";
    EXPECT_EQ(store->changeSession(session).error().code, ErrorCode::NotFound);
    EXPECT_EQ(store->changeImplement({{77}, "i", "", {}}).error().code, ErrorCode::NotFound);
    EXPECT_EQ(store->cellFor({1}, {1}, {1}).error().code, ErrorCode::NotFound);
}

TEST_F(ProjectStructure, ACellIsMadeOnce) {
    const SmallProject small = fill(*store);
    const CellId first = store->cellFor(small.session, small.implement, small.hitter).value();
    const std::int64_t revision = store->snapshot()->revision;
    EXPECT_EQ(store->cellFor(small.session, small.implement, small.hitter).value(), first);
    EXPECT_EQ(store->snapshot()->revision, revision);
    EXPECT_NE(store->cellFor(small.session, small.implement, small.otherHitter).value(), first);
}

TEST_F(ProjectStructure, SettingsAndReaderComeBack) {
    ASSERT_TRUE(store->setReader(" R. Reader "));
    ASSERT_TRUE(store->setSetting("noticeable_step_rpm", "250"));
    ASSERT_TRUE(store->setSetting("noticeable_step_rpm", "300"));
    EXPECT_EQ(store->setSetting("reader", "x").error().code, ErrorCode::InvalidInput);
    reopen();
    EXPECT_EQ(store->snapshot()->reader, "R. Reader");
    EXPECT_EQ(store->snapshot()->settings,
              (std::map<std::string, std::string>{{"noticeable_step_rpm", "300"}}));
}

TEST_F(ProjectStructure, ClipsKeepFactsStampsAndEvidence) {
    const SessionId session = fill(*store).session;
    Clip clip = clipNamed("clips/ä b.mov", session, 3);
    clip.evidence = {
        core::timebase::ContainerTag{"com.android.capture.fps", {{240000, 1001}}, true},
        core::timebase::ReviewerEntry{{{240}}, 1e-3},
        core::timebase::ClockCheck{"turntable", {{{5}, {0.25}, 0.5}, {{9}, {1.8}, 1.0}}, 1e-4},
        core::timebase::GravityCheck{{{240}}, 9.5}};
    clip.remarks = {{"gap", core::timebase::FrameIndex{2}, "One frame is missing."}};
    clip.clockRemarks = {{"stamps_not_used", {}, "The time stamps are not used."}};
    clip.lensFocalLengthMm = 26.5;
    clip.rotationDegrees = 90;
    clip.hasSound = true;
    ClipFrames frames = framesOf(3);
    frames.stamps.ticks = {-5, 1'000'000'000'000, 7};  // stamps may go backwards when counted
    const ClipId id = store->addClip(clip, frames).value();
    reopen();
    clip.id = id;
    const Clip& back = *store->snapshot()->clips.find(id);
    EXPECT_EQ(back.evidence, clip.evidence);
    EXPECT_EQ(back.remarks, clip.remarks);
    EXPECT_EQ(back.clockRemarks, clip.clockRemarks);
    EXPECT_EQ(back.lensFocalLengthMm, 26.5);
    EXPECT_FALSE(back.wasSearchedForShots);
    EXPECT_EQ(back.clock, clip.clock);
    const auto stamps = store->clipFrames(id).value();
    EXPECT_EQ(stamps->stamps.ticks, frames.stamps.ticks);
    EXPECT_EQ(stamps->stamps.timeBase, frames.stamps.timeBase);
    EXPECT_EQ(stamps->isKey, frames.isKey);
}

TEST_F(ProjectStructure, R33_ClockAndSearchOfAClipLeaveEachOtherAlone) {
    const SmallProject small = fill(*store);
    const auto clip = [&] { return *store->snapshot()->clips.find(small.clip); };
    const std::vector<ClipRemark> counted{{"stamps_not_used", {}, "Counted."}};
    ASSERT_TRUE(store->setClipClock(small.clip, {}, clip().clock, counted));
    ASSERT_TRUE(store->setSearchedForShots(small.clip));
    EXPECT_EQ(clip().clockRemarks, counted);
    ASSERT_TRUE(store->setClipClock(small.clip, {}, std::nullopt, {}));
    EXPECT_TRUE(clip().wasSearchedForShots);
    EXPECT_EQ(clip().lensFocalLengthMm, 26.0);
    const std::int64_t revision = store->snapshot()->revision;
    ASSERT_TRUE(store->setSearchedForShots(small.clip));
    EXPECT_EQ(store->snapshot()->revision, revision) << "it says so already";
    ASSERT_TRUE(store->undo());
    ASSERT_TRUE(store->undo());
    EXPECT_FALSE(clip().wasSearchedForShots);
    EXPECT_EQ(store->setSearchedForShots({99}).error().code, ErrorCode::NotFound);
}

TEST_F(ProjectStructure, ClipsThatCannotBeRightAreRefused) {
    const SessionId session = fill(*store).session;
    const auto same = store->addClip(clipNamed("clips/b.mp4", session, 600), framesOf(600));
    ASSERT_FALSE(same);
    EXPECT_EQ(same.error().code, ErrorCode::InvalidInput);
    EXPECT_NE(same.error().message.find("clips/b.mp4"), std::string::npos);
    EXPECT_EQ(store->addClip(clipNamed("c", session, 4), framesOf(5)).error().code,
              ErrorCode::InvalidInput);
    EXPECT_EQ(store->addClip(clipNamed("c", {99}, 5), framesOf(5)).error().code,
              ErrorCode::NotFound);
    Clip trusting = clipNamed("c", session, 3);
    trusting.clock = ClockSetting{.stretch = {1}, .counted = {}};
    ClipFrames backwards = framesOf(3);
    backwards.stamps.ticks = {0, 2, 1};
    EXPECT_EQ(store->addClip(trusting, backwards).error().code, ErrorCode::InvalidInput);
    trusting.evidence = {
        core::timebase::GravityCheck{{{240}}, std::numeric_limits<double>::quiet_NaN()}};
    EXPECT_EQ(store->addClip(trusting, framesOf(3)).error().code, ErrorCode::NotFinite);
}

TEST_F(ProjectStructure, ClockPathAndFramesOfAClip) {
    const SmallProject small = fill(*store);
    ASSERT_TRUE(store->keepReading(readingOf(small.shots[0], 1500)));
    ASSERT_TRUE(store->setClipClock(small.clip, {}, std::nullopt, {}));
    EXPECT_FALSE(store->snapshot()->clips.find(small.clip)->clock);
    ClockSetting sense{.kind = core::timebase::ClockKind::Counted, .stretch = {1}, .counted = {}};
    EXPECT_EQ(store->setClipClock(small.clip, {}, sense, {}).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(store->setClipPath(small.clip, "").error().code, ErrorCode::InvalidInput);
    ASSERT_TRUE(store->setClipPath(small.clip, "moved/b.mp4"));
    EXPECT_EQ(store->snapshot()->clips.find(small.clip)->path, "moved/b.mp4");
    const ClipId other =
        store->addClip(clipNamed("c.mp4", small.session, 60), framesOf(60)).value();
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(store->clipFrames(other).error().code, ErrorCode::NotFound);
    ASSERT_TRUE(store->redo());
    EXPECT_EQ(store->clipFrames(other).value()->stamps.ticks.size(), 60U);
}

}  // namespace
}  // namespace tests::project
