#include <gtest/gtest.h>

#include "core/intake/shot_pictures.h"
#include "core/project/store.h"
#include "tests/support/demo_copy.h"

/// The two ways to a reading, marks and pictures, rest on different things: a mark on the moment at
/// which the marking is back, the fit on how its picture moves in all frames.
namespace core::reading {
namespace {

constexpr std::size_t kEvery = 6;  // of the 96 shots, one from each clip or so

TEST(DemoReadings, MarksAndPicturesAgreeWithinTheirIntervals) {
    const tests::DemoCopy copy;
    auto store = project::Store::open(copy.project());
    ASSERT_TRUE(store.has_value()) << store.error().message;
    const auto snapshot = store.value()->snapshot();
    std::size_t compared = 0;
    std::size_t apart = 0;
    const auto shots = project::shotsInOrder(*snapshot);
    for (std::size_t i = 0; i < shots.size(); i += kEvery) {
        const auto readings = project::readingsOfShot(*snapshot, shots[i]->id);
        if (readings.empty()) {
            continue;
        }
        SCOPED_TRACE(project::shotName(*snapshot, *shots[i]));
        const auto task = intake::shotPicturesOf(*store.value(), shots[i]->id);
        ASSERT_TRUE(task.has_value()) << task.error().message;
        const auto read = intake::readShotPictures(task.value());
        ASSERT_TRUE(read.has_value()) << read.error().message;
        if (!read.value().rate) {
            EXPECT_FALSE(read.value().reason.empty());
            continue;
        }
        const auto& marks = *readings.front();
        ASSERT_EQ(marks.method, project::ReadingMethod::Marks);
        ++compared;
        apart += read.value().interval95->low > marks.interval95.high ||
                         marks.interval95.low > read.value().interval95->high
                     ? 1U
                     : 0U;
    }
    EXPECT_GE(compared, 12U);
    EXPECT_EQ(apart, 0U);
}

}  // namespace
}  // namespace core::reading
