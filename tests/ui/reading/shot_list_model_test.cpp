#include "ui/reading/shot/shot_list_model.h"

#include <gtest/gtest.h>

#include <QAbstractItemModelTester>

#include "tests/ui/reading/reading_project.h"
#include "ui/reading/reading_look.h"

namespace ui::reading {
namespace {

class ShotListModelTest : public ::testing::Test {
protected:
    tests::ReadingProject project{{{.frames = 6}, {.frames = 6}, {.frames = 6}}};
    ShotListModel model{project.store()};
    QAbstractItemModelTester tester{&model, QAbstractItemModelTester::FailureReportingMode::Fatal};
    std::shared_ptr<void> listening = project.store().listen(
        [this](const core::project::Store::Change& change) { model.update(change); });

    ShotState stateOfRow(int row) {
        return static_cast<ShotState>(
            model.data(model.index(row), ShotListModel::StateRole).toInt());
    }
};

TEST_F(ShotListModelTest, ShowsEveryShotWithItsStateInTheOrderOfTheFilm) {
    ASSERT_EQ(model.rowCount(), 3);
    EXPECT_EQ(model.shotAt(1), project.shot(1));
    EXPECT_EQ(model.data(model.index(1), ShotListModel::NumberRole).toString(),
              QStringLiteral("002"));
    ASSERT_TRUE(project.store().setAside(project.shot(1), "mishit"));
    ASSERT_TRUE(project.store().setDoubtful(project.shot(2), true));
    EXPECT_EQ(stateOfRow(0), ShotState::Unread);
    EXPECT_EQ(stateOfRow(1), ShotState::SetAside);
    EXPECT_EQ(stateOfRow(2), ShotState::Doubtful);
}

TEST_F(ShotListModelTest, FiltersAndStillKnowsTheNeighboursOfAHiddenShot) {
    model.setFilter(ShotListModel::Filter::Unread);
    ASSERT_TRUE(project.store().setAside(project.shot(1), "mishit"));
    EXPECT_EQ(model.rowCount(), 2);
    EXPECT_EQ(model.rowOf(project.shot(1)), -1);
    EXPECT_EQ(model.neighbour(project.shot(1), 1), project.shot(2));
    EXPECT_EQ(model.neighbour(project.shot(1), -1), project.shot(0));
    EXPECT_FALSE(model.neighbour(project.shot(2), 1).has_value());
    EXPECT_FALSE(model.neighbour(project.shot(0), -1).has_value());
}

TEST_F(ShotListModelTest, FindsTheNextOfAKindAlsoFromTheBeginningAgain) {
    ASSERT_TRUE(project.store().setAside(project.shot(1), "mishit"));
    ASSERT_TRUE(project.store().setDoubtful(project.shot(0), true));
    using Filter = ShotListModel::Filter;
    EXPECT_EQ(model.nextOf(Filter::Unread, project.shot(0)), project.shot(2));
    EXPECT_EQ(model.nextOf(Filter::Doubtful, project.shot(2)), project.shot(0));
    EXPECT_FALSE(model.nextOf(Filter::Doubtful, project.shot(0)).has_value());
}

TEST_F(ShotListModelTest, NarrowsToWordsNumbersAndNames) {
    model.setNarrowing({.words = QStringLiteral("002")});
    ASSERT_EQ(model.rowCount(), 1);
    EXPECT_EQ(model.shotAt(0), project.shot(1));
    EXPECT_EQ(model.data(model.index(0), ShotListModel::NumberRole).toString(),
              QStringLiteral("002"));  // its number in the film stays
    const auto snapshot = project.store().snapshot();
    model.setNarrowing({.implement = snapshot->implements.begin()->id});
    EXPECT_EQ(model.rowCount(), 3);
    ASSERT_TRUE(project.store().assignShots(std::vector{project.shot(2)}, std::nullopt));
    EXPECT_EQ(model.rowCount(), 2);
    model.setNarrowing({.words = QStringLiteral("not assigned")});
    ASSERT_EQ(model.rowCount(), 1);
    EXPECT_EQ(model.shotAt(0), project.shot(2));
    model.setNarrowing({.clip = project.shotNow(1).clip});
    ASSERT_EQ(model.rowCount(), 1);
    EXPECT_EQ(model.shotAt(0), project.shot(1));
}

TEST_F(ShotListModelTest, SortsBySpinAndSaysItWithItsUncertainty) {
    const auto keep = [this](std::size_t at, double rpm, double sigma) {
        core::project::Reading reading;
        reading.shot = project.shot(at);
        reading.methodVersion = "test";
        reading.rate = {{rpm}, {sigma}};
        reading.interval95 = {{rpm - 2.0 * sigma}, {rpm + 2.0 * sigma}};
        reading.inputsJson = "{}";
        const auto kept = project.store().keepReading(reading);
        ASSERT_TRUE(kept) << kept.error().message;
    };
    keep(0, 1500.0, 40.0);
    keep(2, 2000.0, 4.0);
    model.setSort(ShotListModel::Sort::Spin);
    EXPECT_EQ(model.shotAt(0), project.shot(2));
    EXPECT_EQ(model.shotAt(1), project.shot(0));
    EXPECT_EQ(model.shotAt(2), project.shot(1));  // without a number: last
    EXPECT_EQ(model.neighbour(project.shot(2), 1), project.shot(0));
    EXPECT_FALSE(model.neighbour(project.shot(1), 1).has_value());
    EXPECT_EQ(model.data(model.index(0), ShotListModel::RateRole).toString(),
              QStringLiteral("2000.0"));
    EXPECT_EQ(model.data(model.index(0), ShotListModel::SigmaRole).toString(),
              QStringLiteral("± 4.0"));
    EXPECT_TRUE(model.data(model.index(0), ShotListModel::IsKeptRole).toBool());
    model.setSort(ShotListModel::Sort::Uncertainty);
    EXPECT_EQ(model.shotAt(0), project.shot(0));
}

TEST_F(ShotListModelTest, ShowsShotsWithOpenDoubts) {
    model.setFilter(ShotListModel::Filter::InDoubt);
    EXPECT_EQ(model.rowCount(), 0);
    model.setInDoubt({project.shot(1)});
    ASSERT_EQ(model.rowCount(), 1);
    EXPECT_EQ(model.shotAt(0), project.shot(1));
    EXPECT_EQ(model.count(ShotListModel::Filter::All), 3);
}

TEST_F(ShotListModelTest, HiddenNamesCannotBeLookedFor) {
    model.setNamesHidden(true);
    model.setNarrowing({.words = QStringLiteral("implement")});
    EXPECT_EQ(model.rowCount(), 0);
    model.setNarrowing({.clip = project.shotNow(1).clip});
    EXPECT_EQ(model.rowCount(), 3);
}

TEST_F(ShotListModelTest, FollowsShotsThatGo) {
    const std::vector gone{project.shot(0)};
    ASSERT_TRUE(project.store().removeShots(gone));
    ASSERT_EQ(model.rowCount(), 2);
    EXPECT_EQ(model.shotAt(0), project.shot(1));
    ASSERT_TRUE(project.store().undo());
    EXPECT_EQ(model.rowCount(), 3);
}

}  // namespace
}  // namespace ui::reading
