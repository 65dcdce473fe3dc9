#include <gtest/gtest.h>

#include <QIdentityProxyModel>
#include <QLineEdit>
#include <QScrollBar>
#include <QTableView>
#include <QTest>
#include <set>

#include "tests/support/must.h"
#include "tests/ui/reading/reading_project.h"
#include "ui/doubts/doubt_delegate.h"
#include "ui/doubts/doubt_filters.h"
#include "ui/doubts/doubt_list_model.h"
#include "ui/style/data_table.h"

/// The list of doubts on a project of two shots of one cell.
namespace ui::doubts {
namespace {

using core::doubts::Doubt;
using core::doubts::Doubted;
using core::doubts::Grade;
using core::doubts::Reason;

/// Passes the rows on and notes which were looked at.
class Watched : public QIdentityProxyModel {
public:
    QVariant data(const QModelIndex& index, int role) const override {
        lookedAt.insert(index.row());
        return QIdentityProxyModel::data(index, role);
    }
    mutable std::set<int> lookedAt;
};

class DoubtList : public ::testing::Test {
protected:
    [[nodiscard]] Doubted ofShot(std::size_t shot, Doubt doubt) {
        return {project.shot(shot), project.shotNow(shot).cell, {std::move(doubt)}, false};
    }
    [[nodiscard]] Doubted ofCell(Doubt doubt) {
        return {{}, project.shotNow(0).cell, {std::move(doubt)}, false};
    }
    void show(std::vector<Doubted> items) {
        auto doubts = std::make_shared<core::doubts::Doubts>();
        doubts->items = std::move(items);
        std::vector<std::size_t> places(doubts->items.size());
        for (std::size_t i = 0; i < places.size(); ++i) {
            places[i] = i;
        }
        model.show(std::move(doubts), std::move(places));
    }
    [[nodiscard]] QString said(int row, int role) const {
        return model.index(row, 0).data(role).toString();
    }

    tests::ReadingProject project{{{}, {.framesPerTurn = 6.0}}};
    DoubtListModel model{project.store()};
};

TEST_F(DoubtList, ARowSaysWhyTheNumbersAndWhose) {
    show({ofShot(1, {Reason::ReadingsDiffer, Grade::Grave, 1.0,
                     core::doubts::RepeatedReading{{512.7}, "R1", {2050.8}}}),
          ofCell({Reason::Marked, Grade::Note, 0.0, {}})});
    EXPECT_EQ(said(0, DoubtListModel::ReasonRole), u"Repeated reading differs"_qs);
    EXPECT_EQ(said(0, DoubtListModel::NumbersRole), u"513 or 2051 rpm"_qs);
    EXPECT_EQ(said(0, DoubtListModel::CellRole), u"String set 1 · A"_qs);
    EXPECT_EQ(said(0, DoubtListModel::WhichRole), u"shot 1"_qs);
    EXPECT_EQ(said(0, Qt::DisplayRole),
              u"grave: Repeated reading differs, 513 or 2051 rpm, String set 1 · A · shot 1"_qs);
    EXPECT_EQ(said(1, DoubtListModel::NumbersRole), u"0 kept shots"_qs);
    EXPECT_EQ(said(1, DoubtListModel::CellRole), u"String set 1 · A"_qs);
    EXPECT_EQ(said(1, DoubtListModel::WhichRole), u"whole cell"_qs);
    EXPECT_EQ(model.rowOf(project.shot(1)), 0);
    EXPECT_EQ(model.rowOf(project.shot(0)), -1);
}

TEST_F(DoubtList, TenThousandRowsAreScrolledWithoutLookingAtThem) {
    constexpr int kRows = 10'000;
    std::vector<Doubted> items;
    for (int k = 0; k < kRows; ++k) {
        items.push_back(
            ofShot(static_cast<std::size_t>(k % 2), {Reason::Stroboscope, Grade::Note, 0.0, {}}));
    }
    show(std::move(items));
    Watched watched;
    watched.setSourceModel(&model);
    const std::unique_ptr<QTableView> table{style::makeDataTable(&watched)};
    showAsDoubtRows(*table, model);
    table->resize(400, 600);
    table->show();
    ASSERT_TRUE(QTest::qWaitForWindowExposed(table.get()));
    table->verticalScrollBar()->setValue(table->verticalScrollBar()->maximum());
    QTest::qWait(50);
    EXPECT_TRUE(watched.lookedAt.contains(kRows - 1));
    EXPECT_FALSE(watched.lookedAt.contains(kRows / 2));
    EXPECT_LT(watched.lookedAt.size(), 60U) << "ten rows are in sight at a time";
    EXPECT_EQ(table->rowHeight(0), DoubtDelegate::rowHeight(table->font()));
    EXPECT_GE(table->rowHeight(0), 60);
}

TEST_F(DoubtList, WordsAndReasonsNarrowIt) {
    const auto odd =
        ofShot(1, {Reason::BallSpeed, Grade::Note, 0.0, core::doubts::SpeedInCell{11.2, 20.0}});
    const auto cell = ofCell({Reason::HittersDiffer, Grade::Question, 0.0, {}});
    const auto snapshot = project.store().snapshot();
    DoubtFilters filters;
    filters.offer(*snapshot, nullptr);
    EXPECT_TRUE(filters.passes(*snapshot, odd));
    EXPECT_FALSE(filters.isNarrowed());
    auto* words = filters.findChild<QLineEdit*>(QStringLiteral("doubtWords"));
    ASSERT_NE(words, nullptr);
    QTest::keyClicks(words, QStringLiteral("ball_1 speed"));
    EXPECT_TRUE(filters.passes(*snapshot, odd));
    EXPECT_FALSE(filters.passes(*snapshot, cell));
    EXPECT_TRUE(filters.isNarrowed());
    filters.choose(odd.cell);
    EXPECT_TRUE(filters.passes(*snapshot, cell));
    filters.choose(std::optional{core::project::CellId{}});
    EXPECT_TRUE(filters.passes(*snapshot, cell)) << "what is not there narrows nothing";
}

}  // namespace
}  // namespace ui::doubts
