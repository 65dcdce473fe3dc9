#include "ui/footage/footage_screen.h"
#include "tests/support/named_widget.h"

#include <gtest/gtest.h>

#include <QApplication>
#include <QCheckBox>
#include <QComboBox>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QMessageBox>
#include <QMouseEvent>
#include <QPushButton>
#include <QSignalSpy>
#include <QTableView>
#include <QTest>
#include <QTimer>
#include <QToolButton>
#include <algorithm>
#include <stdexcept>

#include "core/intake/assign_shots.h"
#include "core/intake/shot_corrections.h"
#include "tests/core/intake/clip_project.h"
#include "tests/support/must.h"
#include "ui/footage/clip_filter_bar.h"
#include "ui/footage/clip_time_line.h"
#include "ui/models/clip_table_model.h"
#include "ui/style/fold_card.h"

/// The footage screen on a project with one clip that is tagged as captured at 240 frames per
/// second, driven as a person would.
namespace ui::footage {
namespace {

namespace fs = std::filesystem;
constexpr int kWaitMilliseconds = 60000;  // for decoding on a busy machine

class FootageScreenTest : public ::testing::Test, public tests::intake::ClipProject {
protected:
    void open() {
        frames = core::media::FrameService::create({});
        pictures = std::make_unique<bridge::FrameRequester>(*frames);
        screen = std::make_unique<FootageScreen>(*store, *pictures, jobs);
        screen->resize(1200, 700);
        screen->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(screen.get(), kWaitMilliseconds));
        unfold("clock_card");
        unfold("check_card");
    }
    void unfold(const char* name) {
        auto& card = child<style::FoldCard>(name);
        if (!card.isOpen()) {
            QTest::mouseClick(card.findChild<QToolButton*>(), Qt::LeftButton);
        }
        ASSERT_TRUE(card.isOpen());
        QTest::qWait(0);  // what was shown finds its place
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(*screen, name);
    }
    [[nodiscard]] QTableView* clipList() const {
        for (auto* view : screen->findChildren<QTableView*>()) {
            if (view->accessibleName() == QLatin1String("Clips")) {
                return view;
            }
        }
        throw std::runtime_error("no list of clips");
    }
    [[nodiscard]] QString trouble() {
        auto& label = child<QLabel>("trouble");
        return label.isVisible() ? label.text() : QString{};
    }
    /// The whole text of the clock panel, as shown.
    [[nodiscard]] bool isShown(const QString& part) {
        const auto labels = screen->findChildren<QLabel*>();
        return std::any_of(labels.begin(), labels.end(), [&part](const QLabel* label) {
            return label->isVisible() && label->text().contains(part);
        });
    }

