#include <gtest/gtest.h>

#include <filesystem>
#include <fstream>
#include <nlohmann/json.hpp>

#include "core/media/file/clip_index.h"
#include "core/media/frames/frame_decoder.h"
#include "core/project/store.h"
#include "tests/support/demo_copy.h"

namespace {

using nlohmann::json;
namespace fs = std::filesystem;

/// A copy of the demo with its clips, so that files may go.
class FileCommands : public ::testing::Test {
protected:
    json answer(std::vector<std::string> arguments) {
        arguments.insert(arguments.begin(), TURNMARK_CLI);
        arguments.emplace_back("--json");
        const auto done = tests::runProgram(arguments);
        EXPECT_EQ(done.status, 0) << done.errors;
        return json::parse(done.output, nullptr, false);
    }

    /// A project of one film with a shot that nobody has read yet.
    static void addOpenShot(const std::string& file, const fs::path& film, std::int64_t first,
                            std::int64_t last) {
        using namespace core::project;
        const auto index = core::media::readClipIndex(film).value();
        const auto store = Store::create(file).value();
        Session day;
        day.name = "Bench day";
        Clip clip;
        clip.session = store->addSession(day).value();
        clip.path = film.filename().string();
        clip.sizeBytes = static_cast<std::int64_t>(fs::file_size(film));
        clip.fingerprint = core::media::fingerprint(film).value();
        clip.frameCount = index.frameCount();
        clip.width = index.facts.width;
        clip.height = index.facts.height;
        clip.codec = index.facts.codec;
        clip.container = index.facts.container;
        Shot shot;
        shot.clip = store->addClip(clip, {index.stamps, index.isKey}).value();
        shot.firstFrame = {first};
        shot.lastFrame = {last};
        ASSERT_TRUE(store->addShots(std::vector{shot}));
    }

