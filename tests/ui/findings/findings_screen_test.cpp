#include "ui/findings/findings_screen.h"
#include "tests/support/named_widget.h"

#include <gtest/gtest.h>

#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QSignalSpy>
#include <QTabWidget>
#include <QTableView>
#include <QTest>
#include <QTextDocument>
#include <filesystem>
#include <stdexcept>

#include "core/findings/settings.h"
#include "tests/support/process.h"
#include "tests/ui/findings/findings_project.h"
#include "ui/findings/ranking/ranked_head.h"
#include "ui/findings/ranking/ranked_view.h"
#include "ui/findings/table_view.h"
#include "ui/models/ranked_table_model.h"
#include "ui/models/shot_table_model.h"

/// The findings screen on a project of three implements and two hitters, driven as a person would.
namespace ui::findings {
namespace {

using models::RankedTableModel;
constexpr int kWaitMilliseconds = 60000;  // for computing on a busy machine

class FindingsScreenTest : public ::testing::Test {
protected:
    void open(QSize size = {1366, 660}) {
        screen = std::make_unique<FindingsScreen>(*project.store, keeper);
        screen->resize(size);
        screen->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(screen.get(), kWaitMilliseconds));
        ASSERT_TRUE(
            QTest::qWaitFor([this] { return table().model()->rowCount() > 0; }, kWaitMilliseconds));
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(*screen, name);
    }
    [[nodiscard]] RankedView& table() { return child<RankedView>("ranked"); }
    [[nodiscard]] QString cellText(int row, int column) {
        return table().model()->index(row, column).data().toString();
    }
    [[nodiscard]] QTableView* shotTable() {
        for (auto* table : screen->findChildren<QTableView*>()) {
            if (table->accessibleName().startsWith(QStringLiteral("Shots"))) {
                return table;
            }
        }
        throw std::runtime_error("no table of shots");
    }
    void type(const char* field, const char* text) {
        auto& edit = child<QLineEdit>(field);
        edit.setFocus();
        edit.selectAll();
        QTest::keyClick(&edit, Qt::Key_Delete);
        QTest::keyClicks(&edit, QString::fromUtf8(text));
        QTest::keyClick(&edit, Qt::Key_Return);
    }
    template <class Condition>
    [[nodiscard]] bool waitFor(Condition condition) {
        return QTest::qWaitFor(condition, kWaitMilliseconds);
    }

