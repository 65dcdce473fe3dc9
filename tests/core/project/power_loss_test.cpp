#include <fmt/format.h>
#include <gtest/gtest.h>

#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <fstream>
#include <functional>
#include <map>
#include <random>

#include "core/base/files.h"
#include "core/project/backups.h"
#include "core/project/store/migrations.h"
#include "tests/core/project/project_maker.h"
#include "tests/core/project/random_edits.h"
#include "tests/support/disk_steps.h"
#include "tests/support/reference_csv.h"

/// R09: work is done while everything that is asked of the disk is recorded; then the power goes at
/// some point of the record, and what the disk may hold then is opened
/// (tests/support/disk_steps.h).
namespace tests::project {
namespace {

using namespace core::project;
namespace fs = std::filesystem;

constexpr int kLosses = 30;
constexpr int kLossesOfOneRecord = 50;

/// TURNMARK_POWER_LOSSES=1000 for a long run.
int lossesAsked() {
    const char* asked = std::getenv("TURNMARK_POWER_LOSSES");
    return asked != nullptr ? std::atoi(asked) : kLosses;
}

std::string saying(const Snapshot& snapshot) {
    return fmt::format("{} {}", snapshot.revision, std::hash<std::string>{}(contentOf(snapshot)));
}

/// What had been acknowledged when the disk had been asked for so many steps.
struct Moment {
    std::size_t steps{};
    std::string project;                  ///< revision and hash of the content; empty: none yet
    std::map<ShotId, std::string> noted;  ///< archives and pictures, as they say themselves
    std::map<std::string, std::string> copies;  ///< backups: by file, as `project`
    std::map<std::string, std::string> exports;
    bool isMigrated{};
};

std::string notedOf(const Store& store, ShotId shot) {
    const auto archive = store.archiveOf(shot);
    const auto pictures = store.picturesOf(shot);
    return fmt::format("{} {}",
                       archive && archive.value() ? archive.value()->key : std::string{"none"},
                       pictures && pictures.value() ? pictures.value()->madeAt : "none");
}

/// Works on a project at random, as a person and the work in the background would.
class Work {
public:
    Work(const fs::path& folder, std::uint64_t seed)
        : m_folder{folder}, m_random{seed}, m_seed{seed} {
        fs::copy_file(anOldProject(seed), old());
        m_recorder = std::make_unique<DiskRecorder>(folder);
        m_moments.push_back({});
    }

