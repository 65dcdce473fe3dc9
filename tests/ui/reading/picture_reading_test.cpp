#include <gtest/gtest.h>

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTest>
#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <stdexcept>

#include "core/intake/agreed_readings.h"
#include "core/intake/clip_shots.h"
#include "core/intake/day_setup.h"
#include "tests/core/intake/clip_project.h"
#include "ui/reading/card/reading_card.h"
#include "ui/reading/grid/turn_grid_panel.h"
#include "ui/reading/reading_screen.h"

/// The reading screen on a clip that nobody has marked: an independently rendered flight of known
/// spin (tests/data/footage/README.md).
namespace ui::reading {
namespace {

using core::project::ReadingMethod;
using core::project::ShotStanding;

constexpr int kReadingPatience = 180000;  // decoding, tracking and fitting on a busy machine
constexpr double kRateError = 0.01;
constexpr double kPlacePx = 1.0;

using tests::must;

class PictureReadingTest : public ::testing::Test, public tests::intake::ClipProject {
protected:
    void SetUp() override {
        std::ifstream stream{tests::dataFolder() / "footage" / "slow_240in30_tagged.json"};
        truth = nlohmann::json::parse(stream)["shots"][0];
        auto setUp = must(core::intake::setUpOf(*store->snapshot(), record().session));
        setUp.session.ballDiameterMm = 74.0;  // tests/data/footage/slow_240in30_tagged.json
        if (isDiameterKnown) {
            must(core::intake::setUpDay(*store, setUp));
        }
        const auto found =
            must(core::intake::searchShots(must(core::intake::shotSearchOf(*store, clip))));
        shotId = must(core::intake::addNewShots(*store, clip, found)).at(0);
        frames = core::media::FrameService::create({});
        pictures = std::make_unique<bridge::FrameRequester>(*frames);
        screen = std::make_unique<ReadingScreen>(*store, *pictures, &jobs);
        screen->resize(1366, 690);
        screen->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(screen.get(), kReadingPatience));
        screen->openShot(shotId);
    }
    [[nodiscard]] bool waitForReading() {
        return QTest::qWaitFor([this] { return screen->desk().view().pictureReading() != nullptr; },
                               kReadingPatience);
    }
    [[nodiscard]] core::project::Shot shot() const {
        const auto snapshot = store->snapshot();
        const auto* found = snapshot->shots.find(shotId);
        if (found == nullptr) {
            throw std::runtime_error("the shot is gone");
        }
        return *found;
    }
    [[nodiscard]] QString text(const char* name) const {
        const auto* label = screen->card().findChild<QLabel*>(QLatin1String{name});
        return label != nullptr ? label->text() : QString{};
    }

