#include "core/publish/publish.h"

#include <gtest/gtest.h>

#include <algorithm>
#include <fstream>

#include "tests/core/publish/published_folder.h"
#include "tests/support/comma_locale.h"

namespace core::publish {
namespace {

namespace fs = std::filesystem;

class PublishTest : public tests::PublishedFolder {
protected:
    /// Bytes of every file by its name within a published folder.
    std::map<std::string, std::string> filesOf(const std::string& name) const {
        std::map<std::string, std::string> files;
        for (const auto& entry : fs::recursive_directory_iterator{folder.path() / name}) {
            if (entry.is_regular_file()) {
                files[fs::relative(entry.path(), folder.path() / name).string()] =
                    tests::bytesOf(entry.path());
            }
        }
        return files;
    }
};

TEST_F(PublishTest, ListOfWhatWasWrittenIsTrue) {
    const auto done = publishInto("out", tests::inventedMaterial({}));
    const auto files = filesOf("out");
    EXPECT_EQ(done.written.files.size(), files.size());
    for (const auto& file : done.written.files) {
        EXPECT_TRUE(files.contains(fs::relative(file, folder.path() / "out").string())) << file;
    }
    for (const char* name : {"index.html", "findings.pdf", "findings.xlsx", "findings.json",
                             "shots.csv", "readings.csv", "summary.csv", "pairs.csv", "history.csv",
                             "datapackage.json", "figures/ranked.svg", "figures/ranked.png"}) {
        EXPECT_TRUE(files.contains(name)) << name;
    }
}

TEST_F(PublishTest, WhoDidWhatWhenIsPublishedAndLeftOutWhereHittersAreBlind) {
    auto material = tests::inventedMaterial({});
    material.history = {
        {{7}, "2026-05-03T09:41:07Z", "R. Reader", "Added hitter \"Bo, old\".", {}}};
    publishInto("out", material);
    // RFC 4180: a field with a comma or a quote stands in quotes, and its quotes are doubled.
    EXPECT_EQ(filesOf("out").at("history.csv"),
              "line,at,reader,what,clip,shot\r\n"
              "7,2026-05-03T09:41:07Z,R. Reader,\"Added hitter \"\"Bo, old\"\".\",,\r\n");
    EXPECT_NE(filesOf("out").at("datapackage.json").find("history.csv"), std::string::npos);
    PublishOptions blind;
    blind.blindHitters = true;
    EXPECT_FALSE(publishInto("blind", material, blind).remarks.empty());
    EXPECT_FALSE(filesOf("blind").contains("history.csv"));
}

TEST_F(PublishTest, TwiceGivesTheSameBytesButForTheDatedLine) {
    PublishOptions later;
    later.publishedOn = "2026-07-01";
    publishInto("one", tests::inventedMaterial({}));
    publishInto("two", tests::inventedMaterial({}), later);
    auto one = filesOf("one");
    auto two = filesOf("two");
    ASSERT_EQ(one.size(), two.size());
    for (auto& [name, bytes] : one) {
        if (name == "index.html") {
            EXPECT_NE(bytes, two[name]);
            bytes.replace(bytes.find("2026-05-18"), 10, "2026-07-01");
        }
        EXPECT_TRUE(bytes == two[name]) << name << " differs";
    }
}

// In a German window the workbook once held "1,5" for a number and opened in no spreadsheet.
TEST_F(PublishTest, ALocaleWithADecimalCommaGivesTheSameBytes) {
    publishInto("point", tests::inventedMaterial({}));
    {
        const tests::CommaLocale german;
        publishInto("comma", tests::inventedMaterial({}));
    }
    auto comma = filesOf("comma");
    for (const auto& [name, bytes] : filesOf("point")) {
        EXPECT_TRUE(bytes == comma[name]) << name << " differs";
    }
}

TEST_F(PublishTest, AgainIntoTheSameFolderWorksAndLeavesForeignFilesAlone) {
    publishInto("out", tests::inventedMaterial({}));
    std::ofstream{folder.path() / "out" / "notes.txt"} << "mine";
    publishInto("out", tests::inventedMaterial({}));
    EXPECT_EQ(tests::bytesOf(folder.path() / "out" / "notes.txt"), "mine");
}

TEST_F(PublishTest, ForeignFileInTheWayStopsEverything) {
    fs::create_directories(folder.path() / "out");
    std::ofstream{folder.path() / "out" / "pairs.csv"} << "mine";
    PublishOptions options;
    const auto done = publish(tests::inventedMaterial({}), folder.path() / "out", options);
    ASSERT_FALSE(done.has_value());
    EXPECT_EQ(done.error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(filesOf("out").size(), 1U);
    EXPECT_EQ(tests::bytesOf(folder.path() / "out" / "pairs.csv"), "mine");
}

TEST_F(PublishTest, HostileNamesStayInTheFolder) {
    publishInto("out", tests::inventedMaterial(tests::hostileNames()));
    EXPECT_EQ(std::distance(fs::directory_iterator{folder.path()}, fs::directory_iterator{}), 1);
}

TEST_F(PublishTest, BlindHittersAreNamedNowhere) {
    tests::InventedNames names;
    names.note = "Nadir was tired, Zenith was not";
    names.reason = "Nadir slipped";
    names.reader = "Zenith";
    names.title = "bench of nadir";
    PublishOptions options;
    options.blindHitters = true;
    publishInto("out", tests::inventedMaterial(names), options);
    for (const auto& [name, bytes] : filesOf("out")) {
        for (const char* hitter : {"Nadir", "nadir", "Zenith"}) {
            EXPECT_EQ(bytes.find(hitter), std::string::npos) << hitter << " in " << name;
        }
    }
    EXPECT_NE(filesOf("out")["shots.csv"].find(",H1,"), std::string::npos);
}

TEST_F(PublishTest, ClipThatIsGoneIsSaid) {
    const auto done = publishInto("out", tests::inventedMaterial({}));
    EXPECT_FALSE(done.remarks.empty());
    EXPECT_NE(filesOf("out")["index.html"].find("No pictures: "), std::string::npos);
}

TEST_F(PublishTest, StoppedWritesNothing) {
    std::stop_source stop;
    PublishOptions options;
    options.publishedOn = "2026-05-18";
    const auto done = publish(tests::inventedMaterial({}), folder.path() / "out", options,
                              stop.get_token(), [&stop](double share, const std::string&) {
                                  if (share > 0.15) {
                                      stop.request_stop();
                                  }
                              });
    ASSERT_FALSE(done.has_value());
    EXPECT_EQ(done.error().code, ErrorCode::Cancelled);
    EXPECT_TRUE(filesOf("out").empty());
}

TEST_F(PublishTest, ProjectWithoutShotsCanBePublished) {
    Material material = tests::inventedMaterial({});
    auto empty = std::make_shared<project::Snapshot>();
    material.snapshot = empty;
    publishInto("out", material);
    EXPECT_NE(filesOf("out")["index.html"].find("0 shots that count"), std::string::npos);
}

// A project of 10,000 shots (8 implements x 2 hitters x 624 kept and 1 set aside). How long it
// takes is measured by findings_benchmark.
TEST_F(PublishTest, TenThousandShotsAreAllPublished) {
    tests::InventedNames names;
    names.implements = {"a1", "b2", "c3", "d4", "e5", "f6", "g7", "h8"};
    const auto material = tests::inventedMaterial(names, 624);
    ASSERT_EQ(material.snapshot->shots.size(), 10'000U);
    const auto done = publishInto("out", material);
    const auto files = filesOf("out");
    EXPECT_EQ(done.written.files.size(), files.size());
    const std::string& shots = files.at("shots.csv");
    EXPECT_EQ(std::count(shots.begin(), shots.end(), '\n'), 10'001) << "one row a shot, one head";
}

}  // namespace
}  // namespace core::publish