    void doAll() {
        m_store = Store::create(project()).value();
        listen();
        acknowledge();
        fill(*m_store);
        edit(12);
        const fs::path copy = backUp();
        const Moment atCopy = m_moments.back();
        edit(12);
        migrateTheOld();
        ASSERT_TRUE(core::writeFile(m_folder / "out.csv", std::string(20'000, 'c')));
        m_now.exports["out.csv"] = std::string(20'000, 'c');
        acknowledge();
        edit(6);
        m_store.reset();
        ASSERT_TRUE(restoreBackup(project(), copy));
        m_now.project = atCopy.project;
        m_now.noted = atCopy.noted;
        acknowledgeAsIs();
        m_store = Store::open(project()).value();
        listen();
        edit(8);
        m_store.reset();
        expectNothingMissed();
    }

    [[nodiscard]] const DiskRecorder& recorder() const { return *m_recorder; }
    [[nodiscard]] const std::vector<Moment>& moments() const { return m_moments; }
    [[nodiscard]] const std::string& oldContent() const { return m_oldContent; }

private:
    static fs::path anOldProject(std::uint64_t seed) {
        constexpr std::array kOld{"v1_small", "v3_second", "v4_clip_facts", "v5_tally"};
        return tests::dataFolder() / "project" / (std::string{kOld.at(seed % 4)} + ".turnmark");
    }
    [[nodiscard]] fs::path project() const { return m_folder / "p.turnmark"; }
    [[nodiscard]] fs::path old() const { return m_folder / "old.turnmark"; }

    void listen() {
        m_listening = m_store->listen([this](const Store::Change&) { acknowledge(); });
    }
    void acknowledge() {
        m_now.project = saying(*m_store->snapshot());
        acknowledgeAsIs();
    }
    void acknowledgeAsIs() {
        m_now.steps = m_recorder->steps().size();
        m_moments.push_back(m_now);
    }

    void edit(int times) {
        RandomEditor editor{*m_store, m_seed * 100 + m_moments.size()};
        for (int i = 0; i < times; ++i) {
            (void)editor.edit();  // a refusal is no edit
            const auto snapshot = m_store->snapshot();
            if (snapshot->shots.isEmpty() || m_random() % 2 == 0) {
                continue;
            }
            const auto place = static_cast<std::ptrdiff_t>(m_random() % snapshot->shots.size());
            noteSomething(snapshot->shots.begin()[place].id);
        }
    }

    void noteSomething(ShotId shot) {
        const std::string text = fmt::format("{}", ++m_number);
        StoredPicture picture;
        picture.bytes = std::string(60'000, 'v');
        switch (m_random() % 4) {
            case 0:
                ASSERT_TRUE(m_store->noteArchive(shot, {text, std::string(20'000, 'a')}));
                break;
            case 1:
                ASSERT_TRUE(m_store->dropPictures(std::vector{shot}));
                break;
            default:
                ASSERT_TRUE(m_store->notePictures(shot, {text, "image/webp", {picture}}));
        }
        m_now.noted[shot] = notedOf(*m_store, shot);
        acknowledge();
    }

    fs::path backUp() {
        const auto made = makeBackup(project()).value().value();
        m_now.copies[fs::relative(made.file, m_folder).string()] = m_now.project;
        acknowledge();
        return made.file;
    }

    void migrateTheOld() {
        m_oldContent = contentOf(*Store::open(old()).value()->snapshot());
        m_now.isMigrated = true;
        acknowledge();
    }

    /// All steps together lead to what lies in the folder.
    void expectNothingMissed() {
        const auto& steps = m_recorder->steps();
        const DiskState all = tests::stateAfter(m_recorder->atStart(), steps, steps.size());
        const DiskState present = m_recorder->present();
        ASSERT_EQ(all.names, present.names);
        for (const auto& [file, content] : present.contents) {
            EXPECT_TRUE(all.contents.at(file) == content) << file;
        }
    }

    fs::path m_folder;
    std::mt19937_64 m_random;
    std::uint64_t m_seed;
    std::unique_ptr<DiskRecorder> m_recorder;
    std::unique_ptr<Store> m_store;
    std::shared_ptr<void> m_listening;
    Moment m_now;
    std::vector<Moment> m_moments;
    std::string m_oldContent;
    int m_number{};
};

/// What is wrong after a loss of power between two moments: a sentence each.
class Aftermath {
public:
    Aftermath(fs::path folder, const Moment& last, const Moment& next, std::string oldContent)
        : m_folder{std::move(folder)},
          m_last{last},
          m_next{next},
          m_oldContent{std::move(oldContent)} {}

    std::vector<std::string> faults() {
        lookAtProject();
        lookAtCopies();
        lookAtOld();
        for (const auto& [name, content] : m_last.exports) {
            expect(tests::bytesOf(m_folder / name) == content, name);
        }
        return m_faults;
    }

private:
    void expect(bool isSo, const std::string& what) {
        if (!isSo) {
            m_faults.push_back(what);
        }
    }

    void lookAtProject() {
        const fs::path file = m_folder / "p.turnmark";
        if (m_last.project.empty() && !fs::exists(file)) {
            return;
        }
        const auto store = Store::open(file);
        if (!store) {
            m_faults.push_back(store.error().message);
            return;
        }
        const std::string is = saying(*store.value()->snapshot());
        expect(is == m_last.project || is == m_next.project,
               fmt::format("{} is neither {} nor {}", is, m_last.project, m_next.project));
        for (const auto& [shot, noted] : m_last.noted) {
            const std::string there = notedOf(*store.value(), shot);
            const auto next = m_next.noted.find(shot);
            // What is kept for shots that are gone may go.
            expect(there == noted || (next != m_next.noted.end() && there == next->second) ||
                       store.value()->snapshot()->shots.find(shot) == nullptr,
                   fmt::format("shot {}: noted {}, not {}", shot.value, there, noted));
        }
        const auto found = store.value()->faults();
        expect(found && found.value().empty(), "the check finds something");
        expect(bool{store.value()->setReader("goes on")}, "the work does not go on");
    }

    void lookAtCopies() {
        for (const auto& [name, content] : m_last.copies) {
            const auto copy = Store::openReadOnly(m_folder / name);
            expect(copy && saying(*copy.value()->snapshot()) == content, name);
        }
        for (const Backup& backup : backupsOf(m_folder / "p.turnmark")) {
            expect(previewOf(backup).trouble.empty(), previewOf(backup).trouble);
        }
    }

    void lookAtOld() {
        const fs::path file = m_folder / "old.turnmark";
        expect(!m_last.isMigrated || Store::openReadOnly(file), "the migration is lost");
        const auto store = Store::open(file);
        expect(bool{store}, store ? "" : store.error().message);
        expect(store && contentOf(*store.value()->snapshot()) == m_oldContent, "old content");
        for (std::int64_t version = 1; version < 6; ++version) {
            const fs::path copy = backupName(file, version);
            if (fs::exists(copy)) {
                const auto before = Store::open(copy);
                expect(before && contentOf(*before.value()->snapshot()) == m_oldContent,
                       "the copy from before the migration");
                return;
            }
        }
        expect(false, "there is no copy from before the migration");
    }

    fs::path m_folder;
    const Moment& m_last;
    const Moment& m_next;
    std::string m_oldContent;
    std::vector<std::string> m_faults;
};

/// Half of the time right before or after something that orders what reaches the disk.
std::size_t somePoint(const std::vector<DiskStep>& steps, std::mt19937_64& random) {
    using Kind = DiskStep::Kind;
    const std::size_t anywhere = random() % (steps.size() + 1);
    if (random() % 2 == 0) {
        return anywhere;
    }
    const auto at = std::find_if(
        steps.begin() + static_cast<std::ptrdiff_t>(anywhere), steps.end(),
        [](const DiskStep& step) { return step.kind != Kind::Write && step.kind != Kind::Resize; });
    return static_cast<std::size_t>(at - steps.begin()) +
           (at != steps.end() ? random() % 2 : std::size_t{0});
}

TEST(ProjectFormatPowerLoss, R09_NoAcknowledgedChangeIsLost) {
    std::mt19937_64 random{20260503};
    std::size_t acknowledged = 0;
    int lost = 0;
    const int losses = lossesAsked();
    std::unique_ptr<TemporaryFolder> folder;
    std::unique_ptr<Work> work;
    for (int run = 0; run < losses; ++run) {
        if (run % kLossesOfOneRecord == 0) {
            work.reset();
            folder = std::make_unique<TemporaryFolder>();
            work = std::make_unique<Work>(folder->path(),
                                          static_cast<std::uint64_t>(run / kLossesOfOneRecord));
            work->doAll();
        }
        const auto& steps = work->recorder().steps();
        const auto& moments = work->moments();
        const std::size_t point = somePoint(steps, random);
        const auto next = std::upper_bound(
            moments.begin(), moments.end(), point,
            [](std::size_t at, const Moment& moment) { return at < moment.steps; });
        const Moment& last = *std::prev(next);
        const TemporaryFolder left;
        tests::writeState(tests::afterPowerLoss(work->recorder().atStart(), steps, point, random()),
                          left.path());
        const auto faults =
            Aftermath{left.path(), last, next != moments.end() ? *next : last, work->oldContent()}
                .faults();
        EXPECT_EQ(faults, std::vector<std::string>{}) << "run " << run << ", step " << point;
        acknowledged += static_cast<std::size_t>(std::prev(next) - moments.begin());
        lost += faults.empty() ? 0 : 1;
    }
    RecordProperty("losses", losses);
    RecordProperty("acknowledged", static_cast<int>(acknowledged));
    std::printf("%d losses of power, %zu things acknowledged before, something lost in %d\n",
                losses, acknowledged, lost);
}

}  // namespace
}  // namespace tests::project
