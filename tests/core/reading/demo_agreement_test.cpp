#include <gtest/gtest.h>

#include "core/intake/shot_pictures.h"
#include "core/project/store.h"
#include "tests/support/demo_copy.h"

namespace core::reading {
namespace {

using project::ReadingMethod;

const project::Reading* readingBy(const std::vector<const project::Reading*>& readings,
                                  ReadingMethod method) {
    const auto found =
        std::find_if(readings.begin(), readings.end(),
                     [method](const auto* reading) { return reading->method == method; });
    return found != readings.end() ? *found : nullptr;
}

// The two ways to a reading rest on different things: a mark on the moment at which the marking is
// back, the fit on how its picture moves in all frames.
TEST(DemoReadings, MarksAndPicturesAgreeWithinTheirIntervals) {
    const tests::DemoCopy copy;
    auto store = project::Store::open(copy.project());
    ASSERT_TRUE(store.has_value()) << store.error().message;
    const auto snapshot = store.value()->snapshot();
    std::size_t compared = 0;
    for (const auto* shot : project::shotsInOrder(*snapshot)) {
        const auto readings = project::readingsOfShot(*snapshot, shot->id);
        const auto* marks = readingBy(readings, ReadingMethod::Marks);
        const auto* fit = readingBy(readings, ReadingMethod::RotationFit);
        if (marks == nullptr || fit == nullptr) {
            continue;
        }
        SCOPED_TRACE(project::shotName(*snapshot, *shot));
        ++compared;
        EXPECT_LE(fit->interval95.low, marks->interval95.high);
        EXPECT_LE(marks->interval95.low, fit->interval95.high);
    }
    EXPECT_GE(compared, 30U);
}

// The demo's readings were made when it was written (samples/README.md); this program makes the
// same of its films.
TEST(DemoReadings, AreWhatThisProgramReads) {
    constexpr std::size_t kEvery = 16;  // of the 96 shots
    const tests::DemoCopy copy;
    auto store = project::Store::open(copy.project());
    ASSERT_TRUE(store.has_value()) << store.error().message;
    const auto snapshot = store.value()->snapshot();
    const auto shots = project::shotsInOrder(*snapshot);
    for (std::size_t i = 0; i < shots.size(); i += kEvery) {
        SCOPED_TRACE(project::shotName(*snapshot, *shots[i]));
        const auto* kept =
            readingBy(project::readingsOfShot(*snapshot, shots[i]->id), ReadingMethod::RotationFit);
        ASSERT_NE(kept, nullptr);
        EXPECT_EQ(kept->methodVersion, kFitMethodVersion) << "make the demo anew";
        const auto task = intake::shotPicturesOf(*store.value(), shots[i]->id);
        ASSERT_TRUE(task.has_value()) << task.error().message;
        const auto read = intake::readShotPictures(task.value());
        ASSERT_TRUE(read.has_value()) << read.error().message;
        ASSERT_TRUE(read.value().rate.has_value()) << read.value().reason;
        // What another processor's vector instructions may change, and no more.
        EXPECT_NEAR(read.value().rate->value.rpm, kept->rate.value.rpm,
                    0.05 * kept->rate.sigma.rpm);
        EXPECT_NEAR(read.value().rate->sigma.rpm, kept->rate.sigma.rpm,
                    0.05 * kept->rate.sigma.rpm);
    }
}

}  // namespace
}  // namespace core::reading