    bool isDiameterKnown{true};
    nlohmann::json truth;
    bridge::JobRunner jobs{1};
    std::unique_ptr<core::media::FrameService> frames;
    std::unique_ptr<bridge::FrameRequester> pictures;
    std::unique_ptr<ReadingScreen> screen;
    core::project::ShotId shotId;
};

TEST_F(PictureReadingTest, TheBallIsRingedTheGridAlignedAndTheReadingProposed) {
    ASSERT_TRUE(waitForReading());
    const double trueRpm = truth["spin_rpm"];
    const auto* read = screen->desk().view().pictureReading();
    EXPECT_NEAR(read->rate->value.rpm, trueRpm, kRateError * trueRpm);
    EXPECT_NEAR(screen->desk().rowSeconds(), 60.0 / read->rate->value.rpm, 1e-12);
    const auto& middle = truth["frames"][truth["frames"].size() / 2];
    screen->desk().goToFrame({middle["frame"].get<std::int64_t>()});
    const auto ball = screen->desk().ballNow();
    ASSERT_TRUE(ball.has_value());
    EXPECT_NEAR(ball->centrePx.x(), middle["centre_px"][0].get<double>(), kPlacePx);
    EXPECT_NEAR(ball->centrePx.y(), middle["centre_px"][1].get<double>(), kPlacePx);
    EXPECT_TRUE(screen->card().rateText().endsWith(QStringLiteral(" rpm")));
    EXPECT_EQ(text("source").section(QLatin1Char{'\n'}, 0, 0),
              QStringLiteral("From the pictures, not kept yet"));
}

TEST_F(PictureReadingTest, TheReturnKeyKeepsItAndUndoTakesItBack) {
    ASSERT_TRUE(waitForReading());
    QTest::keyClick(screen.get(), Qt::Key_Return);
    EXPECT_EQ(shot().standing, ShotStanding::Kept);
    const auto snapshot = store->snapshot();
    const auto* kept = snapshot->readings.find(*shot().counting);
    ASSERT_NE(kept, nullptr);
    EXPECT_EQ(kept->method, ReadingMethod::RotationFit);
    const auto inputs = nlohmann::json::parse(kept->inputsJson);
    EXPECT_EQ(inputs["clip_fingerprint"], record().fingerprint);
    EXPECT_GE(inputs["track"].size(), 10U);
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(shot().standing, ShotStanding::Open);
}

class UnknownBallTest : public PictureReadingTest {
protected:
    UnknownBallTest() { isDiameterKnown = false; }
    [[nodiscard]] QLineEdit& question() const {
        return *screen->card().findChild<QLineEdit*>(QStringLiteral("ask_diameter"));
    }
    void askByEnter() {
        ASSERT_TRUE(waitForReading());
        QTest::keyClick(screen.get(), Qt::Key_Return);
        ASSERT_TRUE(question().isVisible());
        ASSERT_TRUE(question().hasFocus());
        EXPECT_EQ(shot().standing, ShotStanding::Open);
    }
    [[nodiscard]] std::optional<double> diameter() const {
        const auto snapshot = store->snapshot();
        return snapshot->sessions.begin()->ballDiameterMm;
    }
};

TEST_F(UnknownBallTest, TheDiameterIsAskedForBeforeTheFirstReadingIsKept) {
    askByEnter();
    QTest::keyClicks(&question(), QStringLiteral("1e99"));
    QTest::keyClick(&question(), Qt::Key_Return);
    EXPECT_EQ(diameter(), std::nullopt);
    EXPECT_EQ(question().text(), QStringLiteral("1e99")) << "stays for correction";
    question().selectAll();
    QTest::keyClicks(&question(), QStringLiteral("74"));
    QTest::keyClick(&question(), Qt::Key_Return);
    EXPECT_EQ(diameter(), 74.0);
    EXPECT_FALSE(question().isVisible());
    ASSERT_TRUE(waitForReading());  // its fall is measured now
    EXPECT_TRUE(screen->desk().view().pictureReading()->gravity.has_value());
    QTest::keyClick(screen.get(), Qt::Key_Return);
    EXPECT_EQ(shot().standing, ShotStanding::Kept);
}

TEST_F(UnknownBallTest, NotKnownIsAnAnswerAndKeeps) {
    askByEnter();
    auto* unknown = screen->card().findChild<QPushButton*>(QStringLiteral("diameter_not_known"));
    QTest::mouseClick(unknown, Qt::LeftButton);
    EXPECT_EQ(shot().standing, ShotStanding::Kept);
    ASSERT_TRUE(store->undo());
    ASSERT_EQ(shot().standing, ShotStanding::Open);
    screen->openShot(shotId);
    ASSERT_TRUE(waitForReading());
    QTest::keyClick(screen.get(), Qt::Key_Return);  // not asked again
    EXPECT_EQ(shot().standing, ShotStanding::Kept);
}

TEST_F(UnknownBallTest, EscapeLeavesTheQuestionAndTheShot) {
    askByEnter();
    QTest::keyClick(&question(), Qt::Key_Escape);
    EXPECT_FALSE(question().isVisible());
    EXPECT_EQ(shot().standing, ShotStanding::Open);
    EXPECT_TRUE(core::intake::needsDiameter(*store->snapshot(), record().session));
}

/// Start and the return one turn later by key, from the truth that the renderer wrote.
void markOneTurn(ReadingScreen& screen, std::int64_t start, std::int64_t back) {
    screen.desk().goToFrame({start});
    QTest::keyClick(&screen, Qt::Key_S);
    screen.desk().goToFrame({back});
    QTest::keyClick(&screen, Qt::Key_R);
}

// Rule: the marks once a return was set by hand, unless the reader chooses; else the pictures.
TEST_F(PictureReadingTest, TheHeadlineIsOneNumberAndEnterKeepsIt) {
    ASSERT_TRUE(waitForReading());
    const auto& card = screen->card();
    const auto* keep = card.findChild<QPushButton*>(QStringLiteral("keepButton"));
    const QString byPictures = card.rateText();
    EXPECT_EQ(keep->text(), QStringLiteral("Keep %1, next").arg(byPictures));
    const std::int64_t start = shot().firstFrame.value + 2;
    screen->desk().goToFrame({start});
    QTest::keyClick(screen.get(), Qt::Key_S);
    EXPECT_EQ(card.rateText(), byPictures) << "a start is no return";
    const double framesPerTurn = 60.0 / screen->desk().view().pictureReading()->rate->value.rpm /
                                 screen->desk().view().frameSeconds;
    screen->desk().goToFrame({start + std::lround(framesPerTurn)});
    QTest::keyClick(screen.get(), Qt::Key_R);
    ASSERT_TRUE(screen->desk().view().reading.has_value());
    const QString byMarks = card.rateText();
    EXPECT_NE(byMarks, byPictures);
    EXPECT_EQ(text("source").section(QLatin1Char{'\n'}, 0, 0),
              QStringLiteral("From your marks, not kept yet"));
    QTest::keyClick(screen.get(), Qt::Key_V);
    EXPECT_EQ(card.rateText(), byPictures);
    auto* row = card.findChild<QAbstractButton*>(QStringLiteral("method_marks"));
    ASSERT_TRUE(row->isVisible());
    QTest::mouseClick(row, Qt::LeftButton);
    EXPECT_EQ(card.rateText(), byMarks);
    QTest::keyClick(screen.get(), Qt::Key_V);
    QTest::keyClick(screen.get(), Qt::Key_Return);
    const auto snapshot = store->snapshot();
    EXPECT_EQ(snapshot->readings.find(*shot().counting)->method, ReadingMethod::RotationFit);
    EXPECT_TRUE(text("source").startsWith(QStringLiteral("Kept, from the pictures")));
    EXPECT_EQ(keep->text(), QStringLiteral("Go to Findings"));
}

// It opened with the number of the marks to be kept instead, "read otherwise now".
TEST_F(PictureReadingTest, AShotKeptFromItsPicturesOpensSoWhateverIsMarkedOnIt) {
    ASSERT_TRUE(waitForReading());
    auto& desk = screen->desk();
    desk.toggleStart(desk.frame());
    desk.toggleReturn({desk.frame().value + 6});
    EXPECT_EQ(desk.method(), desk.view().reading ? std::optional{Method::Marks} : std::nullopt);
    desk.chooseMethod(Method::Pictures);
    ASSERT_TRUE(desk.keep());
    screen->openShot(shotId);
    EXPECT_EQ(desk.method(), Method::Pictures);
    EXPECT_TRUE(text("source").startsWith(QStringLiteral("Kept, from the pictures")));
    EXPECT_FALSE(text("source").contains(QStringLiteral("otherwise")));
    desk.toggleReturn({desk.frame().value + 12});
    EXPECT_NE(desk.method(), Method::Pictures) << "what was set by hand last counts";
}

TEST_F(PictureReadingTest, ShotsWhoseMarksAndPicturesAgreeAreKeptAtOnce) {
    ASSERT_TRUE(waitForReading());
    const std::vector shots{shotId};
    auto agreed = must(core::intake::agreedReadings(*store, shots));
    EXPECT_TRUE(agreed.readings.empty());
    ASSERT_EQ(agreed.leftOut.size(), 1U);
    EXPECT_EQ(agreed.leftOut[0].why, "its marks give no reading");
    const double framesPerTurn = 60.0 / screen->desk().view().pictureReading()->rate->value.rpm /
                                 screen->desk().view().frameSeconds;
    const std::int64_t start = shot().firstFrame.value + 2;
    markOneTurn(*screen, start, start + std::lround(2.0 * framesPerTurn));  // said to be one turn
    QTest::keyClick(screen.get(), Qt::Key_1);
    agreed = must(core::intake::agreedReadings(*store, shots));
    ASSERT_EQ(agreed.leftOut.size(), 1U);
    EXPECT_EQ(agreed.leftOut[0].why, "marks and pictures differ");
    QTest::qWait(1000);  // digits typed quickly are one number
    QTest::keyClick(screen.get(), Qt::Key_2);
    agreed = must(core::intake::agreedReadings(*store, shots));
    ASSERT_EQ(agreed.readings.size(), 1U);
    EXPECT_EQ(agreed.readings[0].method, ReadingMethod::Marks);
    ASSERT_TRUE(store->keepReadings(agreed.readings));
    EXPECT_EQ(shot().standing, ShotStanding::Kept);
    agreed = must(core::intake::agreedReadings(*store, shots));
    EXPECT_EQ(agreed.leftOut.at(0).why, "it is decided already");
}

TEST_F(PictureReadingTest, AClickOnTheBallReadsAgain) {
    ASSERT_TRUE(waitForReading());
    const auto& middle = truth["frames"][truth["frames"].size() / 2];
    screen->desk().goToFrame({middle["frame"].get<std::int64_t>()});
    ASSERT_TRUE(screen->desk().setBall(
        {{middle["centre_px"][0].get<double>(), middle["centre_px"][1].get<double>()},
         middle["radius_px"].get<double>()}));
    EXPECT_TRUE(screen->desk().view().isReadingPictures);
    ASSERT_TRUE(waitForReading());
    const double trueRpm = truth["spin_rpm"];
    EXPECT_NEAR(screen->desk().view().pictureReading()->rate->value.rpm, trueRpm,
                kRateError * trueRpm);
}

TEST_F(PictureReadingTest, WhatWasReadIsThereAtOnceInANewWindow) {
    ASSERT_TRUE(waitForReading());
    const double rpm = screen->desk().view().pictureReading()->rate->value.rpm;
    const std::size_t tracked = screen->desk().view().pictureReading()->track.frames.size();
    screen.reset();
    screen = std::make_unique<ReadingScreen>(*store, *pictures, &jobs);
    screen->openShot(shotId);
    const auto* read = screen->desk().view().pictureReading();
    ASSERT_NE(read, nullptr) << "it was read before";
    EXPECT_EQ(read->rate->value.rpm, rpm);
    EXPECT_EQ(read->track.frames.size(), tracked);
    EXPECT_TRUE(jobs.jobs().isEmpty());
}

TEST_F(PictureReadingTest, ReadingAheadReadsTheOpenShotsAndIsRememberedWithTheProject) {
    ASSERT_TRUE(waitForReading());
    core::project::Session session = *store->snapshot()->sessions.begin();
    session.exposureSeconds = 0.0011;  // what is known no longer holds
    ASSERT_TRUE(store->changeSession(session));
    screen.reset();
    const std::string keyBefore = store->archiveOf(shotId).value()->key;
    screen = std::make_unique<ReadingScreen>(*store, *pictures, &jobs);
    screen->show();
    ASSERT_TRUE(QTest::qWaitForWindowActive(screen.get(), kReadingPatience));
    QTest::keyClick(screen.get(), Qt::Key_R, Qt::ControlModifier);
    EXPECT_TRUE(screen->actionSet().readAhead->isChecked());
    ASSERT_TRUE(QTest::qWaitFor([&] { return store->archiveOf(shotId).value()->key != keyBefore; },
                                kReadingPatience));
    screen = std::make_unique<ReadingScreen>(*store, *pictures, &jobs);
    EXPECT_TRUE(screen->actionSet().readAhead->isChecked());
    screen->openShot(shotId);
    EXPECT_NE(screen->desk().view().pictureReading(), nullptr);
    screen->actionSet().readAhead->trigger();
    EXPECT_FALSE(screen->actionSet().readAhead->isChecked());
    EXPECT_EQ(store->snapshot()->settings.at("reading_ahead"), "off");
}

TEST_F(PictureReadingTest, ReadingAheadGoesOnToKeptShotsWhoseFactsHaveChanged) {
    ASSERT_TRUE(waitForReading());
    QTest::keyClick(screen.get(), Qt::Key_Return);
    ASSERT_EQ(shot().standing, ShotStanding::Kept);
    const std::string keyBefore = store->archiveOf(shotId).value()->key;
    screen.reset();
    core::project::Session session = *store->snapshot()->sessions.begin();
    session.exposureSeconds = 0.0011;
    ASSERT_TRUE(store->changeSession(session));
    screen = std::make_unique<ReadingScreen>(*store, *pictures, &jobs);
    screen->actionSet().readAhead->trigger();
    EXPECT_TRUE(QTest::qWaitFor([&] { return store->archiveOf(shotId).value()->key != keyBefore; },
                                kReadingPatience));
}

}  // namespace
}  // namespace ui::reading
