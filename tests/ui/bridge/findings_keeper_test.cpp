#include "ui/bridge/findings_keeper.h"

#include <gtest/gtest.h>

#include <QSignalSpy>
#include <QTest>

#include "tests/support/must.h"
#include "tests/support/process.h"

namespace ui::bridge {
namespace {

using core::project::Store;
using tests::must;

constexpr int kPatienceMs = 20000;

TEST(FindingsKeeper, ComputesOnceForAllWhoWantThem) {
    const tests::TemporaryFolder folder;
    const auto store = must(Store::create(folder.path() / "p.turnmark"));
    JobRunner jobs{2};
    FindingsKeeper keeper{*store, jobs};
    QSignalSpy changed{&keeper, &FindingsKeeper::changed};
    keeper.want();
    keeper.want();
    EXPECT_FALSE(keeper.isUpToDate());
    ASSERT_TRUE(QTest::qWaitFor([&] { return keeper.isUpToDate(); }, kPatienceMs));
    EXPECT_TRUE(keeper.trouble().isEmpty());
    const auto first = keeper.findings();
    ASSERT_NE(first, nullptr);
    EXPECT_EQ(first->revision, store->snapshot()->revision);
    keeper.want();
    EXPECT_TRUE(jobs.jobs().isEmpty());
    EXPECT_EQ(changed.count(), 1);

    must(store->addImplement({{}, "implement", "new", {}}));
    EXPECT_FALSE(keeper.isUpToDate());
    EXPECT_EQ(keeper.findings(), first);
    keeper.want();
    ASSERT_TRUE(QTest::qWaitFor([&] { return keeper.isUpToDate(); }, kPatienceMs));
    EXPECT_NE(keeper.findings(), first);
    EXPECT_EQ(changed.count(), 2);
}

/// A change that comes while findings are computed is in the next ones.
TEST(FindingsKeeper, WhatChangesMeanwhileIsComputedNext) {
    const tests::TemporaryFolder folder;
    const auto store = must(Store::create(folder.path() / "p.turnmark"));
    JobRunner jobs{2};
    FindingsKeeper keeper{*store, jobs};
    keeper.want();
    must(store->addImplement({{}, "implement", "new", {}}));
    keeper.want();
    ASSERT_TRUE(QTest::qWaitFor([&] { return keeper.isUpToDate(); }, kPatienceMs));
    EXPECT_EQ(keeper.findings()->revision, store->snapshot()->revision);
}

}  // namespace
}  // namespace ui::bridge
