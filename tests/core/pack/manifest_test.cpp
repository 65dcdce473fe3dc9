#include "core/pack/manifest.h"

#include <gtest/gtest.h>

#include "tests/support/in_german.h"

namespace core::pack {
namespace {

TEST(PackManifest, OnlyPathsThatStayBelowTheirFolderAreAllowed) {
    for (const char* path :
         {"p.turnmark", "clips/a b.mp4", "a/b/c.mp4", "..a", "a..b", "größe.mp4"}) {
        EXPECT_TRUE(isSafePath(path)) << path;
    }
    for (const std::string path :
         {"", "/etc/passwd", "../x", "a/../b", "a/..", "./a", "a//b", "a/", "a\\b", "a\nb",
          "manifest.json", "p.turnmark-journal", "p.turnmark-WAL", "p.turnmark.open"}) {
        EXPECT_FALSE(isSafePath(path)) << path;
    }
    EXPECT_FALSE(isSafePath(std::string("a\0b", 3)));
}

TEST(PackManifest, ComesBack) {
    const Manifest manifest{
        "p.turnmark",
        {{"p.turnmark", 12, std::string(64, 'a')}, {"b.mp4", 7, std::string(64, '0')}}};
    const auto back = manifestFrom(toJson(manifest));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(back.value().project, "p.turnmark");
    ASSERT_EQ(back.value().files.size(), 2U);
    EXPECT_EQ(back.value().files[1].path, "b.mp4");
    EXPECT_EQ(back.value().files[1].size, 7);
}

TEST(PackManifest, ASizeThatIsNoSizeIsRefused) {
    for (const std::string size : {"1e300", "-1e300", "0.5", "18446744073709551615", "\"12\""}) {
        const auto manifest = manifestFrom(
            R"({"format": "turnmark pack", "version": 1, "project": "p", "files": [{"path": "p", "size": )" +
            size + R"(, "sha256": ")" + std::string(64, 'a') + "\"}]}");
        ASSERT_FALSE(manifest) << size;
        EXPECT_EQ(manifest.error().code, ErrorCode::ForeignFile) << size;
    }
}

TEST(PackManifest, IsRefusedInGermanToo) {
    const InGerman german;
    EXPECT_EQ(manifestFrom(R"({"format": "another"})").error().message,
              "Das ist kein gepacktes Projekt: es ist von anderer Art.");
}

TEST(PackManifest, R36_PartsComeBackAndHaveAVersionOfTheirOwn) {
    const Manifest::File film{"a.mp4", 30, std::string(64, 'a'), {{0, 10}, {50, 70}}, 100};
    const Manifest::File whole{"p", 1, std::string(64, 'a')};
    EXPECT_NE(toJson({"p", {whole, film}}).find("\"version\": 2"), std::string::npos);
    EXPECT_NE(toJson({"p", {whole}}).find("\"version\": 1"), std::string::npos);
    const auto back = manifestFrom(toJson({"p", {whole, film}}));
    ASSERT_TRUE(back) << back.error().message;
    EXPECT_EQ(back.value().files[1].parts, film.parts);
    EXPECT_EQ(back.value().files[1].wholeSize, 100);
}

TEST(PackManifest, R36_PartsThatDoNotFitAreRefused) {
    const auto codeOf = [](std::vector<media::ByteRange> parts, std::int64_t size) {
        const Manifest::File film{"p", size, std::string(64, 'a'), std::move(parts), 100};
        return manifestFrom(toJson({"p", {film}})).error().code;
    };
    EXPECT_EQ(codeOf({{0, 10}, {50, 70}}, 31), ErrorCode::ForeignFile);   // other sum
    EXPECT_EQ(codeOf({{0, 10}, {5, 25}}, 30), ErrorCode::ForeignFile);    // over each other
    EXPECT_EQ(codeOf({{50, 70}, {0, 10}}, 30), ErrorCode::ForeignFile);   // backwards
    EXPECT_EQ(codeOf({{-10, 20}}, 30), ErrorCode::ForeignFile);           // before the file
    EXPECT_EQ(codeOf({{90, 120}}, 30), ErrorCode::ForeignFile);           // behind it
    EXPECT_EQ(codeOf({{10, 10}, {10, 40}}, 30), ErrorCode::ForeignFile);  // empty
}

TEST(PackManifest, OtherTextsAreRefused) {
    EXPECT_EQ(manifestFrom("no json").error().code, ErrorCode::ForeignFile);
    EXPECT_EQ(manifestFrom("[]").error().code, ErrorCode::ForeignFile);
    EXPECT_EQ(manifestFrom(R"({"format": "turnmark pack", "version": 3})").error().code,
              ErrorCode::NewerVersion);
    Manifest twice{"p", {{"p", 1, std::string(64, 'a')}, {"P", 1, std::string(64, 'a')}}};
    EXPECT_EQ(manifestFrom(toJson(twice)).error().code, ErrorCode::InvalidInput);
    Manifest without{"q", {{"p", 1, std::string(64, 'a')}}};
    EXPECT_EQ(manifestFrom(toJson(without)).error().code, ErrorCode::ForeignFile);
    Manifest noSum{"p", {{"p", 1, "abc"}}};
    EXPECT_EQ(manifestFrom(toJson(noSum)).error().code, ErrorCode::ForeignFile);
}

}  // namespace
}  // namespace core::pack