    bridge::JobRunner jobs{1};
    std::unique_ptr<core::media::FrameService> frames;
    std::unique_ptr<bridge::FrameRequester> pictures;
    std::unique_ptr<FootageScreen> screen;
};

TEST_F(FootageScreenTest, AMissingClipIsSaidAndFoundWhenItIsPointedAt) {
    const fs::path elsewhere = folder.path() / "away.mp4";
    fs::rename(clipFile, elsewhere);
    open();
    auto& button = child<QPushButton>("point_at");
    ASSERT_TRUE(button.isVisible());
    screen->pointChosenClipTo(
        QString::fromStdString((tests::dataFolder() / "footage" / "half_120fps.mp4").string()));
    EXPECT_FALSE(trouble().isEmpty());
    EXPECT_TRUE(button.isVisible());
    screen->pointChosenClipTo(QString::fromStdString(elsewhere.string()));
    EXPECT_EQ(trouble(), QString{});
    EXPECT_FALSE(button.isVisible());
}

/// Presses a button of the dialog that is open; gives back what the dialog says.
QString answerBox(const QString& text) {
    auto* box = qobject_cast<QMessageBox*>(QApplication::activeModalWidget());
    if (box == nullptr) {
        ADD_FAILURE() << "no dialog is open";
        return {};
    }
    QString said = box->text();
    for (auto* button : box->buttons()) {
        if (button->text().remove(QLatin1Char('&')) == text) {
            QTest::mouseClick(button, Qt::LeftButton);
            return said;
        }
    }
    ADD_FAILURE() << "no button " << text.toStdString();
    box->reject();
    return said;
}

TEST_F(FootageScreenTest, AClipIsRemovedByKeyAfterSayingWhatHangsOnItAndUndone) {
    tests::must(core::intake::addShotByHand(*store, clip, {10}));
    open();
    ASSERT_TRUE(QTest::qWaitForWindowActive(screen.get(), kWaitMilliseconds));
    QTableView* list = clipList();
    list->setFocus();
    list->selectRow(0);
    QTest::keyClick(list, Qt::Key_Delete);
    const QString said = answerBox(QStringLiteral("Cancel"));
    EXPECT_TRUE(said.contains(QStringLiteral("1 shot with"))) << said.toStdString();
    EXPECT_EQ(store->snapshot()->clips.size(), 1U);
    screen->activateWindow();
    ASSERT_TRUE(QTest::qWaitForWindowActive(screen.get(), kWaitMilliseconds));
    list->setFocus();
    QTest::keyClick(list, Qt::Key_Delete);
    answerBox(QStringLiteral("Remove"));
    EXPECT_TRUE(store->snapshot()->clips.isEmpty());
    EXPECT_TRUE(store->snapshot()->shots.isEmpty());
    EXPECT_TRUE(fs::exists(clipFile));
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(store->snapshot()->shots.size(), 1U);
    EXPECT_EQ(list->model()->rowCount(), 1);
}

TEST_F(FootageScreenTest, AClipWhoseFileIsGoneIsMarkedInTheList) {
    fs::remove(clipFile);
    open();
    using Model = models::ClipTableModel;
    const auto* rows = clipList()->model();
    EXPECT_EQ(rows->index(0, Model::kRemarks).data().toString(), QStringLiteral("file not found"));
}

// One clip of this project states its rate; the other is the same film without the tag.
TEST_F(FootageScreenTest, TheListIsNarrowedByKindAndWordsAndAClipAskedForComesBack) {
    const fs::path second = folder.path() / "bench" / "untold.mp4";
    fs::copy_file(tests::dataFolder() / "footage" / "half_120fps.mp4", second);
    const auto untold = tests::must(core::intake::addPreparedClip(
        *store, record().session, tests::must(core::intake::prepareClip(second, store->file()))));
    tests::must(core::intake::addShotByHand(*store, clip, {10}));
    open();
    const auto* rows = clipList()->model();
    const auto chips = screen->findChild<ClipFilterBar*>()->findChildren<QToolButton*>();
    const auto press = [&](const QString& beginning) {
        for (auto* chip : chips) {
            if (chip->text().startsWith(beginning)) {
                QTest::mouseClick(chip, Qt::LeftButton);
                return chip->text();
            }
        }
        return QString{};
    };
    EXPECT_EQ(rows->rowCount(), 2);
    EXPECT_EQ(press(QStringLiteral("Not assigned")), QStringLiteral("Not assigned 1"));
    ASSERT_EQ(rows->rowCount(), 1);
    EXPECT_EQ(rows->index(0, 0).data().toString(), QStringLiteral("slow.mp4"));
    EXPECT_EQ(press(QStringLiteral("All")), QStringLiteral("All 2"));
    QTest::keyClicks(&child<QLineEdit>("clip_words"), QStringLiteral("NTOL"));
    ASSERT_EQ(rows->rowCount(), 1);
    EXPECT_EQ(rows->index(0, 0).data().toString(), QStringLiteral("untold.mp4"));
    screen->chooseClip(clip);
    EXPECT_EQ(rows->rowCount(), 2);
    EXPECT_EQ(child<QLineEdit>("clip_words").text(), QString{});
    const auto chosen = clipList()->selectionModel()->selectedRows();
    ASSERT_EQ(chosen.size(), 1);
    EXPECT_EQ(chosen.front().data().toString(), QStringLiteral("slow.mp4"));
    EXPECT_NE(untold, clip);
}

TEST_F(FootageScreenTest, ASecondCopyToLookAtDisablesWhatWouldChangeItAndSaysWhy) {
    const fs::path file = store->file();
    store.reset();
    store = tests::must(core::project::Store::openReadOnly(file));
    open();
    const QString reason = QString::fromStdString(store->readOnlyReason());
    ASSERT_FALSE(reason.isEmpty());
    for (const char* name : {"add_clips", "add_folder", "find_shots", "add_shot", "split_shot",
                             "join_shots", "drop_shots", "by_cards", "by_order", "withdraw"}) {
        const auto& button = child<QPushButton>(name);
        EXPECT_FALSE(button.isEnabled()) << name;
        EXPECT_EQ(button.toolTip(), reason) << name;
    }
    EXPECT_FALSE(child<QLineEdit>("capture_rate").isEnabled());
    QTest::mouseClick(&child<QPushButton>("set_up_day"), Qt::LeftButton);
    EXPECT_FALSE(child<QPushButton>("day_use").isEnabled());
}

TEST_F(FootageScreenTest, CardsOfWhatIsAskedAreOpenUntilItIsAnswered) {
    open();
    auto& assign = child<style::FoldCard>("assign_card");
    EXPECT_FALSE(assign.isOpen()) << "there are no shots";
    std::vector shots{tests::must(core::intake::addShotByHand(*store, clip, {2}))};
    EXPECT_TRUE(assign.isOpen());
    QTest::mouseClick(assign.findChild<QToolButton*>(), Qt::LeftButton);
    shots.push_back(tests::must(core::intake::addShotByHand(*store, clip, {20})));
    EXPECT_FALSE(assign.isOpen()) << "a person has closed it";
    tests::must(core::intake::assignShots(*store, shots, {"gut", "A"}));
    shots.push_back(tests::must(core::intake::addShotByHand(*store, clip, {35})));
    EXPECT_TRUE(assign.isOpen()) << "it is asked again";
}

TEST_F(FootageScreenTest, AWrongTagIsSetAsideByHand) {
    open();
    auto& rate = child<QLineEdit>("capture_rate");
    QTest::keyClicks(&rate, QStringLiteral("120"));
    QTest::keyClick(&rate, Qt::Key_Return);
    EXPECT_TRUE(isShown(QStringLiteral("conflicts")));
    EXPECT_EQ(record().clock->stretch, core::timebase::Rational{8});
    QTest::mouseClick(&child<QCheckBox>("tag_is_wrong"), Qt::LeftButton, {}, {8, 8});
    EXPECT_FALSE(isShown(QStringLiteral("conflicts")));
    EXPECT_EQ(record().clock->stretch, core::timebase::Rational{4});
    EXPECT_TRUE(isShown(QStringLiteral("it was set aside by hand")));
    EXPECT_TRUE(isShown(QStringLiteral("(slow motion ×4; entered by hand)")));
    QTest::mouseClick(&child<QPushButton>("withdraw"), Qt::LeftButton);
    EXPECT_EQ(record().clock->stretch, core::timebase::Rational{8});
    EXPECT_FALSE(isShown(QStringLiteral("set it aside")));
    EXPECT_TRUE(isShown(QStringLiteral("(slow motion ×8; file's tag)")));
}

TEST_F(FootageScreenTest, ANumberWithTwoReadingsIsAskedAbout) {
    open();
    const auto before = record().clock->stretch;
    auto& rate = child<QLineEdit>("capture_rate");
    QTest::keyClicks(&rate, QStringLiteral("1,000"));
    QTest::keyClick(&rate, Qt::Key_Return);
    EXPECT_TRUE(isShown(QStringLiteral("can mean 1000 or 1.000")));
    EXPECT_EQ(record().clock->stretch, before);
}

// The clip shows one flight (tests/data/footage/README.md).
TEST_F(FootageScreenTest, ShotsAreFoundAndCorrectionsStayWhenTheyAreLookedForAgain) {
    open();
    auto& find = child<QPushButton>("find_shots");
    const auto* clips = screen->findChild<models::ClipTableModel*>();
    ASSERT_NE(clips, nullptr);
    const auto remarks = [clips] {
        return clips->index(0, models::ClipTableModel::kRemarks).data().toString();
    };
    const QString before = remarks();
    QTest::mouseClick(&find, Qt::LeftButton);
    ASSERT_TRUE(QTest::qWaitFor([this] { return store->snapshot()->shots.size() == 1; },
                                kWaitMilliseconds));
    const auto found = *store->snapshot()->shots.begin();
    EXPECT_EQ(screen->findChild<ClipTimeLine*>()->frame(),
              (found.firstFrame.value + found.lastFrame.value) / 2)
        << "the flight is in view";
    EXPECT_EQ(remarks(), before);  // that it was searched is nothing to look at
    ASSERT_TRUE(store->setShotRange(found.id, {found.firstFrame.value + 2}, found.lastFrame, {}));
    QSignalSpy said{screen.get(), &FootageScreen::statusChanged};
    QTest::keyClick(screen.get(), Qt::Key_F, Qt::ControlModifier);
    ASSERT_TRUE(QTest::qWaitFor(
        [&said] {
            return std::any_of(said.begin(), said.end(), [](const QList<QVariant>& arguments) {
                return arguments.first().toString().contains(QStringLiteral("no new shot"));
            });
        },
        kWaitMilliseconds));
    ASSERT_EQ(store->snapshot()->shots.size(), 1U);
    EXPECT_EQ(store->snapshot()->shots.begin()->firstFrame.value, found.firstFrame.value + 2);
    ASSERT_TRUE(store->undo());
    ASSERT_TRUE(store->undo());
    EXPECT_TRUE(store->snapshot()->shots.isEmpty());
}

/// The time line with two shots in a clip of 46 frames, worked by mouse and keys.
class TimeLineCorrections : public FootageScreenTest {
protected:
    void SetUp() override {
        std::vector<core::project::Shot> shots(2);
        shots[0].clip = shots[1].clip = clip;
        shots[0].firstFrame = shots[0].strikeFrame.emplace(core::timebase::FrameIndex{5});
        shots[0].lastFrame = {15};
        shots[1].firstFrame = shots[1].strikeFrame.emplace(core::timebase::FrameIndex{20});
        shots[1].lastFrame = {30};
        ASSERT_TRUE(store->addShots(shots));
        open();
        line = screen->findChild<ClipTimeLine*>();
        ASSERT_NE(line, nullptr);
        line->setFocus();
    }
    /// Where the middle of a frame is drawn: 8 px of margin at both ends, frames of equal width.
    [[nodiscard]] int xOf(double frame) const {
        return static_cast<int>(8.0 + frame / 46.0 * (line->width() - 16.0));
    }
    [[nodiscard]] int middle() const { return line->height() - 16; }
    void clickFrame(int frame) {
        QTest::mouseClick(line, Qt::LeftButton, {}, {xOf(frame + 0.5), middle()});
    }
    void drag(QPoint from, QPoint to) {
        QTest::mousePress(line, Qt::LeftButton, {}, from);
        QMouseEvent move{QEvent::MouseMove, QPointF{to},    line->mapToGlobal(QPointF{to}),
                         Qt::NoButton,      Qt::LeftButton, Qt::NoModifier};
        QCoreApplication::sendEvent(line, &move);
        QTest::mouseRelease(line, Qt::LeftButton, {}, to);
    }
    /// "first-last" of each shot with its strike, in order.
    [[nodiscard]] std::string shots() const {
        std::string all;
        const auto snapshot = store->snapshot();
        for (const auto* shot : shotsOfClip(*snapshot, clip)) {
            all += (all.empty() ? "" : " ") + std::to_string(shot->firstFrame.value) + "-" +
                   std::to_string(shot->lastFrame.value) + "/" +
                   std::to_string(shot->strikeFrame.value().value);
        }
        return all;
    }
    void expectOneStep(const std::string& after) {
        EXPECT_EQ(shots(), after);
        ASSERT_TRUE(store->undo());
        EXPECT_EQ(shots(), "5-15/5 20-30/20");
    }

