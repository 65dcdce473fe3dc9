#include "core/media/file/creation_time.h"

#include <gtest/gtest.h>

#include "tests/core/media/ffmpeg_programs.h"

namespace {

using core::media::creationTimeOf;

std::filesystem::path datedClip(const std::string& name, const std::string& time) {
    return tests::makeClip(name,
                           "-f lavfi -i testsrc=size=64x48:rate=30 -frames:v 3 -c:v libx264 " +
                               (time.empty() ? time : "-metadata creation_time=" + time));
}

// 2026-05-16 is day 20589 of Unix time (20454 to the first day of the year, which is 56 years with
// 14 leap days, and 135 days more): 20589 * 86400 + 10 h + 2 min + 3 s = 1778925723 s.
TEST(CreationTime, IsReadFromIsoBaseMediaAndMatroska) {
    for (const char* name : {"dated.mp4", "dated.mov", "dated.mkv"}) {
        const auto time = creationTimeOf(datedClip(name, "2026-05-16T10:02:03Z"));
        ASSERT_TRUE(time) << name;
        EXPECT_EQ(time->time_since_epoch(), std::chrono::seconds{1778925723}) << name;
    }
}

TEST(CreationTime, IsAbsentWhereTheFileSaysNothing) {
    EXPECT_FALSE(creationTimeOf(datedClip("undated.mp4", {})));
    EXPECT_FALSE(creationTimeOf(tests::writeFile("undated.txt", "no film")));
    EXPECT_FALSE(creationTimeOf("there is no such film.mp4"));
}

}  // namespace
