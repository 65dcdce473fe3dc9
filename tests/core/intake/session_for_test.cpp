#include "core/intake/session_for.h"

#include <gtest/gtest.h>

#include "tests/support/must.h"
#include "tests/support/process.h"

namespace tests::intake {
namespace {

using core::intake::newSession;
using core::intake::sessionFor;

class SessionForClips : public ::testing::Test {
protected:
    SessionForClips() : store{must(core::project::Store::create(folder.path() / "p.turnmark"))} {}
    [[nodiscard]] std::string newName() const {
        return newSession(*store->snapshot(), {}, "2026-05-16").name;
    }
    TemporaryFolder folder;
    std::unique_ptr<core::project::Store> store;
};

TEST_F(SessionForClips, IsTheNamedOneOrTheLastOrAdded) {
    const auto first = must(sessionFor(*store, {}, "2026-05-16"));
    EXPECT_EQ(store->snapshot()->sessions.find(first)->name, "2026-05-16");
    EXPECT_EQ(store->snapshot()->sessions.find(first)->date, "2026-05-16");
    const auto second = must(sessionFor(*store, "indoors", "2026-05-17"));
    EXPECT_NE(second, first);
    EXPECT_EQ(must(sessionFor(*store, {}, "2026-05-18")), second);
    EXPECT_EQ(must(sessionFor(*store, "2026-05-16", "2026-05-18")), first);
    EXPECT_EQ(store->snapshot()->sessions.size(), 2U);
}

TEST_F(SessionForClips, ANewOneFollowsThePlanAndNeverTakesAKnownName) {
    EXPECT_EQ(newName(), "2026-05-16");
    core::plan::Plan plan;
    plan.session = "Bench day";
    plan.hitters = {"A"};
    plan.marking = core::plan::BallMarking::Band;
    must(store->setPlan(plan));
    EXPECT_EQ(newName(), "Bench day");
    const auto day = must(sessionFor(*store, {}, "2026-05-16"));
    EXPECT_EQ(store->snapshot()->sessions.find(day)->marking, core::plan::BallMarking::Band);
    EXPECT_EQ(newName(), "Bench day 2");
}

}  // namespace
}  // namespace tests::intake