    ClipTimeLine* line{};
};

TEST_F(TimeLineCorrections, EdgesAndStrikesAreDragged) {
    drag({xOf(16.0), middle()}, {xOf(17.5), middle()});
    expectOneStep("5-17/5 20-30/20");
    drag({xOf(5.0), middle()}, {xOf(7.5), middle()});
    expectOneStep("7-15/7 20-30/20");
    // The handle of the strike is above the block, which begins a text's height and 10 px down.
    drag({xOf(20.0), line->fontMetrics().height() + 6},
         {xOf(22.5), line->fontMetrics().height() + 6});
    expectOneStep("5-15/5 20-30/22");
}

TEST_F(TimeLineCorrections, EdgesAndStrikesAreSetByKey) {
    clickFrame(8);
    QTest::keyClick(line, Qt::Key_T);
    expectOneStep("5-15/8 20-30/20");
    clickFrame(8);
    QTest::keyClick(line, Qt::Key_F);
    expectOneStep("8-15/8 20-30/20");
    clickFrame(12);
    QTest::keyClick(line, Qt::Key_E);
    expectOneStep("5-12/5 20-30/20");
}

TEST_F(TimeLineCorrections, ShotsAreMadeSplitJoinedAndDroppedByKey) {
    clickFrame(40);
    QTest::keyClick(line, Qt::Key_N);
    expectOneStep("5-15/5 20-30/20 40-45/40");
    clickFrame(25);
    QTest::keyClick(line, Qt::Key_2);
    expectOneStep("5-15/5 20-24/20 25-30/25");
    clickFrame(10);
    QTest::keyClick(line, Qt::Key_1);
    expectOneStep("5-30/5");
    clickFrame(10);
    QTest::keyClick(line, Qt::Key_Delete);
    expectOneStep("20-30/20");
}

/// Forty frames that take a third of a second, which is 120 a second.
TEST_F(TimeLineCorrections, AClockCheckIsMadeAndTakenBackInOneStep) {
    QTest::mouseClick(&child<QCheckBox>("tag_is_wrong"), Qt::LeftButton, {}, {8, 8});
    ASSERT_EQ(record().clock->kind, core::timebase::ClockKind::Stamped);
    auto& shown = child<QLineEdit>("check_shown");
    const auto mark = [this, &shown](int frame, const QString& time) {
        clickFrame(frame);
        QTest::keyClicks(&shown, time);
        QTest::keyClick(&shown, Qt::Key_Return);
    };
    EXPECT_FALSE(child<QLabel>("check_caution").isVisible());
    auto& use = child<QPushButton>("check_use");
    mark(42, QStringLiteral("1:01.3333"));
    EXPECT_FALSE(use.isEnabled()) << "one frame says nothing";
    mark(2, QStringLiteral("later"));
    EXPECT_TRUE(isShown(QStringLiteral("\"later\" is no time")));
    shown.clear();
    mark(2, QStringLiteral("1:01"));
    EXPECT_TRUE(isShown(QStringLiteral("Captured at 120")));
    QTest::mouseClick(&use, Qt::LeftButton);
    EXPECT_EQ(record().clock->kind, core::timebase::ClockKind::Stretched);
    EXPECT_NEAR(record().clock->stretch.toDouble(), 4.0, 0.02);
    EXPECT_TRUE(isShown(QStringLiteral("The clock check (stopwatch, frames 2 to 42 of slow.mp4)")));
    EXPECT_TRUE(isShown(QStringLiteral("; clock check)")));
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(record().clock->kind, core::timebase::ClockKind::Stamped);
    EXPECT_FALSE(isShown(QStringLiteral("; clock check)")));
    ASSERT_TRUE(store->redo());
    QTest::mouseClick(&child<QPushButton>("check_withdraw"), Qt::LeftButton);
    EXPECT_EQ(record().clock->kind, core::timebase::ClockKind::Stamped);
}

/// Four turns at 720 rpm take a third of a second.
TEST_F(TimeLineCorrections, AClockCheckByARigShowsItsCaution) {
    QTest::mouseClick(&child<QCheckBox>("tag_is_wrong"), Qt::LeftButton, {}, {8, 8});
    QTest::keyClick(&child<QComboBox>("check_kind"), Qt::Key_Down);
    EXPECT_TRUE(child<QLabel>("check_caution").isVisible());
    EXPECT_TRUE(isShown(QStringLiteral("clamped and guarded")));
    auto& speed = child<QLineEdit>("check_speed");
    speed.selectAll();
    QTest::keyClicks(&speed, QStringLiteral("720"));
    for (const auto& [frame, turns] : {std::pair{2, "0"}, std::pair{42, "4"}, std::pair{35, "9"}}) {
        clickFrame(frame);
        QTest::keyClicks(&child<QLineEdit>("check_shown"), QLatin1String{turns});
        QTest::mouseClick(&child<QPushButton>("check_mark"), Qt::LeftButton);
    }
    EXPECT_TRUE(isShown(QStringLiteral("must grow with the frames")));
    QTest::keyClick(&child<QListWidget>("check_list"), Qt::Key_Down);
    QTest::keyClick(&child<QListWidget>("check_list"), Qt::Key_Down);
    QTest::mouseClick(&child<QPushButton>("check_remove"), Qt::LeftButton);
    EXPECT_TRUE(isShown(QStringLiteral("Captured at 120")));
    QTest::mouseClick(&child<QPushButton>("check_use"), Qt::LeftButton);
    EXPECT_NEAR(record().clock->stretch.toDouble(), 4.0, 0.02);
}

TEST_F(TimeLineCorrections, WhatCannotBeSplitIsSaid) {
    clickFrame(18);  // between the shots
    clickFrame(5);
    QTest::keyClick(line, Qt::Key_2);
    EXPECT_TRUE(trouble().contains(QStringLiteral("does not divide"))) << trouble().toStdString();
    EXPECT_EQ(shots(), "5-15/5 20-30/20");
}

}  // namespace
}  // namespace ui::footage
