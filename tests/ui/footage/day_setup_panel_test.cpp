#include <gtest/gtest.h>

#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QTableView>
#include <QTest>

#include "core/intake/clock_evidence.h"
#include "core/intake/day_setup.h"
#include "core/intake/reading_ahead.h"
#include "core/reading/project_reading.h"
#include "tests/core/intake/clip_project.h"
#include "tests/core/intake/clip_readings.h"
#include "tests/support/must.h"
#include "tests/support/named_widget.h"
#include "ui/footage/footage_screen.h"
#include "ui/models/clip_table_model.h"

/// The set-up of a filming day, entered as a person would, on a project with one clip that is
/// tagged as captured at 240 frames per second; its ball is 74 mm across
/// (tests/data/footage/slow_240in30_tagged.json).
namespace ui::footage {
namespace {

using tests::must;
constexpr int kSetUpPatience = 120000;  // milliseconds, for reading a shot on a busy machine

class DaySetUpPanel : public ::testing::Test, public tests::intake::ClipProject {
protected:
    void open() {
        frames = core::media::FrameService::create({});
        pictures = std::make_unique<bridge::FrameRequester>(*frames);
        screen = std::make_unique<FootageScreen>(*store, *pictures, jobs);
        screen->resize(1024, 560);
        screen->show();
        ASSERT_TRUE(QTest::qWaitForWindowActive(screen.get(), kSetUpPatience));
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(*screen, name);
    }
    [[nodiscard]] core::intake::DaySetUp setUp() const {
        return must(core::intake::setUpOf(*store->snapshot(), record().session));
    }
    void type(const char* field, const QString& text) {
        auto& line = child<QLineEdit>(field);
        QTest::mouseClick(&line, Qt::LeftButton);
        line.selectAll();
        QTest::keyClicks(&line, text);
    }
    void openPanel() {
        QTest::keyClick(screen.get(), Qt::Key_B, Qt::ControlModifier);
        // A button that is pressed by its key shows so for a moment.
        ASSERT_TRUE(
            QTest::qWaitFor([this] { return child<QLineEdit>("day_diameter").isVisible(); }));
    }