    tests::FindingsProject project;
    bridge::JobRunner jobs{1};
    bridge::FindingsKeeper keeper{*project.store, jobs};
    std::unique_ptr<FindingsScreen> screen;
};

TEST_F(FindingsScreenTest, ImplementsStandInTheOrderOfTheirMeans) {
    open();
    ASSERT_EQ(table().model()->rowCount(), 3);
    EXPECT_EQ(cellText(0, RankedTableModel::kImplement), QStringLiteral("implement 3"));
    EXPECT_EQ(cellText(0, RankedTableModel::kRank), QStringLiteral("1"));
    EXPECT_EQ(cellText(0, RankedTableModel::kCount), QStringLiteral("12"));
    // (2000 + 2060)/2; standard error 37.4/sqrt(6)/sqrt(2) = 10.8, so no decimals.
    EXPECT_EQ(cellText(0, RankedTableModel::kMean), QStringLiteral("2030"));
    EXPECT_EQ(cellText(0, RankedTableModel::kLetters), QStringLiteral("a"));
}

TEST_F(FindingsScreenTest, EveryColumnIsInViewOnASmallScreen) {
    open({1366, 660});
    const auto* header = table().horizontalHeader();
    const int last = RankedTableModel::kRemarks;
    EXPECT_FALSE(table().isColumnHidden(last));
    EXPECT_LE(header->sectionViewportPosition(last) + header->sectionSize(last),
              table().viewport()->width());
    EXPECT_GE(header->sectionSize(RankedTableModel::kChart), 300);
}

TEST_F(FindingsScreenTest, ChangedReadingArrivesByItself) {
    open();
    project.keepShot(1500.0);
    EXPECT_TRUE(waitFor([this] {
        for (int row = 0; row < table().model()->rowCount(); ++row) {
            if (cellText(row, RankedTableModel::kCount) == QStringLiteral("13")) {
                return true;
            }
        }
        return false;
    }));
}

TEST_F(FindingsScreenTest, StepTypedInThePlaceIsKeptAndDrawn) {
    open();
    type("noticeable_step", "300");
    EXPECT_EQ(core::findings::noticeableStep(*project.store->snapshot()).value(), core::Rpm{300.0});
    EXPECT_TRUE(waitFor([this] { return table().rulerLowRpm().has_value(); }));
    ASSERT_TRUE(project.store->undo().has_value());
    EXPECT_TRUE(waitFor([this] { return !table().rulerLowRpm().has_value(); }));
    EXPECT_EQ(child<QLineEdit>("noticeable_step").text(), QString{});
}

TEST_F(FindingsScreenTest, RefusedStepSaysWhyAndChangesNothing) {
    open();
    type("noticeable_step", "much");
    EXPECT_TRUE(child<QLabel>("refusal").isVisible());
    EXPECT_TRUE(child<QLabel>("refusal").text().contains(QStringLiteral("not a number")));
    EXPECT_FALSE(core::findings::noticeableStep(*project.store->snapshot()).value().has_value());
    type("noticeable_step", "250");
    EXPECT_FALSE(child<QLabel>("refusal").isVisible());
}

TEST_F(FindingsScreenTest, BandsTypedInThePlaceFillTheirColumn) {
    open();
    type("bands", "low 1580 high");
    EXPECT_TRUE(
        waitFor([this] { return cellText(0, RankedTableModel::kBand) == QStringLiteral("high"); }));
    EXPECT_EQ(cellText(2, RankedTableModel::kBand), QStringLiteral("low"));
    ASSERT_EQ(table().plot().bands.size(), 2U);
    EXPECT_EQ(table().plot().bands[1].low, core::Rpm{1580.0});
    type("bands", "low 1600 1700 high");
    EXPECT_TRUE(child<QLabel>("refusal").text().contains(QStringLiteral("no name")));
}

TEST_F(FindingsScreenTest, RulerIsDraggedAlongTheAxisAndMovedByKeys) {
    ASSERT_TRUE(core::findings::setNoticeableStep(*project.store, core::Rpm{200.0}).has_value());
    open();
    auto* head = screen->findChild<RankedHead*>();
    // It reaches down from the mean of the first row.
    EXPECT_DOUBLE_EQ(*table().rulerLowRpm(), 2030.0 - 200.0);
    const QPoint from = head->ruler().center().toPoint();
    const QPoint to = from + QPoint{-80, 0};
    QTest::mousePress(head->viewport(), Qt::LeftButton, {}, from);
    QMouseEvent move{
        QEvent::MouseMove, to, head->viewport()->mapToGlobal(to), Qt::LeftButton, Qt::LeftButton,
        Qt::NoModifier};
    QCoreApplication::sendEvent(head->viewport(), &move);
    QTest::mouseRelease(head->viewport(), Qt::LeftButton, {}, to);
    EXPECT_NEAR(head->ruler().center().x(), to.x(), 1.0);
    const double dragged = *table().rulerLowRpm();
    table().setFocus();
    QTest::keyClick(&table(), Qt::Key_Right);
    const double fine = *table().rulerLowRpm() - dragged;
    EXPECT_GT(fine, 0.0);
    QTest::keyClick(&table(), Qt::Key_Right, Qt::ShiftModifier);
    EXPECT_NEAR(*table().rulerLowRpm() - dragged, 11.0 * fine, 1e-9);
    EXPECT_EQ(head->ruler().center().toPoint().y(), from.y());
    EXPECT_EQ(table().horizontalHeader()->sortIndicatorSection(), RankedTableModel::kRank);
}

TEST_F(FindingsScreenTest, ArrowsChooseTheRowAndItsSentenceIsSaid) {
    open();
    table().setFocus();
    QTest::keyClick(&table(), Qt::Key_Down);
    EXPECT_EQ(table().selectionModel()->selectedRows().front().row(), 1);
    EXPECT_EQ(table().chosen(), project.implements[1]);
    EXPECT_TRUE(child<QLabel>("sentence").text().contains(QStringLiteral("implement 2: 1570 rpm")));
    QTest::keyClick(&table(), Qt::Key_End);
    EXPECT_EQ(table().currentIndex().row(), 2);
    QTest::keyClick(&table(), Qt::Key_Home);
    EXPECT_EQ(table().currentIndex().row(), 0);
}

TEST_F(FindingsScreenTest, OneHitterAloneHasItsOwnTable) {
    open();
    auto& scope = child<QComboBox>("scope");
    ASSERT_EQ(scope.count(), 3);
    scope.setFocus();
    QTest::keyClick(&scope, Qt::Key_Down);
    EXPECT_EQ(cellText(0, RankedTableModel::kCount), QStringLiteral("6"));
    EXPECT_EQ(cellText(0, RankedTableModel::kMean), QStringLiteral("2000"));
}

TEST_F(FindingsScreenTest, PairSaysItsSentenceAndOpensItsShots) {
    open();
    auto& tabs = child<QTabWidget>("views");
    tabs.setCurrentIndex(1);
    auto& pairs = child<QTableView>("pairs");
    ASSERT_EQ(pairs.model()->rowCount(), 3);
    pairs.setFocus();
    pairs.setCurrentIndex(pairs.model()->index(1, 2));
    const QString said = child<QLabel>("pair_sentence").text();
    EXPECT_TRUE(said.contains(QStringLiteral("implement 2"))) << said.toStdString();
    EXPECT_TRUE(said.contains(QStringLiteral("implement 1")));
    QTest::keyClick(&pairs, Qt::Key_Return);
    auto* shots = shotTable();
    EXPECT_EQ(shots->model()->rowCount(), 24);
    EXPECT_TRUE(shots->hasFocus());
    EXPECT_EQ(child<QLabel>("sentence").text(), said.left(child<QLabel>("sentence").text().size()));
}

TEST_F(FindingsScreenTest, LookIsCountedOnceForTheSameReadings) {
    open();
    EXPECT_TRUE(
        waitFor([this] { return core::findings::looks(*project.store->snapshot()).count == 1; }));
    screen->hide();
    screen->show();
    QTest::qWait(50);
    EXPECT_EQ(core::findings::looks(*project.store->snapshot()).count, 1);
    screen->hide();
    project.keepShot(1400.0);
    screen->show();
    EXPECT_TRUE(
        waitFor([this] { return core::findings::looks(*project.store->snapshot()).count == 2; }));
}

TEST(FindingsScreenEmpty, TellsTheNextStep) {
    tests::TemporaryFolder folder;
    auto store = core::project::Store::create(folder.path() / "empty.turnmark");
    ASSERT_TRUE(store.has_value());
    bridge::JobRunner jobs{1};
    bridge::FindingsKeeper keeper{*store.value(), jobs};
    FindingsScreen screen{*store.value(), keeper};
    screen.show();
    const auto* hint = screen.findChild<QLabel*>(QStringLiteral("empty"));
    EXPECT_TRUE(QTest::qWaitFor([hint] { return hint->isVisible(); }, kWaitMilliseconds));
    EXPECT_EQ(hint->text(), QStringLiteral("Nothing to compare yet"));
    QSignalSpy way{&screen, &FindingsScreen::wayChosen};
    QTest::mouseClick(screen.findChild<QPushButton*>(QStringLiteral("empty_lead")), Qt::LeftButton);
    ASSERT_EQ(way.count(), 1);
    EXPECT_EQ(way.front().front().value<style::EmptyPage::Way>(), style::EmptyPage::Way::Reading);
}

TEST_F(FindingsScreenTest, LeadsOnToPublish) {
    open();
    QSignalSpy wanted{screen.get(), &FindingsScreen::publishWanted};
    QTest::mouseClick(&child<QPushButton>("go_to_publish"), Qt::LeftButton);
    EXPECT_EQ(wanted.count(), 1);
}

// Names are whatever people type: they are shown, never run, and push nothing out of the window.
TEST(FindingsScreenOfHostileNames, ShowsThemAsTheyAreWithinTheWindow) {
    const tests::FindingsProject project{{{"<b>markup</b>", std::string(300, 'L'),
                                           "line\nbreak \xF0\x9F\x8E\xBE \xD7\x9E\xD7\x97\xD7\x91"},
                                          {"<script>alert(1)</script>", std::string(300, 'H')}}};
    bridge::JobRunner jobs{1};
    bridge::FindingsKeeper keeper{*project.store, jobs};
    FindingsScreen screen{*project.store, keeper};
    screen.resize(1366, 660);
    screen.show();
    auto* table = screen.findChild<QTableView*>(QStringLiteral("ranked"));
    ASSERT_TRUE(
        QTest::qWaitFor([table] { return table->model()->rowCount() == 3; }, kWaitMilliseconds));
    table->selectRow(2);
    QTest::qWait(100);
    EXPECT_EQ(screen.width(), 1366);
    EXPECT_LE(screen.minimumSizeHint().width(), 1366);
    for (const auto* label : screen.findChildren<QLabel*>()) {
        EXPECT_FALSE(label->textFormat() != Qt::PlainText &&
                     label->text().contains(QLatin1Char{'<'}))
            << label->text().toStdString();
    }
    EXPECT_FALSE(
        Qt::mightBeRichText(table->model()->index(2, 1).data(Qt::ToolTipRole).toString()) &&
        table->model()
            ->index(2, 1)
            .data(Qt::ToolTipRole)
            .toString()
            .contains(QStringLiteral("<b>")));
}

// At 1366 points nothing of a row is cut with the bands shown, nor are the hitters' verdicts.
TEST_F(FindingsScreenTest, LastColumnsAreNotCutAtTheSmallestWindow) {
    open({1350, 640});
    type("bands", "low 1600 medium 1800 high");
    ASSERT_TRUE(waitFor([this] { return !table().plot().bands.empty(); }));
    QTest::qWait(100);
    EXPECT_LE(table().horizontalHeader()->length(), table().viewport()->width());
    child<QTabWidget>("views").setCurrentIndex(2);
    auto* hitters = screen->findChild<TableView*>()->findChild<QTableView*>();
    ASSERT_TRUE(waitFor([hitters] { return hitters->isVisible(); }));
    QTest::qWait(100);
    EXPECT_LE(hitters->horizontalHeader()->length(), hitters->viewport()->width());
}

// The readings of this project are no readings from pictures.
TEST_F(FindingsScreenTest, TheFlightOfTheShotsIsShownWhereItIsAskedFor) {
    open();
    QTableView* shots = shotTable();
    const int speed = models::ShotTableModel::kFlight;
    EXPECT_TRUE(shots->isColumnHidden(speed));
    EXPECT_FALSE(child<QLabel>("flight_summary").isVisible());
    QTest::mouseClick(&child<QPushButton>("show_flight"), Qt::LeftButton);
    EXPECT_FALSE(shots->isColumnHidden(speed));
    EXPECT_EQ(shots->model()->headerData(speed, Qt::Horizontal, Qt::DisplayRole).toString(),
              QStringLiteral("Ball speed, m/s"));
    ASSERT_TRUE(child<QLabel>("flight_summary").isVisible());
    EXPECT_TRUE(child<QLabel>("flight_summary").text().startsWith(QStringLiteral("No shot here")));
    QTest::mouseClick(&child<QPushButton>("show_flight"), Qt::LeftButton);
    EXPECT_TRUE(shots->isColumnHidden(speed));
    EXPECT_FALSE(child<QLabel>("flight_summary").isVisible());
}

}  // namespace
}  // namespace ui::findings
