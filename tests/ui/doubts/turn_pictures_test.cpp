#include "ui/doubts/turn_pictures.h"

#include <gtest/gtest.h>

#include <QLabel>
#include <QTest>
#include <cmath>
#include <numbers>

#include "core/doubts/claimed_turn.h"
#include "core/evidence/gather.h"
#include "core/reading/project_reading.h"
#include "tests/support/must.h"
#include "tests/support/named_widget.h"
#include "tests/ui/reading/reading_project.h"
#include "ui/doubts/doubt_figures.h"
#include "ui/doubts/turn_panel.h"

/// A drawn ball of eight frames a turn at 120 frames per second, read by its marks: 60 · 120 / 8 =
/// 900 rpm. Its dark sector points up in frame 0 and is 45 degrees further in each that follows.
namespace ui::doubts {
namespace {

using core::timebase::FrameIndex;
using tests::must;

constexpr int kPatienceMs = 60000;  // for decoding on a busy machine
constexpr int kFrames = 24;
constexpr double kTruthRpm = 900.0;
constexpr double kFramesPerTurn = 8.0;

/// Where the dark sector points, counter-clockwise, 0 to 360: the middle of what is dark.
double sectorDegrees(const QImage& picture) {
    double x = 0.0;
    double y = 0.0;
    for (int row = 0; row < picture.height(); ++row) {
        for (int column = 0; column < picture.width(); ++column) {
            if (qGray(picture.pixel(column, row)) < 80) {
                x += column + 0.5 - picture.width() / 2.0;
                y -= row + 0.5 - picture.height() / 2.0;
            }
        }
    }
    const double degrees = std::atan2(y, x) * 180.0 / std::numbers::pi;
    return degrees < 0.0 ? degrees + 360.0 : degrees;
}

double offBy(double degrees, double truth) {
    return std::abs(std::remainder(degrees - truth, 360.0));
}

class TurnOfAShot : public ::testing::Test {
protected:
    TurnOfAShot() {
        project.clickBall(0, kFrames);
        readMarks(3, 11);
    }
    /// One turn from frame to frame, kept as the reading in use.
    void readMarks(int start, int back) {
        core::spin::MarkSet marks;
        marks.start = core::spin::StartMark{{start}, {}};
        marks.returns = {core::spin::ReturnMark::nearest({back}, 1)};
        auto& store = project.store();
        must(store.setMarks(project.shot(0), marks));
        const auto snapshot = store.snapshot();
        const auto& shot = project.shotNow(0);
        const auto frames = must(store.clipFrames(shot.clip));
        const auto read = must(core::reading::readMarks(*snapshot, shot, *frames));
        must(store.keepReading(core::reading::makeMarksReading(*snapshot, shot, *frames, read)));
    }
    void lookUp(const std::vector<FrameIndex>& frames) {
        pictures.want(project.shot(0), frames);
        ASSERT_TRUE(QTest::qWaitFor([this] { return !pictures.areAwaited(); }, kPatienceMs));
    }
    void expectTruePictures(const std::vector<FrameIndex>& frames) {
        EXPECT_EQ(pictures.trouble(), QString{});
        for (const FrameIndex frame : frames) {
            const QImage picture = pictures.picture(frame);
            ASSERT_FALSE(picture.isNull()) << frame.value;
            const double truth = 90.0 + 45.0 * static_cast<double>(frame.value);
            EXPECT_LT(offBy(sectorDegrees(picture), truth), 6.0) << "frame " << frame.value;
        }
    }

    [[nodiscard]] core::doubts::Doubted doubted() {
        return {project.shot(0),
                project.shotNow(0).cell,
                {{core::doubts::Reason::Marked, {}, 0.0, {}}},
                false};
    }

