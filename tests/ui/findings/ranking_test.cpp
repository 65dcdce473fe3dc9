#include <gtest/gtest.h>

#include <QAccessible>
#include <QApplication>
#include <QCheckBox>
#include <QClipboard>
#include <QComboBox>
#include <QHeaderView>
#include <QLabel>
#include <QLineEdit>
#include <QMimeData>
#include <QScrollBar>
#include <QTest>
#include <QToolButton>
#include <QWheelEvent>

#include "core/base/text_table.h"
#include "core/base/words.h"
#include "core/findings/settings.h"
#include "core/words/findings.h"
#include "tests/support/named_widget.h"
#include "tests/ui/findings/findings_project.h"
#include "ui/findings/findings_screen.h"
#include "ui/findings/ranking/ranked_head.h"
#include "ui/findings/ranking/ranked_view.h"
#include "ui/findings/ranking/ranking_in_small.h"

/// The ranking on a project of forty implements and two hitters, driven as a person would.
namespace ui::findings {
namespace {

using models::RankedTableModel;
using tests::FindingsProject;

constexpr int kRankingWaitMilliseconds = 20000;  // for computing on a busy machine
constexpr int kRows = 40;

/// Set-up k has mean 2000 - 20 k rpm with hitter A and 60 more with B; every fourth is worn.
std::vector<FindingsProject::Row> longRows() {
    std::vector<FindingsProject::Row> rows;
    for (int k = 1; k <= kRows; ++k) {
        rows.push_back(
            {"set-up " + std::to_string(k), k % 4 == 0 ? "worn" : "new", 2000.0 - 20.0 * k});
    }
    return rows;
}

class RankingTest : public ::testing::Test {
protected:
    explicit RankingTest(const std::vector<FindingsProject::Row>& rows = longRows(),
                         const std::vector<std::string>& hitters = {"A", "B"})
        : project{rows, hitters} {}

    void open(QSize size = {1366, 660}) {
        screen = std::make_unique<FindingsScreen>(*project.store, keeper);
        screen->resize(size);
        screen->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(screen.get(), kRankingWaitMilliseconds));
        ASSERT_TRUE(QTest::qWaitFor([this] { return view().model()->rowCount() > 0; },
                                    kRankingWaitMilliseconds));
        QTest::qWait(50);  // the first painting lays the rows out
    }
    template <class Widget>
    [[nodiscard]] Widget& child(const char* name) {
        return tests::namedWidget<Widget>(*screen, name);
    }
    [[nodiscard]] RankedView& view() { return child<RankedView>("ranked"); }
    [[nodiscard]] RankingInSmall& small() { return *screen->findChild<RankingInSmall*>(); }
    [[nodiscard]] RankedHead& head() { return *screen->findChild<RankedHead*>(); }
    [[nodiscard]] QString text(int row, int column) {
        return view().model()->index(row, column).data().toString();
    }
    [[nodiscard]] int shown() { return view().model()->rowCount(); }
    void turnWheel(int notches) {
        const QPointF at = QRectF{view().viewport()->rect()}.center();
        QWheelEvent wheel{at,
                          view().viewport()->mapToGlobal(at),
                          {},
                          {0, 120 * notches},
                          Qt::NoButton,
                          Qt::NoModifier,
                          Qt::NoScrollPhase,
                          false};
        QCoreApplication::sendEvent(view().viewport(), &wheel);
    }
    void click(int row, int column) {
        QTest::mouseClick(view().viewport(), Qt::LeftButton, {},
                          view().visualRect(view().model()->index(row, column)).center());
    }
    void clickHead(int column) {
        const int x = head().sectionViewportPosition(column) + 4;
        QTest::mouseClick(head().viewport(), Qt::LeftButton, {}, {x, head().height() - 8});
    }
    /// Where a mark is drawn in the viewport.
    [[nodiscard]] QPoint placeOf(int row, double rpm, double lane) {
        const QRectF cell{view().visualRect(view().model()->index(row, RankedTableModel::kChart))};
        return QPointF{view().plot().axisOver(cell.left(), cell.right()).at(rpm), cell.top() + lane}
            .toPoint();
    }