    tests::TemporaryFolder folder;
    tests::DemoCopy demo;
    std::string project = demo.project().string();
};

TEST_F(FileCommands, HistoryIsATableOfWhoDidWhatWhen) {
    const json history = answer({"history", project})["history"];
    ASSERT_FALSE(history.empty());
    EXPECT_EQ(history[0]["what"], "Created the project.");
    const auto file = folder.file("history.csv");
    EXPECT_EQ(tests::runProgram({TURNMARK_CLI, "history", project, "--csv", file}).status, 0);
    std::ifstream stream{file};
    std::string header;
    std::getline(stream, header);
    EXPECT_EQ(header, "line,at,reader,what,clip,shot\r");
}

TEST_F(FileCommands, HistoryOfAShotThatIsNotThereSaysHowToWriteIt) {
    const auto done =
        tests::runProgram({TURNMARK_CLI, "history", project, "--shot", "shot 99 of clip x.mp4"});
    EXPECT_EQ(done.status, 1);
    EXPECT_NE(done.errors.find("shot 3 of clip b.mp4"), std::string::npos) << done.errors;
}

TEST_F(FileCommands, EvidenceIsGatheredListedAndLetGo) {
    // 94 of the 96 shots of the demo are kept.
    const json listed = answer({"evidence", project});
    EXPECT_EQ(listed["shots"].size(), 94U);
    EXPECT_TRUE(listed["kept_without_pictures"].empty());
    RecordProperty("evidence_bytes", listed["bytes"].get<int>());
    EXPECT_EQ(answer({"evidence", project, "--prune-all"})["would_let_go"].size(), 94U);
    EXPECT_EQ(answer({"evidence", project})["shots"].size(), 94U);  // nothing went
    EXPECT_EQ(answer({"evidence", project, "--prune-all", "--confirm"})["let_go"].size(), 94U);
    EXPECT_EQ(answer({"evidence", project})["bytes"], 0);
    EXPECT_EQ(answer({"evidence", project})["kept_without_pictures"].size(), 94U);
    EXPECT_EQ(answer({"evidence", project, "--gather"})["made"], 94);
    EXPECT_EQ(answer({"evidence", project})["shots"].size(), 94U);
    EXPECT_EQ(answer({"check", project})["sound"], true);
}

TEST_F(FileCommands, ABackupIsListedAndRestored) {
    const json summary = answer({"summary", project});
    ASSERT_EQ(answer({"copies", project})["copies"].size(), 0U);
    const json backups = answer({"copies", project, "--now"})["copies"];
    ASSERT_EQ(backups.size(), 1U);
    EXPECT_EQ(backups[0]["shots"], 96);
    EXPECT_EQ(backups[0]["kept"], 94);
    fs::resize_file(project, fs::file_size(project) / 2);
    EXPECT_EQ(tests::runProgram({TURNMARK_CLI, "summary", project}).status, 1);
    const json restored =
        answer({"restore", project, "--from", backups[0]["file"].get<std::string>()});
    EXPECT_TRUE(fs::exists(restored["before"].get<std::string>()));
    EXPECT_EQ(answer({"summary", project}), summary);
}

TEST_F(FileCommands, PackedAndUnpackedElsewhereTheSummaryIsTheSame) {
    const json summary = answer({"summary", project});
    const json packed = answer({"pack", project, "--to", folder.file("p.tar")});
    EXPECT_FALSE(packed["clips"].empty());
    EXPECT_TRUE(packed["remarks"].empty());
    const json unpacked = answer({"unpack", folder.file("p.tar"), "--to", folder.file("there")});
    fs::remove_all(fs::path{project}.parent_path());
    const auto moved = unpacked["project"].get<std::string>();
    EXPECT_EQ(answer({"summary", moved}), summary);
    EXPECT_EQ(answer({"check", moved})["sound"], true);  // its clips are there as well
}

/// Three mebibytes of a film are its fingerprint; what lies about the shot is kept as well.
TEST_F(FileCommands, PackedByStretchesTheShotsAreThereAndTheRestIsNot) {
    const fs::path home = folder.path() / "home";
    fs::create_directory(home);
    const fs::path film = home / "long.mp4";
    const auto made = tests::runProgram({FFMPEG_PROGRAM, "-v", "error", "-f", "lavfi", "-i",
                                         "testsrc2=size=160x120:rate=240,noise=alls=40:allf=t",
                                         "-frames:v", "900", "-c:v", "libx264", "-preset",
                                         "ultrafast", "-qp", "4", "-g", "60", film.string()});
    ASSERT_EQ(made.status, 0) << made.errors;
    const std::string bench = (home / "bench.turnmark").string();
    addOpenShot(bench, film, 500, 540);

    const json packed = answer({"pack", bench, "--to", folder.file("p.tar"), "--shots"});
    EXPECT_EQ(packed["clips"].size(), 1U);
    EXPECT_TRUE(packed["remarks"].empty()) << packed["remarks"];
    const auto whole = static_cast<std::int64_t>(fs::file_size(film));
    EXPECT_LT(packed["bytes"].get<std::int64_t>(), whole * 3 / 4);
    const json unpacked = answer({"unpack", folder.file("p.tar"), "--to", folder.file("there")});
    fs::remove_all(home);
    EXPECT_EQ(answer({"check", unpacked["project"].get<std::string>()})["sound"], true);
    const fs::path there = folder.path() / "there" / "long.mp4";
    EXPECT_EQ(static_cast<std::int64_t>(fs::file_size(there)), whole);
    const auto decoder =
        core::media::FrameDecoder::open(there, core::media::readClipIndex(there).value()).value();
    for (const std::int64_t frame : {500, 520, 540}) {
        EXPECT_TRUE(decoder->decode({frame})) << frame;
    }
    EXPECT_FALSE(decoder->decode({250}));
}

TEST_F(FileCommands, WithoutFootageTheKeptPicturesGoAlong) {
    ASSERT_TRUE(
        answer({"pack", project, "--to", folder.file("p.tar"), "--without-footage"})["clips"]
            .empty());
    const json unpacked = answer({"unpack", folder.file("p.tar"), "--to", folder.file("there")});
    EXPECT_EQ(unpacked["files"].size(), 1U);
    const json evidence = answer({"evidence", unpacked["project"].get<std::string>()});
    EXPECT_EQ(evidence["shots"].size(), 94U);
}

}  // namespace
