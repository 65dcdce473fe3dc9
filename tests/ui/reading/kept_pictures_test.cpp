#include "ui/reading/pictures/kept_pictures.h"

#include <gtest/gtest.h>

#include <QSignalSpy>
#include <QTest>
#include <cmath>

#include "tests/ui/reading/reading_project.h"
#include "ui/reading/grid/ball_view.h"
#include "ui/reading/grid/turn_grid_panel.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/scene_view.h"

namespace ui::reading {
namespace {

using core::project::ReadingMethod;
using core::timebase::FrameIndex;

constexpr int kPatienceMs = 60000;  // for decoding on a busy machine
constexpr int kFrames = 24;

void press(ReadingScreen& screen, Qt::Key key, int times = 1) {
    for (int k = 0; k < times; ++k) {
        QTest::keyClick(&screen, key);
    }
}

/// Mean of the absolute differences of the grey values of two pictures of one size.
double meanDifference(const QImage& a, const QImage& b) {
    double sum = 0.0;
    for (int y = 0; y < a.height(); ++y) {
        for (int x = 0; x < a.width(); ++x) {
            sum += std::abs(qGray(a.pixel(x, y)) - qGray(b.pixel(x, y)));
        }
    }
    return sum / (a.width() * a.height());
}

/// A shot of five frames a turn at 120 frames per second, read and kept in the window; the window
/// is closed again.
class WithoutTheFilm : public ::testing::Test {
protected:
    void SetUp() override {
        project.clickBall(0, kFrames);
        ReadingScreen screen{project.store(), project.requester(), &jobs};
        openOn(screen);
        QSignalSpy kept{screen.evidenceKeeper(), &EvidenceKeeper::kept};
        markOneTurn(screen, 0);
        press(screen, Qt::Key_Return);
        ASSERT_TRUE(!kept.isEmpty() || kept.wait(kPatienceMs));
        for (int frame = 0; frame < kFrames; ++frame) {
            fromFilm.push_back(screen.pictures().picture({frame}));
        }
    }
    void loseTheFilm() {
        project.startPicturesAnew();
        std::filesystem::remove(project.film(0));
    }
    void openOn(ReadingScreen& screen) {
        screen.resize(1366, 690);
        screen.show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(&screen, kPatienceMs));
        screen.openShot(project.shot(0));
        QSignalSpy done{&screen.pictures(), &BallPictures::completed};
        ASSERT_TRUE(screen.pictures().areComplete() || done.wait(kPatienceMs));
    }
    static void markOneTurn(ReadingScreen& screen, int from) {
        screen.desk().goToFrame({from});
        press(screen, Qt::Key_S);
        press(screen, Qt::Key_Right, 5);
        press(screen, Qt::Key_R);
    }

    bridge::JobRunner jobs{1};
    tests::ReadingProject project{{{.frames = kFrames}}};
    std::vector<QImage> fromFilm;
};

TEST_F(WithoutTheFilm, TheGridShowsTheKeptPicturesAndTheSceneSaysSo) {
    loseTheFilm();
    ReadingScreen screen{project.store(), project.requester(), &jobs};
    openOn(screen);
    ASSERT_TRUE(screen.desk().view().kept);
    for (int frame = 0; frame < kFrames; ++frame) {
        const QImage kept = screen.pictures().picture({frame});
        const QImage& film = fromFilm[static_cast<std::size_t>(frame)];
        ASSERT_EQ(kept.size(), film.size());
        // The mark is about 190 grey levels darker than the ball, and turns by 72 degrees a frame.
        EXPECT_LT(meanDifference(kept, film), 6.0) << "frame " << frame;
        const QImage& other = fromFilm[static_cast<std::size_t>((frame + 1) % kFrames)];
        EXPECT_GT(meanDifference(kept, other), 12.0) << "frame " << frame;
    }
    EXPECT_TRUE(screen.scene().remark().contains(QStringLiteral("ball_0.mp4")));
    EXPECT_TRUE(screen.scene().remark().contains(QStringLiteral("kept in the project")));
}

TEST_F(WithoutTheFilm, TheShotIsMarkedAgainAndKept) {
    loseTheFilm();
    ReadingScreen screen{project.store(), project.requester(), &jobs};
    openOn(screen);
    const auto before = screen.desk().view().shot.marks.returns;
    for (const auto& mark : before) {  // the same key takes it away
        screen.desk().goToFrame(mark.frame);
        press(screen, Qt::Key_R);
    }
    markOneTurn(screen, 2);
    press(screen, Qt::Key_Return);
    const auto snapshot = project.store().snapshot();
    const auto readings = readingsOfShot(*snapshot, project.shot(0));
    ASSERT_EQ(readings.size(), 2U);
    EXPECT_EQ(readings[1]->method, ReadingMethod::Marks);
    EXPECT_EQ(project.shotNow(0).counting, readings[1]->id);
    EXPECT_EQ(project.shotNow(0).marks.start->frame, FrameIndex{2});
    // The film was drawn with five frames a turn at 120 frames per second: 60 * 120 / 5 rpm.
    EXPECT_LT(readings[1]->interval95.low.rpm, 1440.0);
    EXPECT_GT(readings[1]->interval95.high.rpm, 1440.0);
}

TEST_F(WithoutTheFilm, TheAttitudeIsMarkedOnTheKeptPictures) {
    loseTheFilm();
    ReadingScreen screen{project.store(), project.requester(), &jobs};
    openOn(screen);
    press(screen, Qt::Key_A);
    QTest::mouseClick(&screen.ballView(), Qt::LeftButton, {},
                      (screen.ballView().pictureRect().center() + QPointF{0.0, -20.0}).toPoint());
    const auto& angles = project.shotNow(0).marks.angles;
    ASSERT_EQ(angles.size(), 1U);
    EXPECT_NEAR(core::toDegrees(angles[0].angle), 90.0, 3.0);  // a pixel of twenty
}

TEST_F(WithoutTheFilm, AFilmThatWasMovedInTheFolderIsFoundAgain) {
    project.startPicturesAnew();
    std::filesystem::create_directory(project.film(0).parent_path() / "moved");
    std::filesystem::rename(project.film(0), project.film(0).parent_path() / "moved" / "b.mp4");
    ReadingScreen screen{project.store(), project.requester(), &jobs};
    openOn(screen);
    EXPECT_FALSE(screen.desk().view().kept);
    EXPECT_EQ(screen.desk().view().clip.path, "moved/b.mp4");
}

}  // namespace
}  // namespace ui::reading
