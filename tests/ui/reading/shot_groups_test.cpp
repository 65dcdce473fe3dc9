#include "ui/reading/shot/shot_groups.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>

#include "tests/ui/reading/reading_project.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/shot/shot_list_model.h"

namespace ui::reading {
namespace {

class ShotGroupsTest : public ::testing::Test {
protected:
    tests::ReadingProject project{
        {{.frames = 6}, {.frames = 6}, {.frames = 6}, {.frames = 6}, {.frames = 6}}};
    ShotListModel shots{project.store()};
    ShotGroups rows{shots};
    QAbstractItemModelTester tester{&rows, QAbstractItemModelTester::FailureReportingMode::Fatal};
    std::shared_ptr<void> listening = project.store().listen(
        [this](const core::project::Store::Change& change) { shots.update(change); });

    [[nodiscard]] bool isHead(int row) const {
        return rows.index(row).data(ShotGroups::IsHeadRole).toBool();
    }
    [[nodiscard]] QString count(int row) const {
        return rows.index(row).data(ShotGroups::CountRole).toString();
    }
};

TEST_F(ShotGroupsTest, ShotsOfACellStandUnderAHeadWithItsNameAndWhatIsDecided) {
    ASSERT_EQ(rows.rowCount(), 6);
    ASSERT_TRUE(isHead(0));
    EXPECT_FALSE(rows.index(0).data(ShotListModel::CellRole).toString().isEmpty());
    EXPECT_EQ(count(0), QStringLiteral("0 of 5"));
    EXPECT_FALSE(rows.flags(rows.index(0)).testFlag(Qt::ItemIsSelectable));
    EXPECT_FALSE(rows.shotAt(0).has_value());
    EXPECT_EQ(rows.shotAt(2), project.shot(1));
    EXPECT_EQ(rows.rowOf(project.shot(1)), 2);
    EXPECT_EQ(rows.headOf(2), 0);
    ASSERT_TRUE(project.store().setAside(project.shot(1), "mishit"));
    EXPECT_EQ(count(0), QStringLiteral("1 of 5"));
    EXPECT_EQ(rows.index(2).data(ShotListModel::CellRole).toString(), nameOf(ShotState::SetAside))
        << "the head has the name";
}

TEST_F(ShotGroupsTest, WhatIsAssignedElsewhereStandsUnderAnotherHead) {
    ASSERT_TRUE(
        project.store().assignShots(std::vector{project.shot(3), project.shot(4)}, std::nullopt));
    ASSERT_EQ(rows.rowCount(), 7);
    EXPECT_TRUE(isHead(4));
    EXPECT_EQ(count(0), QStringLiteral("0 of 3"));
    EXPECT_EQ(count(4), QStringLiteral("0 of 2"));
    ASSERT_TRUE(project.store().assignShots(std::vector{project.shot(1)}, std::nullopt));
    EXPECT_EQ(rows.rowCount(), 5) << "four heads for five shots help nobody";
    EXPECT_FALSE(isHead(0));
}

// A head would give away whose the shots are.
TEST_F(ShotGroupsTest, NoHeadsWhileNamesAreHiddenOrInAnotherOrder) {
    shots.setNamesHidden(true);
    EXPECT_EQ(rows.rowCount(), 5);
    shots.setNamesHidden(false);
    EXPECT_EQ(rows.rowCount(), 6);
    shots.setSort(ShotListModel::Sort::Spin);
    EXPECT_EQ(rows.rowCount(), 5);
}

}  // namespace
}  // namespace ui::reading
