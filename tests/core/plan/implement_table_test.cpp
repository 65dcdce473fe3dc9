#include "core/plan/implement_table.h"

#include <gtest/gtest.h>

#include "tests/core/plan/plans.h"

namespace core::plan {
namespace {

TEST(ImplementTableTest, ColumnsBecomeNameConditionAndAttributes) {
    const auto table = implementsFromText(
        "mass\tImplement\tcondition\tprice\n95\tface 1\tnew\t12,50\n\tface "
        "2\tworn\t\n");
    ASSERT_TRUE(table) << table.error().message;
    EXPECT_EQ(table.value().attributeNames, (std::vector<std::string>{"mass", "price"}));
    ASSERT_EQ(table.value().implements.size(), 2U);
    EXPECT_EQ(table.value().implements[0],
              (PlannedImplement{"face 1", "new", {{"mass", "95"}, {"price", "12,50"}}}));
    EXPECT_EQ(table.value().implements[1], (PlannedImplement{"face 2", "worn", {}}));
}

TEST(ImplementTableTest, FirstColumnIsTheNameWhenNoneIsHeadedSo) {
    const auto table = implementsFromText("string,mass\ngut,1\n");
    ASSERT_TRUE(table) << table.error().message;
    EXPECT_EQ(table.value().implements[0].name, "gut");
    EXPECT_EQ(table.value().attributeNames, std::vector<std::string>{"mass"});
}

TEST(ImplementTableTest, ErrorsNameRowAndColumn) {
    for (const auto& [text, place] :
         {std::pair{"mass,name\n1,a\n2,\n", "Row 3, column B"},
          std::pair{"name,condition\na,new\nb,new\na,new\n", "Row 4, column A"},
          std::pair{"name,mass\na,1,2\n", "Row 2, column C"},
          std::pair{"name,mass\n", "no implement"}}) {
        const auto table = implementsFromText(text);
        ASSERT_FALSE(table);
        EXPECT_EQ(table.error().code, ErrorCode::InvalidInput);
        EXPECT_NE(table.error().message.find(place), std::string::npos) << table.error().message;
    }
}

TEST(ImplementTableTest, AddingTwiceChangesNothingMore) {
    Plan plan = tests::plan::planOf(1, 1);
    const auto table = implementsFromText("name,condition,mass\nface 1,new,95\nface 9,new,90\n");
    ASSERT_TRUE(table);
    addToPlan(plan, table.value());
    const Plan once = plan;
    addToPlan(plan, table.value());
    EXPECT_EQ(plan, once);
    ASSERT_EQ(plan.implements.size(), 2U);
    EXPECT_EQ(plan.implements[0].attributes.at("mass"), "95");
    EXPECT_TRUE(checkPlan(plan));
}

}  // namespace
}  // namespace core::plan