    tests::ReadingProject project{{{.frames = kFrames, .framesPerTurn = kFramesPerTurn}}};
    bridge::JobRunner jobs{1};
    TurnPictures pictures{project.store(), jobs};
};

TEST_F(TurnOfAShot, IsFivePicturesFromTheStartToTheReturn) {
    const auto turn = core::doubts::claimedTurn(project.store(), *project.shotNow(0).counting);
    ASSERT_TRUE(turn);
    const auto snapshot = project.store().snapshot();
    const auto& reading = *snapshot->readings.find(*project.shotNow(0).counting);
    EXPECT_LT(reading.interval95.low.rpm, kTruthRpm);
    EXPECT_GT(reading.interval95.high.rpm, kTruthRpm);
    EXPECT_EQ(turn->rate.rpm, reading.rate.value.rpm);
    EXPECT_NEAR(turn->frames, 60.0 * 120.0 / reading.rate.value.rpm, 1e-9);
    EXPECT_EQ(turn->start, FrameIndex{3});
    EXPECT_EQ(turn->back, FrameIndex{11});
    const std::vector<FrameIndex> expected{{3}, {5}, {7}, {9}, {11}};
    EXPECT_EQ(turn->shown, expected);
    EXPECT_FALSE(core::doubts::claimedTurn(project.store(), core::project::ReadingId{}));
}

TEST_F(TurnOfAShot, ItsPicturesAreCutFromTheFilmByAJob) {
    const std::vector<FrameIndex> frames{{3}, {5}, {7}, {9}, {11}};
    lookUp(frames);
    expectTruePictures(frames);
}

TEST_F(TurnOfAShot, KeptPicturesServeWithoutTheFilm) {
    auto& store = project.store();
    must(store.notePictures(
        project.shot(0),
        must(core::evidence::gather(must(core::evidence::gatherTask(store, project.shot(0)))))));
    std::filesystem::remove(project.film(0));
    const std::vector<FrameIndex> frames{{3}, {5}, {7}, {9}, {11}};
    lookUp(frames);
    expectTruePictures(frames);
}

TEST_F(TurnOfAShot, WhereNeitherIsThereWordsSaySo) {
    std::filesystem::remove(project.film(0));
    DoubtFigures figures{project.store(), jobs};
    const auto item = doubted();
    figures.show(&item);
    figures.QWidget::show();
    const auto& lack = tests::namedWidget<QLabel>(figures, "doubtTurnLack");
    ASSERT_TRUE(QTest::qWaitFor([&lack] { return lack.isVisible(); }, kPatienceMs));
    EXPECT_TRUE(lack.text().contains(QStringLiteral("ball_0.mp4"))) << lack.text().toStdString();
    const QString claim = tests::namedWidget<QLabel>(figures, "doubtClaim").text();
    EXPECT_TRUE(
        claim.endsWith(QStringLiteral("8.0 frames a turn: the mark comes back in frame 11")))
        << claim.toStdString();
    figures.show(nullptr);
    EXPECT_TRUE(figures.isHidden());
}

TEST_F(TurnOfAShot, AReadingThatContradictsItShowsItsTurnBesideOrBelow) {
    DoubtFigures figures{project.store(), jobs};
    const auto item = doubted();
    figures.show(&item);
    const auto& inUse = tests::namedWidget<TurnPanel>(figures, "doubtTurnInUse");
    const auto& rival = tests::namedWidget<TurnPanel>(figures, "doubtTurnOfRival");
    EXPECT_FALSE(inUse.isHidden());
    EXPECT_TRUE(rival.isHidden());
    readMarks(3, 7);  // half a turn taken for a whole one
    figures.show(&item);
    figures.QWidget::show();
    EXPECT_FALSE(rival.isHidden());
    const auto claimIn = [](const TurnPanel& panel) {
        return tests::namedWidget<QLabel>(panel, "doubtClaim").text();
    };
    EXPECT_TRUE(claimIn(inUse).endsWith(QStringLiteral("comes back in frame 7")));
    EXPECT_TRUE(claimIn(rival).endsWith(QStringLiteral("comes back in frame 11")));
    figures.resize(1200, 400);
    ASSERT_TRUE(QTest::qWaitFor([&] { return rival.x() > inUse.geometry().right(); }));
    figures.resize(700, 600);
    ASSERT_TRUE(QTest::qWaitFor([&] { return rival.y() > inUse.geometry().bottom(); }));
}

}  // namespace
}  // namespace ui::doubts
