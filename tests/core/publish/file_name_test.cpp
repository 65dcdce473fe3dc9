#include "core/publish/file_name.h"

#include <gtest/gtest.h>

#include <algorithm>

namespace core::publish {
namespace {

TEST(FileNames, NothingButLettersDigitsAndHyphensGetsThrough) {
    FileNames names;
    for (const char* text : {"../../x", "/etc/passwd", "C:\\x", "a\nb", "=cmd()", "a?b*c|d<e>",
                             "\xF0\x9F\x8E\xBE", "\xD7\x9E\xD7\x97", ".hidden", "-rf"}) {
        const std::string name = names.nameFor(text);
        EXPECT_FALSE(name.empty());
        EXPECT_NE(name.front(), '-') << text;
        EXPECT_TRUE(std::all_of(
            name.begin(), name.end(),
            [](char c) { return (c >= 'a' && c <= 'z') || (c >= '0' && c <= '9') || c == '-'; }))
            << text << " became " << name;
    }
}

TEST(FileNames, LongTextsAreCut) {
    FileNames names;
    EXPECT_EQ(names.nameFor(std::string(300, 'A')), std::string(60, 'a'));
}

TEST(FileNames, NoTwoTextsGetOneName) {
    FileNames names;
    EXPECT_EQ(names.nameFor("Gut 25"), "gut-25");
    EXPECT_EQ(names.nameFor("gut/25"), "gut-25-2");
    EXPECT_EQ(names.nameFor("\xD7\x9E"), "unnamed");
    EXPECT_EQ(names.nameFor(""), "unnamed-2");
}

// Microsoft, "Naming Files, Paths, and Namespaces": CON, PRN, AUX, NUL, COM1 to LPT9 are reserved.
TEST(FileNames, DeviceNamesOfWindowsAreNotGiven) {
    FileNames names;
    for (const char* text : {"CON", "nul", "com1", "LPT9"}) {
        EXPECT_GT(names.nameFor(text).size(), std::string{text}.size()) << text;
    }
}

}  // namespace
}  // namespace core::publish
