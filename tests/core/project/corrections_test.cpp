#include <gtest/gtest.h>

#include "tests/core/project/project_maker.h"

namespace tests::project {
namespace {

using namespace core::project;
using core::ErrorCode;

class Corrections : public ::testing::Test {
protected:
    TemporaryFolder folder;
    std::filesystem::path file = folder.path() / "p.turnmark";
    std::unique_ptr<Store> store = Store::create(file).value();
    SmallProject small = fill(*store);
};

TEST_F(Corrections, R28_ComeBackAfterClosingAndAreUndone) {
    const std::vector<ShotCorrection> two{
        {{}, small.clip, small.shots[0], CorrectionKind::Moved, {10}, {60}},
        {{}, small.clip, small.shots[1], CorrectionKind::Dropped, {110}, {160}}};
    ASSERT_TRUE(store->addCorrections(two));
    store.reset();
    store = Store::open(file).value();
    const auto snapshot = store->snapshot();
    ASSERT_EQ(snapshot->corrections.size(), 2U);
    ShotCorrection second = snapshot->corrections.begin()[1];
    EXPECT_EQ(second.id.value, 2);
    second.id = {};
    EXPECT_EQ(second, two[1]);
    EXPECT_EQ(store->faults().value(), std::vector<std::string>{});
    ASSERT_TRUE(store->undo());
    EXPECT_TRUE(store->snapshot()->corrections.isEmpty());
}

TEST_F(Corrections, R28_NeedFramesOfTheirClip) {
    const std::vector<ShotCorrection> outside{
        {{}, small.clip, small.shots[0], CorrectionKind::Moved, {10}, {600}}};
    EXPECT_EQ(store->addCorrections(outside).error().code, ErrorCode::OutOfRange);
    EXPECT_TRUE(store->snapshot()->corrections.isEmpty());
}

}  // namespace
}  // namespace tests::project
