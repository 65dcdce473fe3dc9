#include "core/pack/pack.h"

#include <archive.h>
#include <archive_entry.h>
#include <gtest/gtest.h>
#include <unistd.h>

#include <cerrno>

#include <fstream>

#include "core/media/file/clip_index.h"
#include "core/media/file/sha256.h"
#include "core/pack/manifest.h"
#include "core/project/clip_location.h"
#include "core/project/store.h"
#include "tests/support/process.h"

// Hard links cannot be made here, as on a FAT disk (EPERM of link(2)).
extern "C" int linkat(int, const char*, int, const char*, int) {
    errno = EPERM;
    return -1;
}

namespace core::pack {
namespace {

namespace fs = std::filesystem;
using project::Store;

/// What stands in an archive, as libarchive is told to write it: with whatever name and type.
struct Item {
    std::string path;
    std::string content;
    unsigned type{AE_IFREG};
    std::string link{};
};

void writeTar(const fs::path& file, const std::vector<Item>& items) {
    archive* out = archive_write_new();
    archive_write_set_format_pax(out);
    ASSERT_EQ(archive_write_open_filename(out, file.c_str()), ARCHIVE_OK);
    for (const Item& item : items) {
        archive_entry* entry = archive_entry_new();
        archive_entry_set_pathname(entry, item.path.c_str());
        archive_entry_set_filetype(entry, item.type);
        archive_entry_set_perm(entry, 0644);
        archive_entry_set_size(entry, static_cast<la_int64_t>(item.content.size()));
        if (item.type == AE_IFLNK) {
            archive_entry_set_symlink(entry, item.link.c_str());
        } else if (!item.link.empty()) {
            archive_entry_set_hardlink(entry, item.link.c_str());
        }
        ASSERT_EQ(archive_write_header(out, entry), ARCHIVE_OK) << archive_error_string(out);
        archive_write_data(out, item.content.data(), item.content.size());
        archive_entry_free(entry);
    }
    archive_write_close(out);
    archive_write_free(out);
}

std::vector<std::string> everythingIn(const fs::path& folder) {
    std::vector<std::string> names;
    for (const auto& entry : fs::recursive_directory_iterator{folder}) {
        names.push_back(entry.path().lexically_relative(folder).generic_string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

/// A project with two clips, one in its folder and one outside; only the first has a kept shot.
class Pack : public ::testing::Test {
protected:
    void SetUp() override {
        fs::create_directories(home / "films");
        fs::create_directories(folder.path() / "elsewhere");
        std::ofstream{home / "films" / "a.mp4"} << std::string(300'000, 'a');
        std::ofstream{folder.path() / "elsewhere" / "b.mp4"} << std::string(200'000, 'b');
        auto store = Store::create(project).value();
        project::Session session;
        session.name = "Bench day";
        const auto day = store->addSession(session).value();
        const auto kept = addClip(*store, day, home / "films" / "a.mp4");
        addClip(*store, day, folder.path() / "elsewhere" / "b.mp4");
        project::Shot shot;
        shot.clip = kept;
        shot.lastFrame = {9};
        project::Reading reading;
        reading.shot = store->addShots(std::vector{shot}).value().front();
        reading.rate = {{1500.0}, {5.0}};
        reading.interval95 = {{1490.0}, {1510.0}};
        reading.inputsJson = "{}";
        ASSERT_TRUE(store->keepReading(reading));
    }
    project::ClipId addClip(Store& store, project::SessionId day, const fs::path& film) {
        project::Clip clip;
        clip.session = day;
        clip.path = project::pathToKeep(project, film);
        clip.sizeBytes = static_cast<std::int64_t>(fs::file_size(film));
        clip.fingerprint = media::fingerprint(film).value();
        clip.frameCount = 10;
        clip.width = 640;
        clip.height = 360;
        project::ClipFrames frames;
        frames.stamps.timeBase = {1, 240};
        for (int i = 0; i < 10; ++i) {
            frames.stamps.ticks.push_back(i);
            frames.isKey.push_back(i == 0);
        }
        return store.addClip(clip, frames).value();
    }
    /// The archive is refused, and the folder is as it was.
    void expectRefused(ErrorCode code) {
        const fs::path to = folder.path() / "to";
        fs::create_directory(to);
        std::ofstream{to / "mine.txt"} << "mine";
        const auto before = everythingIn(folder.path());
        const auto done = unpack(tar, to);
        ASSERT_FALSE(done);
        EXPECT_EQ(done.error().code, code) << done.error().message;
        EXPECT_EQ(everythingIn(folder.path()), before);
        EXPECT_FALSE(unpack(tar, folder.path() / "new"));
        EXPECT_EQ(everythingIn(folder.path()), before) << "a folder that was made stays";
    }
    /// A whole pack as items, to be spoiled by the test.
    std::vector<Item> honestItems() const {
        const std::string bytes = tests::bytesOf(project);
        const Manifest manifest{
            "p.turnmark",
            {{"p.turnmark", static_cast<std::int64_t>(bytes.size()), media::sha256(bytes)},
             {"clips/b.mp4", 4, media::sha256("film")}}};
        return {
            {"manifest.json", toJson(manifest)}, {"p.turnmark", bytes}, {"clips/b.mp4", "film"}};
    }

    tests::TemporaryFolder folder;
    fs::path home = folder.path() / "home";
    fs::path project = home / "p.turnmark";
    fs::path tar = folder.path() / "p.tar";
};

TEST_F(Pack, OnAnotherFolderTheProjectFindsItsClips) {
    const auto packed = pack(project, tar, Footage::All);
    ASSERT_TRUE(packed) << packed.error().message;
    EXPECT_EQ(packed.value().clips.size(), 2U);
    EXPECT_TRUE(packed.value().remarks.empty());
    const auto unpacked = unpack(tar, folder.path() / "there");
    ASSERT_TRUE(unpacked) << unpacked.error().message;
    fs::remove_all(home);
    fs::remove_all(folder.path() / "elsewhere");
    const auto store = Store::open(unpacked.value().project);
    ASSERT_TRUE(store) << store.error().message;
    EXPECT_EQ(store.value()->snapshot()->readings.size(), 1U);
    for (const auto& clip : store.value()->snapshot()->clips) {
        const auto found = project::locateClip(store.value()->file(), clip, media::fingerprint);
        ASSERT_TRUE(found) << found.error().message;
        EXPECT_EQ(media::fingerprint(found.value().file).value(), clip.fingerprint);
    }
}

TEST_F(Pack, ProjectHasTheSameHistoryAndReadings) {
    ASSERT_TRUE(pack(project, tar, Footage::None));
    ASSERT_TRUE(unpack(tar, folder.path() / "there"));
    const auto before = Store::openReadOnly(project).value();
    const auto after = Store::openReadOnly(folder.path() / "there" / "p.turnmark").value();
    EXPECT_EQ(after->history().value().back().what, before->history().value().back().what);
    EXPECT_EQ(after->snapshot()->revision, before->snapshot()->revision);
    EXPECT_EQ(after->snapshot()->readings.begin()->inputsJson, "{}");
    EXPECT_EQ(after->snapshot()->readings.begin()->rate.value.rpm, 1500.0);
    EXPECT_EQ(everythingIn(folder.path() / "there"), std::vector<std::string>{"p.turnmark"});
}

TEST_F(Pack, TarOfTheSystemReadsIt) {
    ASSERT_TRUE(pack(project, tar, Footage::OfKeptShots));
    const auto listed = tests::runProgram({"tar", "-tf", tar.string()});
    EXPECT_EQ(listed.status, 0) << listed.errors;
    EXPECT_EQ(listed.output, "manifest.json\np.turnmark\nfilms/a.mp4\n");
}

TEST_F(Pack, WhatAStoppedPackingHasLeftGoes) {
    const fs::path ours = folder.path() / ".turnmark-part-aB3xYz";
    const fs::path published = folder.path() / ".turnmark-part-Qw12er";
    fs::create_directories(ours);
    fs::create_directories(published);
    std::ofstream{ours / "pack"} << "half of an archive";
    std::ofstream{published / ".moves.json"} << "[]";
    ASSERT_TRUE(pack(project, tar, Footage::None));
    EXPECT_FALSE(fs::exists(ours));
    EXPECT_TRUE(fs::exists(published));
}

TEST_F(Pack, AClipThatIsGoneIsSaid) {
    fs::remove(home / "films" / "a.mp4");
    const auto packed = pack(project, tar, Footage::OfKeptShots);
    ASSERT_TRUE(packed) << packed.error().message;
    ASSERT_EQ(packed.value().remarks.size(), 1U);
    EXPECT_NE(packed.value().remarks[0].find("a.mp4"), std::string::npos);
}

TEST_F(Pack, AFilmOfAnotherContentIsNotPackedInItsPlace) {
    std::ofstream{home / "films" / "a.mp4"} << std::string(300'000, 'x');
    const auto packed = pack(project, tar, Footage::OfKeptShots);
    ASSERT_TRUE(packed) << packed.error().message;
    EXPECT_TRUE(packed.value().clips.empty());
    EXPECT_EQ(packed.value().remarks.size(), 1U);
}

TEST_F(Pack, WritesOverNothingAndWorksOnAnOpenProject) {
    const auto open = Store::open(project).value();
    std::ofstream{tar} << "mine";
    EXPECT_EQ(pack(project, tar, Footage::None).error().code, ErrorCode::InvalidInput);
    EXPECT_EQ(tests::bytesOf(tar), "mine");
    fs::remove(tar);
    EXPECT_TRUE(pack(project, tar, Footage::None));
    EXPECT_TRUE(unpack(tar, folder.path() / "there"));
    EXPECT_EQ(unpack(tar, folder.path() / "there").error().code, ErrorCode::InvalidInput);
}

// Names that libarchive must be told, that are not allowed, or that are one on some disks.
TEST_F(Pack, WhatIsPackedCanBeUnpackedWhateverTheNames) {
    const std::vector<std::string> names{"größe.mp4", "Größe.mp4", "GRÖSSE.mp4", "B.mp4",
                                         "b.mp4",     "a\\b.mp4",  "a\nb.mp4",   "manifest.json",
                                         "c.open",    "clips/3"};
    const fs::path odd = home / "größte\\.turnmark";
    fs::rename(project, odd);
    project = odd;
    fs::create_directories(home / "clips");
    {
        auto store = Store::open(odd).value();
        const auto day = store->snapshot()->sessions.begin()->id;
        for (const auto& name : names) {
            std::ofstream{home / name} << "film " << name;
            addClip(*store, day, home / name);
        }
    }
    const auto packed = pack(odd, tar, Footage::All);
    ASSERT_TRUE(packed) << packed.error().message;
    EXPECT_EQ(packed.value().clips.size(), names.size() + 2);
    const auto unpacked = unpack(tar, folder.path() / "there");
    ASSERT_TRUE(unpacked) << unpacked.error().message;
    EXPECT_TRUE(fs::exists(folder.path() / "there" / "größe.mp4"));
    const auto store = Store::open(unpacked.value().project).value();
    for (const auto& clip : store->snapshot()->clips) {
        EXPECT_TRUE(project::locateClip(store->file(), clip, media::fingerprint)) << clip.path;
    }
    EXPECT_EQ(tests::runProgram({"tar", "-tf", tar.string()}).status, 0);
}

TEST_F(Pack, AFilmThatWasMovedIsNotWrittenOverEither) {
    const fs::path moved = home / "moved.mp4";
    fs::rename(home / "films" / "a.mp4", moved);
    EXPECT_FALSE(pack(project, moved, Footage::All, {}, {}, Existing::Overwrite));
    EXPECT_TRUE(tests::bytesOf(moved) == std::string(300'000, 'a'));
}

TEST_F(Pack, FilesOfOthersBesideItStay) {
    const std::vector<std::string> names{"p.tar.part", "p.tar.project", "victim"};
    for (const auto& name : names) {
        std::ofstream{folder.path() / name} << "mine";
    }
    fs::remove(folder.path() / "p.tar.part");
    fs::create_symlink(folder.path() / "victim", folder.path() / "p.tar.part");
    ASSERT_TRUE(pack(project, tar, Footage::None));
    for (const auto& name : names) {
        EXPECT_EQ(tests::bytesOf(folder.path() / name), "mine") << name;
    }
}

TEST_F(Pack, HonestItemsAreUnpacked) {
    writeTar(tar, honestItems());
    const auto done = unpack(tar, folder.path() / "there");
    ASSERT_TRUE(done) << done.error().message;
    EXPECT_EQ(tests::bytesOf(folder.path() / "there" / "clips" / "b.mp4"), "film");
}

TEST_F(Pack, R36_PartsGoToTheirPlacesAndTheRestIsZero) {
    auto items = honestItems();
    Manifest manifest = manifestFrom(items[0].content).value();
    manifest.files[1].parts = {{0, 2}, {8, 10}};
    manifest.files[1].wholeSize = 12;
    items[0].content = toJson(manifest);
    writeTar(tar, items);
    const auto done = unpack(tar, folder.path() / "there");
    ASSERT_TRUE(done) << done.error().message;
    const std::string expected{"fi\0\0\0\0\0\0lm\0\0", 12};
    EXPECT_EQ(tests::bytesOf(folder.path() / "there" / "clips" / "b.mp4"), expected);
}

TEST_F(Pack, AFilmWithoutStretchesGoesAlongWholeAndThatIsSaid) {
    const auto packed = pack(project, tar, Footage::StretchesOfShots);
    ASSERT_TRUE(packed) << packed.error().message;
    EXPECT_EQ(packed.value().clips, std::vector<std::string>{"films/a.mp4"});
    ASSERT_EQ(packed.value().remarks.size(), 1U);
    EXPECT_NE(packed.value().remarks[0].find("is packed whole"), std::string::npos);
    ASSERT_TRUE(unpack(tar, folder.path() / "there"));
    EXPECT_EQ(tests::bytesOf(folder.path() / "there" / "films" / "a.mp4"),
              std::string(300'000, 'a'));
}

TEST_F(Pack, PathsOutOfTheFolderAreRefused) {
    for (const std::string path : {"../b.mp4", "/tmp/turnmark-b.mp4", "clips/../../b.mp4"}) {
        const std::string bytes = tests::bytesOf(project);
        Manifest manifest{
            "p.turnmark",
            {{"p.turnmark", static_cast<std::int64_t>(bytes.size()), media::sha256(bytes)},
             {path, 4, media::sha256("film")}}};
        writeTar(tar, {{"manifest.json", toJson(manifest)}, {"p.turnmark", bytes}, {path, "film"}});
        expectRefused(ErrorCode::InvalidInput);
        fs::remove_all(folder.path() / "to");
    }
}

TEST_F(Pack, AFileBesidesTheManifestIsRefused) {
    auto items = honestItems();
    items.push_back({"../extra", "x"});
    writeTar(tar, items);
    expectRefused(ErrorCode::InvalidInput);
}

TEST_F(Pack, LinksFoldersAndDevicesAreRefused) {
    for (const Item& bad :
         {Item{"clips/b.mp4", "", AE_IFLNK, "/etc/passwd"},
          Item{"clips/b.mp4", "", AE_IFREG, "p.turnmark"}, Item{"clips/b.mp4", "", AE_IFIFO},
          Item{"clips/b.mp4", "", AE_IFCHR}, Item{"clips", "", AE_IFDIR}}) {
        auto items = honestItems();
        items[2] = bad;
        writeTar(tar, items);
        expectRefused(ErrorCode::InvalidInput);
        fs::remove_all(folder.path() / "to");
    }
}

TEST_F(Pack, TheSameFileTwiceIsRefused) {
    auto items = honestItems();
    items.push_back(items[2]);
    writeTar(tar, items);
    expectRefused(ErrorCode::InvalidInput);
}

TEST_F(Pack, OtherSizesAndSumsAreRefused) {
    for (const char* content : {"film and more", "fil", "fill"}) {
        auto items = honestItems();
        items[2].content = content;
        writeTar(tar, items);
        expectRefused(ErrorCode::Damaged);
        fs::remove_all(folder.path() / "to");
    }
    auto items = honestItems();
    items.pop_back();
    writeTar(tar, items);
    expectRefused(ErrorCode::Damaged);
}

TEST_F(Pack, ACutOffArchiveAndAnotherFileAreRefused) {
    writeTar(tar, honestItems());
    fs::resize_file(tar, fs::file_size(tar) / 2);
    expectRefused(ErrorCode::Damaged);
    fs::remove_all(folder.path() / "to");
    writeTar(tar, {{"readme", "hello"}});
    expectRefused(ErrorCode::ForeignFile);
}

TEST_F(Pack, ALinkInTheFolderIsNotFollowed) {
    writeTar(tar, honestItems());
    const fs::path to = folder.path() / "to";
    fs::create_directories(folder.path() / "victim");
    fs::create_directory(to);
    fs::create_directory_symlink(folder.path() / "victim", to / "clips");
    EXPECT_EQ(unpack(tar, to).error().code, ErrorCode::InvalidInput);
    EXPECT_TRUE(fs::is_empty(folder.path() / "victim"));
    EXPECT_EQ(everythingIn(to), std::vector<std::string>{"clips"});
}

}  // namespace
}  // namespace core::pack