    bridge::JobRunner jobs{1};
    std::unique_ptr<core::media::FrameService> frames;
    std::unique_ptr<bridge::FrameRequester> pictures;
    std::unique_ptr<FootageScreen> screen;
};

TEST_F(DaySetUpPanel, IsEnteredByKeysAndUsedByEnterInOneStep) {
    open();
    openPanel();
    EXPECT_TRUE(child<QLineEdit>("day_diameter").hasFocus());
    QTest::keyClicks(QApplication::focusWidget(), QStringLiteral("74"));
    type("day_rate", QStringLiteral("480"));
    type("day_exposure", QStringLiteral("0,5"));
    type("day_camera", QStringLiteral("side camera, 8 m away"));
    QTest::keyClick(&child<QLineEdit>("day_camera"), Qt::Key_Return);
    EXPECT_FALSE(child<QLineEdit>("day_diameter").isVisible());
    const auto kept = setUp();
    EXPECT_EQ(kept.session.ballDiameterMm, 74.0);
    EXPECT_EQ(kept.session.exposureSeconds, 0.0005);
    EXPECT_EQ(kept.session.note, "side camera, 8 m away");
    EXPECT_EQ(kept.captureRate->fps, core::timebase::Rational{480});
    EXPECT_FALSE(kept.isDiameterNotKnown);
    const auto* clips = screen->findChild<models::ClipTableModel*>();
    EXPECT_EQ(clips->index(0, models::ClipTableModel::kRemarks).data().toString(),
              QStringLiteral("differs from the day"));
    must(store->undo());
    EXPECT_EQ(setUp().session.ballDiameterMm, std::nullopt);
    EXPECT_EQ(clips->index(0, models::ClipTableModel::kRemarks).data().toString(),
              QStringLiteral("–"));
}

TEST_F(DaySetUpPanel, ANumberThatCannotBeIsRefusedAtTheFieldAndStays) {
    open();
    for (const auto& [field, text] :
         {std::pair{"day_diameter", "1e99"}, std::pair{"day_rate", "-240"},
          std::pair{"day_diameter", "0.074"}, std::pair{"day_field_of_view", "200"}}) {
        openPanel();
        type(field, QLatin1String{text});
        QTest::mouseClick(&child<QPushButton>("day_use"), Qt::LeftButton);
        EXPECT_TRUE(child<QLineEdit>(field).isVisible());
        EXPECT_EQ(child<QLineEdit>(field).text(), QLatin1String{text});
        EXPECT_TRUE(child<QLabel>("day_trouble").isVisible()) << text;
        EXPECT_EQ(setUp().session.ballDiameterMm, std::nullopt);
        EXPECT_EQ(setUp().captureRate, std::nullopt);
        child<QLineEdit>(field).clear();
    }
}

TEST_F(DaySetUpPanel, NothingHasToBeScrolledFor) {
    open();
    openPanel();
    const auto& use = child<QPushButton>("day_use");
    const QPoint corner = use.mapTo(screen.get(), QPoint{use.width(), use.height()});
    EXPECT_TRUE(screen->rect().contains(corner)) << "at 1024 x 700 with the band";
    EXPECT_FALSE(use.visibleRegion().isEmpty());
    QTest::keyClick(&child<QLineEdit>("day_diameter"), Qt::Key_Escape);
    EXPECT_TRUE(QTest::qWaitFor([&use] { return !use.isVisible(); }));
    EXPECT_TRUE(core::intake::needsDiameter(*store->snapshot(), record().session));
}

TEST_F(DaySetUpPanel, KeptShotsAreNamedAndReadAgainWithTheChange) {
    const auto id = tests::intake::readWholeClip(*store, clip);
    tests::intake::keepPictures(*store, id);
    open();
    openPanel();
    EXPECT_FALSE(child<QLabel>("day_resting").isVisible());
    type("day_readout", QStringLiteral("0"));
    ASSERT_TRUE(child<QLabel>("day_resting").isVisible());
    EXPECT_TRUE(child<QLabel>("day_resting").text().contains(QStringLiteral("1 of slow.mp4")));
    auto& use = child<QPushButton>("day_use");
    EXPECT_EQ(use.text(), QStringLiteral("Use, read 1 again"));
    QTest::mouseClick(&use, Qt::LeftButton);
    EXPECT_EQ(setUp().session.readoutSeconds, 0.0);
    ASSERT_TRUE(QTest::qWaitFor([this] { return store->snapshot()->readings.size() == 2; },
                                kSetUpPatience));
    const auto snapshot = store->snapshot();
    EXPECT_EQ(snapshot->shots.find(id)->counting, (snapshot->readings.end() - 1)->id);
    ASSERT_TRUE(QTest::qWaitFor([this] { return child<QLabel>("trouble").isVisible(); }));
    EXPECT_TRUE(child<QLabel>("trouble").text().startsWith(QStringLiteral("1 kept shot read")));
}

/// Played at its speed the ball falls 64 times too slowly: 30 instead of 240 frames per second.
TEST_F(DaySetUpPanel, TheRateThatTheFlightFitsIsUsedByOneButtonAndOneUndo) {
    auto known = setUp();
    known.session.ballDiameterMm = 74.0;
    must(core::intake::setUpDay(*store, known));
    must(core::intake::setReviewersWord(*store, clip, {.rate = {}, .areTagsSetAside = true}));
    tests::intake::readWholeClip(*store, clip);
    open();
    auto& use = child<QPushButton>("use_flight");
    ASSERT_TRUE(use.isVisibleTo(screen.get()));
    EXPECT_EQ(use.text(), QStringLiteral("Use 240 for 1 clip"));
    EXPECT_TRUE(child<QLabel>("flight_says").text().contains(QStringLiteral("240")));
    QTest::mouseClick(&use, Qt::LeftButton);
    EXPECT_EQ(record().clock->stretch, core::timebase::Rational{8});
    EXPECT_FALSE(use.isVisibleTo(screen.get()));
    must(store->undo());
    EXPECT_EQ(record().clock->stretch, core::timebase::Rational{1});
}

}  // namespace
}  // namespace ui::footage
