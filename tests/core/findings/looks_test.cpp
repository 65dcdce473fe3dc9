#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "core/findings/settings.h"
#include "core/words/findings.h"
#include "tests/core/findings/made_project.h"

namespace {

using ::testing::HasSubstr;

TEST(Looks, FingerprintChangesWithReadingsAndSettingsOnly) {
    auto project = tests::ladder({1000.0, 1100.0}, 4.0, {"A"}, 6);
    const auto first = project.findings().fingerprint;
    EXPECT_EQ(project.findings().fingerprint, first);
    project.set("note", "anything");
    EXPECT_EQ(project.findings().fingerprint, first);
    project.set("noticeable_step_rpm", "50");
    const auto withStep = project.findings().fingerprint;
    EXPECT_NE(withStep, first);
    project.set("bands", "low 1050 high");
    EXPECT_NE(project.findings().fingerprint, withStep);
    project.setAside({1});
    EXPECT_NE(project.findings().fingerprint, first);
}

TEST(Looks, SameLookAgainIsNotCountedAgain) {
    auto project = tests::ladder({1000.0, 1100.0}, 4.0, {"A"}, 6);
    const auto print = project.findings().fingerprint;
    const auto once = core::findings::nextLook({}, print);
    EXPECT_EQ(once.count, 1);
    EXPECT_EQ(core::findings::nextLook(once, print).count, 1);
    EXPECT_EQ(core::findings::nextLook(once, print + 1).count, 2);
}

TEST(Looks, ManyLooksAreSaid) {
    auto project = tests::ladder({1000.0, 1100.0}, 4.0, {"A"}, 6);
    project.set("findings_looks", "7 12345");
    const auto found = project.findings();
    EXPECT_EQ(found.looks, 7);
    EXPECT_THAT(core::words::looksSentence(found.looks), HasSubstr("looked at 7 times"));
    EXPECT_THAT(core::words::methodSentences(found),
                ::testing::Contains(core::words::looksSentence(found.looks)));
}

// Once before is not never before.
TEST(Looks, OneEarlierLookIsSaid) {
    auto project = tests::ladder({1000.0, 1100.0}, 4.0, {"A"}, 6);
    project.set("findings_looks", "1 12345");
    EXPECT_EQ(project.findings().looks, 1);
    EXPECT_THAT(core::words::looksSentence(project.findings().looks),
                HasSubstr("looked at once with other"));
}

}  // namespace
