#include "ui/doubts/rate_scale.h"

#include <gtest/gtest.h>

#include <QAccessible>
#include <algorithm>
#include <array>
#include <cmath>

#include "ui/doubts/rate_axis.h"

namespace ui::doubts {
namespace {

constexpr double kShare = 1e-9;  // a few operations on doubles of about one

TEST(RateAxis, WhatLiesTogetherIsOnAStraightScale) {
    const std::array rates{1000.0, 1500.0, 2000.0};
    const RateAxis axis{rates};
    EXPECT_FALSE(axis.isByRatio());
    EXPECT_GT(axis.shareOf(1000.0), 0.0);
    EXPECT_LT(axis.shareOf(2000.0), 1.0);
    EXPECT_NEAR(axis.shareOf(1500.0), (axis.shareOf(1000.0) + axis.shareOf(2000.0)) / 2.0, kShare);
    const std::vector<double> expected{1000.0, 1200.0, 1400.0, 1600.0, 1800.0, 2000.0};
    EXPECT_EQ(axis.ticks(6), expected);
}

TEST(RateAxis, ATenfoldRateLeavesRoomForThoseThatBelongTogether) {
    const std::array rates{2000.0, 2100.0, 2200.0, 21000.0};
    const RateAxis axis{rates};
    ASSERT_TRUE(axis.isByRatio());
    // Equal ratios, equal lengths: 2 to 4 as 5 to 10 thousand.
    EXPECT_NEAR(axis.shareOf(4000.0) - axis.shareOf(2000.0),
                axis.shareOf(10000.0) - axis.shareOf(5000.0), kShare);
    // On a straight scale of the same ends it would be 200 of 19000 rpm: a hundredth.
    EXPECT_GT(axis.shareOf(2200.0) - axis.shareOf(2000.0), 0.03);
    const std::vector<double> expected{2000.0, 5000.0, 10000.0, 20000.0};
    EXPECT_EQ(axis.ticks(8), expected);
    EXPECT_LE(axis.ticks(2).size(), 2U);
}

TEST(RateAxis, OneRateStandsInTheMiddle) {
    const std::array rates{1500.0};
    EXPECT_NEAR(RateAxis{rates}.shareOf(1500.0), 0.5, kShare);
}

RateScale::Content crowded() {
    RateScale::Content content;
    for (const double rpm : {512.7, 513.4, 1025.0, 2046.0, 2050.8, 2051.9, 2460.0}) {
        content.claims.push_back({rpm, QStringLiteral("%1 by the pictures").arg(rpm, 0, 'f', 0),
                                  std::abs(rpm - 2050.8) < 0.01});
    }
    content.others = {2402.0, 2060.0, 2120.0};
    content.othersWords = QStringLiteral("other shots of the cell");
    return content;
}

TEST(RateScale, WordsNeverRunIntoEachOther) {
    RateScale scale;
    scale.show(crowded());
    for (const int width : {300, 640, 1200}) {
        const auto placed = scale.placed(width);
        ASSERT_EQ(placed.size(), 7U);
        for (std::size_t a = 0; a < placed.size(); ++a) {
            EXPECT_GE(placed[a].words.left(), 0.0);
            EXPECT_LE(placed[a].words.right(), width);
            EXPECT_LE(placed[a].words.bottom(), scale.heightForWidth(width));
            for (std::size_t b = a + 1; b < placed.size(); ++b) {
                EXPECT_FALSE(placed[a].words.intersects(placed[b].words))
                    << width << ": " << placed[a].claim->words.toStdString() << ", "
                    << placed[b].claim->words.toStdString();
                EXPECT_LE(placed[a].mark.x(), placed[b].mark.x());
            }
        }
    }
}

TEST(RateScale, IsSaidToAScreenReader) {
    RateScale scale;
    scale.show(crowded());
    scale.resize(640, scale.heightForWidth(640));
    QAccessibleInterface* list = QAccessible::queryAccessibleInterface(&scale);
    ASSERT_NE(list, nullptr);
    ASSERT_EQ(list->childCount(), 8);
    EXPECT_EQ(list->focusChild()->text(QAccessible::Name), u"2051 by the pictures"_qs);
    EXPECT_EQ(list->child(7)->text(QAccessible::Name), u"other shots of the cell"_qs);
    EXPECT_EQ(list->child(7)->text(QAccessible::Value), u"3, from 2060 to 2402 rpm"_qs);
}

TEST(RateScale, OneRateAloneIsNotDrawn) {
    RateScale scale;
    RateScale::Content content;
    content.claims = {{1500.0, QStringLiteral("1500 in use"), true}};
    scale.show(content);
    EXPECT_TRUE(scale.isHidden());
}

}  // namespace
}  // namespace ui::doubts
