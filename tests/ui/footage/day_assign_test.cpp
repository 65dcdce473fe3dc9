#include <gtest/gtest.h>

#include <QLabel>
#include <QPushButton>
#include <QTest>

#include "core/intake/planned_cells.h"
#include "tests/core/intake/clip_project.h"
#include "tests/support/named_widget.h"
#include "ui/footage/day_assign_panel.h"
#include "ui/footage/session_box.h"

/// Whose the shots of a whole filming day are: four planned shots, and a clip.
namespace ui::footage {
namespace {

using tests::must;
constexpr int kDayPatience = 30000;  // milliseconds, for a busy machine

class DayAssign : public ::testing::Test, public tests::intake::ClipProject {
protected:
    void SetUp() override {
        core::plan::Plan plan;
        plan.session = "day";
        plan.implements = {{"gut", "", {}}, {"poly", "", {}}};
        plan.hitters = {"A"};
        plan.shotsPerCell = 2;
        ASSERT_TRUE(core::intake::keepPlan(*store, plan));
        panel = std::make_unique<DayAssignPanel>(*store, jobs);
        panel->resize(400, 300);
        panel->show();
        ASSERT_TRUE(QTest::qWaitForWindowExposed(panel.get(), kDayPatience));
    }
    void addShots(int count) {
        std::vector<core::project::Shot> shots;
        for (int i = 0; i < count; ++i) {
            core::project::Shot shot;
            shot.clip = clip;
            shot.firstFrame = {10 * i};
            shot.lastFrame = {10 * i + 5};
            shots.push_back(shot);
        }
        must(store->addShots(shots));
    }
    [[nodiscard]] std::size_t assigned() const {
        const auto snapshot = store->snapshot();
        return static_cast<std::size_t>(
            std::count_if(snapshot->shots.begin(), snapshot->shots.end(),
                          [](const auto& shot) { return shot.cell.has_value(); }));
    }
    void press(const char* button) {
        QTest::mouseClick(&tests::namedWidget<QPushButton>(*panel, button), Qt::LeftButton);
    }
    [[nodiscard]] std::string message() const {
        return tests::namedWidget<QLabel>(*panel, "day_message").text().toStdString();
    }
    [[nodiscard]] bool isAskedWhetherToGoOn() const {
        return tests::namedWidget<QPushButton>(*panel, "assign_anyway").isVisible();
    }

    bridge::JobRunner jobs{1};
    std::unique_ptr<DayAssignPanel> panel;
};

TEST_F(DayAssign, WhatDoesNotFitThePlanIsSaidAndMayBeAssignedAnyway) {
    addShots(3);
    press("by_order");
    EXPECT_EQ(assigned(), 0U);
    EXPECT_NE(message().find("3 shots; the plan has 4"), std::string::npos) << message();
    ASSERT_TRUE(isAskedWhetherToGoOn());
    press("assign_anyway");
    EXPECT_EQ(assigned(), 3U);
    EXPECT_FALSE(isAskedWhetherToGoOn());
    EXPECT_NE(message().find("Assigned: 3."), std::string::npos) << message();
    EXPECT_NE(message().find("the plan has 4"), std::string::npos) << "what did not fit is said";
    ASSERT_TRUE(store->undo());
    EXPECT_EQ(assigned(), 0U);
}

TEST_F(DayAssign, WhatFitsIsAssignedAtOnce) {
    addShots(4);
    press("by_order");
    EXPECT_EQ(assigned(), 4U);
    EXPECT_FALSE(isAskedWhetherToGoOn());
}

TEST_F(DayAssign, OnlyTheChosenDayIsAssigned) {
    addShots(4);
    core::project::Session other;
    other.name = "another day";
    must(store->addSession(other));
    press("by_order");  // the last day, which has no clips
    EXPECT_EQ(assigned(), 0U);
    EXPECT_TRUE(isAskedWhetherToGoOn());
    auto& day = tests::namedWidget<SessionBox>(*panel, "assign_session");
    QTest::keyClick(&day, Qt::Key_Up);
    EXPECT_FALSE(isAskedWhetherToGoOn()) << "that was said of the other day";
    press("by_order");
    EXPECT_EQ(assigned(), 4U);
}

TEST_F(DayAssign, CardsAreLookedForInTheClips) {
    EXPECT_FALSE(tests::namedWidget<QPushButton>(*panel, "by_cards").isEnabled());
    addShots(2);
    press("by_cards");
    ASSERT_TRUE(QTest::qWaitFor(
        [this] { return message().find("Not assigned: 2.") != std::string::npos; }, kDayPatience))
        << message();
    EXPECT_EQ(assigned(), 0U);
}

}  // namespace
}  // namespace ui::footage
