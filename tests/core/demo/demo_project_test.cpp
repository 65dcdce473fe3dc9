#include "core/demo/demo_project.h"

#include <gtest/gtest.h>

#include <fstream>
#include <optional>

#include "tests/support/process.h"

namespace core::demo {
namespace {

/// Stops when the first picture is rendered. Errors of makeDemoProject, Cancelled when it began.
ErrorCode beginDemo(const std::filesystem::path& folder,
                    const std::function<void()>& meanwhile = {}) {
    std::stop_source stop;
    const auto made = makeDemoProject(
        folder,
        [&](double, const std::string&) {
            if (meanwhile && !stop.stop_requested()) {
                meanwhile();
            }
            stop.request_stop();
        },
        stop.get_token());
    return made ? ErrorCode::InvalidInput : made.error().code;
}

// Two windows, or a window and the command, wrote into the same files.
TEST(DemoProject, IsMadeByOneAtATime) {
    const tests::TemporaryFolder folder;
    const auto demo = folder.path() / "demo";
    std::optional<ErrorCode> other;
    EXPECT_EQ(beginDemo(demo, [&] { other = beginDemo(demo); }), ErrorCode::Cancelled);
    EXPECT_EQ(other, ErrorCode::Busy);
    EXPECT_EQ(beginDemo(demo), ErrorCode::Cancelled) << "one that was stopped holds up nobody";
}

TEST(DemoProject, LeavesNothingWhenStoppedAndOverwritesNothing) {
    const tests::TemporaryFolder folder;
    EXPECT_EQ(beginDemo(folder.path()), ErrorCode::Cancelled);
    EXPECT_TRUE(std::filesystem::is_empty(folder.path()));
    const auto clip = folder.path() / "strings_1_hitter_A.mp4";
    std::ofstream{clip} << "mine";
    EXPECT_EQ(beginDemo(folder.path()), ErrorCode::InvalidInput);
    EXPECT_EQ(tests::bytesOf(clip), "mine");
}

}  // namespace
}  // namespace core::demo