    FindingsProject project;
    bridge::JobRunner jobs{1};
    bridge::FindingsKeeper keeper{*project.store, jobs};
    std::unique_ptr<FindingsScreen> screen;
};

// The lanes are those of the look: 8, 16 and 24 in a row of 32.
TEST_F(RankingTest, RowsHaveOneHeightWhateverTheWindowAndScrollUnderTheAxis) {
    open({1366, 660});
    ASSERT_EQ(shown(), kRows);
    const auto& lanes = view().plot().lanes;
    EXPECT_EQ(lanes.rowHeight(), 32);
    EXPECT_DOUBLE_EQ(lanes.hitter(0), 8.0);
    EXPECT_DOUBLE_EQ(lanes.own(), 16.0);
    EXPECT_DOUBLE_EQ(lanes.hitter(1), 24.0);
    for (int row = 0; row < kRows; ++row) {
        ASSERT_EQ(view().rowHeight(row), 32);
    }
    const auto axis = view().plot().range;
    turnWheel(-1);
    EXPECT_GT(view().verticalScrollBar()->value(), 0);
    EXPECT_LT(view().visualRect(view().model()->index(0, 0)).bottom(), 32);
    EXPECT_EQ(view().plot().range.low, axis.low);
    screen->resize(1366, 900);
    EXPECT_EQ(view().rowHeight(0), 32);
}

TEST_F(RankingTest, KeysReachEveryRowAndBringItIntoView) {
    open();
    view().setFocus();
    for (int k = 1; k < kRows; ++k) {
        QTest::keyClick(&view(), Qt::Key_Down);
    }
    EXPECT_EQ(view().chosen(), project.implements.back());
    const QRect last = view().visualRect(view().currentIndex());
    EXPECT_TRUE(view().viewport()->rect().contains(last)) << last.top();
    QTest::keyClick(&view(), Qt::Key_PageUp);
    EXPECT_LT(view().currentIndex().row(), kRows - 5);
}

TEST_F(RankingTest, HeadSortsByItsColumn) {
    open();
    clickHead(RankedTableModel::kImplement);
    // As texts: "set-up 1", "set-up 10", "set-up 11" …
    EXPECT_TRUE(text(1, RankedTableModel::kImplement).startsWith(QStringLiteral("set-up 10")));
    EXPECT_EQ(text(1, RankedTableModel::kRank), QStringLiteral("10"));
    clickHead(RankedTableModel::kMean);
    EXPECT_EQ(text(0, RankedTableModel::kRank), QStringLiteral("40"));
    clickHead(RankedTableModel::kMean);
    EXPECT_EQ(text(0, RankedTableModel::kRank), QStringLiteral("1"));
}

TEST_F(RankingTest, SearchAndGroupsNarrowTheRows) {
    ASSERT_TRUE(core::findings::setBands(*project.store,
                                         core::findings::Bands::parse("low 1500 high").value())
                    .has_value());
    open();
    auto& search = child<QLineEdit>("search");
    view().setFocus();
    QTest::keyClick(&view(), Qt::Key_F, Qt::ControlModifier);
    ASSERT_TRUE(search.hasFocus());
    QTest::keyClicks(&search, QStringLiteral("WORN up"));
    EXPECT_EQ(shown(), kRows / 4);
    EXPECT_EQ(text(0, RankedTableModel::kRank), QStringLiteral("4")) << "of all";
    search.clear();
    EXPECT_EQ(shown(), kRows);
    auto& conditions = child<QComboBox>("conditions");
    ASSERT_TRUE(conditions.isVisible());
    conditions.setFocus();
    QTest::keyClicks(&conditions, QStringLiteral("worn"));
    EXPECT_EQ(shown(), kRows / 4);
    // 2000 - 20 k + 30, the mean of both hitters, is at least 1500 up to k = 26: 4, 8 … 24.
    auto& bands = child<QComboBox>("band_filter");
    bands.setFocus();
    QTest::keyClicks(&bands, QStringLiteral("high"));
    EXPECT_EQ(shown(), 6);
    QTest::keyClicks(&search, QStringLiteral("nothing is called so"));
    EXPECT_EQ(shown(), 0);
    EXPECT_FALSE(view().chosen().has_value());
    search.clear();
    EXPECT_EQ(shown(), 6);
    EXPECT_TRUE(view().chosen().has_value());
}

TEST_F(RankingTest, ChosenRowStaysChosenWhenRowsAreSortedOrNarrowed) {
    open();
    click(7, RankedTableModel::kImplement);
    ASSERT_EQ(view().chosen(), project.implements[7]);
    clickHead(RankedTableModel::kImplement);
    EXPECT_EQ(view().chosen(), project.implements[7]);
    QTest::keyClicks(&child<QLineEdit>("search"), QStringLiteral("8"));
    EXPECT_EQ(view().chosen(), project.implements[7]);
    project.keepShot(1900.0);
    QTest::qWait(200);
    EXPECT_EQ(view().chosen(), project.implements[7]);
}

// Which pairs differ is decided in core/findings; the mark says the same.
TEST_F(RankingTest, MarkStandsWhereNoDifferenceFromTheChosenRowIsShown) {
    open();
    click(3, RankedTableModel::kImplement);
    const auto& together = keeper.findings()->together();
    int marked = 0;
    for (int row = 0; row < shown(); ++row) {
        const auto* pair = together.pair(project.implements[3],
                                         together.ranked[static_cast<std::size_t>(row)].implement);
        const bool isAlike = pair != nullptr && !pair->differs;
        EXPECT_EQ(text(row, RankedTableModel::kAlike), isAlike ? QStringLiteral("≈") : QString{});
        marked += isAlike ? 1 : 0;
    }
    EXPECT_GT(marked, 0);
    EXPECT_LT(marked, kRows - 1);
}

TEST_F(RankingTest, CopiedRowsAreATableForASpreadsheet) {
    open();
    click(1, RankedTableModel::kImplement);
    QTest::keyClick(&view(), Qt::Key_Down, Qt::ShiftModifier);
    QTest::keyClick(&view(), Qt::Key_C, Qt::ControlModifier);
    const auto* copied = QApplication::clipboard()->mimeData();
    const auto table = core::readTextTable(copied->text().toStdString());
    ASSERT_TRUE(table.has_value()) << table.error().message;
    ASSERT_EQ(table.value().rows.size(), 2U);
    const auto field = [&](const char* column) {
        const auto at = table.value().column(column);
        return at ? table.value().rows[0].fields[*at] : "no such column";
    };
    EXPECT_EQ(field("Rank"), "2");
    EXPECT_EQ(field("Implement"), "set-up 2");
    EXPECT_EQ(field("Condition"), "new");
    EXPECT_EQ(field("n"), "12");
    EXPECT_EQ(field("Mean, rpm"), "1990");  // 2000 - 40 and 60 more, averaged
    EXPECT_EQ(field("hitter A, mean, rpm"), "1960");
    EXPECT_EQ(field("hitter B, mean, rpm"), "2020");
    // t(5; 0.975) = 2.5706, sd = sqrt(7000/5) = 37.417: 2.5706 · 37.417/sqrt(6) = 39.27; the
    // readings' own 8 rpm are in the scatter.
    EXPECT_EQ(field("hitter A, 95 % from, rpm"), "1921");
    EXPECT_EQ(field("hitter A, 95 % to, rpm"), "1999");
    EXPECT_TRUE(copied->html().contains(QStringLiteral("<td>set-up 2</td>")));
    EXPECT_TRUE(copied->html().contains(QStringLiteral("<th>Mean, rpm</th>")));
}

TEST_F(RankingTest, OpenDoubtsAreARemarkOfTheirRow) {
    open();
    EXPECT_EQ(text(2, RankedTableModel::kRemarks), QString{});
    const auto& cells = project.store->snapshot()->cells;
    const auto cellOf = [&](std::size_t implement) {
        return std::find_if(cells.begin(), cells.end(),
                            [&](const auto& cell) {
                                return cell.implement == project.implements[implement];
                            })
            ->id;
    };
    const auto doubted = [&](std::size_t implement, core::doubts::Grade grade, bool isSettled) {
        core::doubts::Doubted item;
        item.cell = cellOf(implement);
        item.doubts.push_back({core::doubts::Reason::Blur, grade, 1.0, {}});
        item.isSettled = isSettled;
        return item;
    };
    using core::doubts::Grade;
    auto doubts = std::make_shared<core::doubts::Doubts>();
    doubts->items = {doubted(2, Grade::Note, false), doubted(2, Grade::Grave, false),
                     doubted(3, Grade::Grave, true)};
    screen->showDoubts(doubts);
    EXPECT_EQ(text(2, RankedTableModel::kRemarks), QStringLiteral("2 doubts open"));
    EXPECT_EQ(view()
                  .model()
                  ->index(2, RankedTableModel::kRemarks)
                  .data(RankedTableModel::kRemarkKindRole)
                  .value<models::RemarkKind>(),
              models::RemarkKind::Grave);
    EXPECT_EQ(text(3, RankedTableModel::kRemarks), QString{}) << "settled";
    click(2, RankedTableModel::kImplement);
    EXPECT_TRUE(child<QLabel>("sentence").text().endsWith(QStringLiteral("2 doubts open")));
    screen->showDoubts(nullptr);
    EXPECT_FALSE(child<QLabel>("sentence").text().contains(QStringLiteral("doubt")));
}

class RankingOfHostileNamesTest : public RankingTest {
protected:
    RankingOfHostileNamesTest()
        : RankingTest{{{"=1+1", "", 1500.0}, {"a\tb\nc <b>", "", 1600.0}}, {"A", "@B"}} {}
};

TEST_F(RankingOfHostileNamesTest, StayInTheirCellsWhenCopied) {
    open();
    view().setFocus();
    QTest::keyClick(&view(), Qt::Key_A, Qt::ControlModifier);
    QTest::keyClick(&view(), Qt::Key_C, Qt::ControlModifier);
    const auto* copied = QApplication::clipboard()->mimeData();
    const auto table = core::readTextTable(copied->text().toStdString());
    ASSERT_TRUE(table.has_value()) << table.error().message;
    const auto at = table.value().column("Implement").value();
    EXPECT_EQ(table.value().rows[0].fields[at], "a b c <b>");
    EXPECT_EQ(table.value().rows[1].fields[at], "'=1+1");
    EXPECT_TRUE(copied->html().contains(QStringLiteral("<td>a b c &lt;b&gt;</td>")));
}

TEST_F(RankingTest, RankingInSmallJumpsWhereItIsClickedAndDragged) {
    open();
    auto& bar = small();
    EXPECT_EQ(bar.width(), 42);
    ASSERT_GT(bar.maximum(), 0);
    EXPECT_GT(bar.frame().top(), head().height()) << "beside the rows, not the head";
    const auto inView = [this](int row) {
        return view().viewport()->rect().contains(
            view().visualRect(view().model()->index(row, 0)).center());
    };
    const auto at = [&bar](int row) {
        return QPoint{bar.width() / 2, static_cast<int>(bar.heightOf(row))};
    };
    EXPECT_FALSE(inView(30));
    QTest::mouseClick(&bar, Qt::LeftButton, {}, at(30));
    EXPECT_TRUE(inView(30));
    EXPECT_TRUE(bar.frame().contains(at(30)));
    QTest::mousePress(&bar, Qt::LeftButton, {}, at(30));
    QMouseEvent move{QEvent::MouseMove, at(2),          bar.mapToGlobal(at(2)),
                     Qt::LeftButton,    Qt::LeftButton, Qt::NoModifier};
    QCoreApplication::sendEvent(&bar, &move);
    QTest::mouseRelease(&bar, Qt::LeftButton, {}, at(2));
    EXPECT_TRUE(inView(2));
    EXPECT_FALSE(inView(30));
    QTest::mouseClick(&bar, Qt::LeftButton, {}, at(kRows - 1));
    EXPECT_EQ(bar.value(), bar.maximum());
}

TEST_F(RankingTest, PlacesSayWhatTheyShow) {
    open();
    const double mean = 1980.0;  // of the first row by hitter A
    EXPECT_EQ(view().tipAt(placeOf(0, mean, 8.0)),
              QStringLiteral("set-up 1, hitter A: 1980 rpm (1941 to 2019)"));
    EXPECT_TRUE(view()
                    .tipAt(placeOf(0, mean + 30.0, 16.0))
                    .startsWith(QStringLiteral("set-up 1: 2010 rpm (")));
    const auto row = view().visualRect(view().model()->index(2, RankedTableModel::kImplement));
    EXPECT_EQ(view().tipAt(row.center()),
              QString::fromStdString(core::words::sentence(keeper.findings()->together().ranked[2],
                                                           keeper.findings()->together())));
}

TEST_F(RankingTest, ClickOnAHittersMarkShowsItsShots) {
    open();
    QTest::mouseClick(view().viewport(), Qt::LeftButton, {}, placeOf(0, 1980.0, 8.0));
    const auto tables = screen->findChildren<QTableView*>();
    const auto shots = std::find_if(tables.begin(), tables.end(), [](const QTableView* table) {
        return table->accessibleName().startsWith(QStringLiteral("Shots"));
    });
    ASSERT_NE(shots, tables.end());
    EXPECT_EQ((*shots)->model()->rowCount(), 6);
    EXPECT_TRUE(child<QLabel>("sentence").text().contains(QStringLiteral("hitter A")));
    click(0, RankedTableModel::kImplement);
    QTest::keyClick(&view(), Qt::Key_Down);
    EXPECT_EQ((*shots)->model()->rowCount(), 12);
}

TEST_F(RankingTest, ScreenReadersAreToldWhatIsDrawn) {
    open();
    auto* table = QAccessible::queryAccessibleInterface(&view())->tableInterface();
    ASSERT_NE(table, nullptr);
    const auto said = [table](int row, int column) {
        return table->cellAt(row, column)->text(QAccessible::Name);
    };
    EXPECT_TRUE(
        said(2, RankedTableModel::kRank).startsWith(QStringLiteral("rank 3; the readings")));
    EXPECT_TRUE(said(0, RankedTableModel::kChart)
                    .contains(QStringLiteral("hitter B: 2040 rpm (2001 to 2079)")));
    EXPECT_TRUE(said(1, RankedTableModel::kAlike).contains(QStringLiteral("set-up 1")));
}

TEST_F(RankingTest, CompactRowsShowHittersAsPoints) {
    open();
    auto& compact = child<QCheckBox>("compact");
    compact.setFocus();
    QTest::keyClick(&compact, Qt::Key_Space);
    EXPECT_EQ(view().rowHeight(0), 22);
    EXPECT_FALSE(view().plot().lanes.haveBars());
    QTest::keyClick(&compact, Qt::Key_Space);
    EXPECT_EQ(view().rowHeight(0), 32);
}

TEST_F(RankingTest, SmallWindowHidesTheSidePanelUntilItIsAskedFor) {
    open({1024, 600});
    EXPECT_TRUE(view().isColumnHidden(RankedTableModel::kInterval));
    auto& sentence = child<QLabel>("sentence");
    EXPECT_FALSE(sentence.isVisible());
    ASSERT_TRUE(child<QToolButton>("side_switch").isVisible());
    view().setFocus();
    QTest::keyClick(&view(), Qt::Key_Return);
    EXPECT_TRUE(sentence.isVisible());
    EXPECT_LE(view().horizontalHeader()->length(), view().viewport()->width());
    QTest::keyClick(QApplication::focusWidget(), Qt::Key_Escape);
    EXPECT_FALSE(sentence.isVisible());
    EXPECT_TRUE(view().hasFocus());
    screen->resize(1366, 660);
    EXPECT_TRUE(sentence.isVisible());
    EXPECT_FALSE(view().isColumnHidden(RankedTableModel::kInterval));
}

// Up to three hitters fit into a row of 32, each further one adds 8, from six on there are points.
TEST(RankedLanes, GrowWithTheHitters) {
    const int line = 16;
    EXPECT_EQ(RankedLanes(0, false, line).rowHeight(), 32);
    EXPECT_EQ(RankedLanes(3, false, line).rowHeight(), 32);
    EXPECT_EQ(RankedLanes(4, false, line).rowHeight(), 40);
    EXPECT_EQ(RankedLanes(5, false, line).rowHeight(), 48);
    EXPECT_TRUE(RankedLanes(5, false, line).haveBars());
    EXPECT_EQ(RankedLanes(6, false, line).rowHeight(), 32);
    EXPECT_FALSE(RankedLanes(6, false, line).haveBars());
    for (const std::size_t hitters : {1U, 2U, 3U, 4U, 5U}) {
        const RankedLanes lanes{hitters, false, line};
        std::vector<double> places{lanes.own()};
        for (std::size_t k = 0; k < hitters; ++k) {
            places.push_back(lanes.hitter(k));
        }
        std::sort(places.begin(), places.end());
        for (std::size_t k = 1; k < places.size(); ++k) {
            EXPECT_DOUBLE_EQ(places[k] - places[k - 1], 8.0) << hitters;
        }
        EXPECT_GE(places.front(), 4.0);
        EXPECT_LE(places.back(), lanes.rowHeight() - 4.0);
    }
    EXPECT_EQ(RankedLanes(2, false, 30).rowHeight(), 42) << "larger text";
}

}  // namespace
}  // namespace ui::findings
