#include "core/intake/film_order.h"

#include <gtest/gtest.h>

#include "core/intake/add_clip.h"
#include "tests/support/must.h"
#include "tests/support/process.h"
#include "tests/support/reference_csv.h"

namespace tests::intake {
namespace {

namespace fs = std::filesystem;
using core::project::ClipId;

/// A filming day of films whose containers and files tell different times.
class FilmOrder : public ::testing::Test {
protected:
    FilmOrder() {
        store = must(core::project::Store::create(folder.path() / "p.turnmark"));
        core::project::Session day;
        day.name = "day";
        session = must(store->addSession(day));
    }
    /// `created` as ISO 8601, empty for a container that tells nothing; the file was last changed
    /// at `changed` on 2026-05-16, UTC.
    void addFilm(const std::string& name, const std::string& created,
                 std::chrono::seconds changed) {
        const fs::path film = folder.path() / name;
        const auto source = dataFolder() / "footage" / "half_120fps.mp4";
        // The comment makes each film another content.
        const auto done =
            runProgram({"ffmpeg", "-v", "error", "-i", source.string(), "-c", "copy", "-metadata",
                        "creation_time=" + created, "-metadata", "comment=" + name, film.string()});
        if (done.status != 0) {
            throw std::runtime_error(done.errors);
        }
        const std::chrono::sys_seconds day{std::chrono::days{20589}};  // of Unix time
        fs::last_write_time(film, std::chrono::file_clock::from_sys(day + changed));
        must(core::intake::addPreparedClip(*store, session,
                                           must(core::intake::prepareClip(film, store->file()))));
    }
    [[nodiscard]] std::vector<std::string> order() {
        std::vector<std::string> names;
        for (const ClipId clip : must(core::intake::filmOrder(*store, session))) {
            names.push_back(store->snapshot()->clips.find(clip)->path);
        }
        return names;
    }

    TemporaryFolder folder;
    std::unique_ptr<core::project::Store> store;
    core::project::SessionId session;
};

TEST_F(FilmOrder, TheContainersTimeGoesBeforeTheFiles) {
    using namespace std::chrono_literals;
    addFilm("a.mp4", "2026-05-16T12:00:00Z", 8h);  // copied in another order than filmed
    addFilm("b.mp4", "2026-05-16T10:00:00Z", 9h);
    addFilm("c.mp4", "2026-05-16T11:00:00Z", 7h);
    EXPECT_EQ(order(), (std::vector<std::string>{"b.mp4", "c.mp4", "a.mp4"}));
}

TEST_F(FilmOrder, AFilmWithoutATimeStandsByItsFileAndThenByItsName) {
    using namespace std::chrono_literals;
    addFilm("z.mp4", "2026-05-16T10:00:00Z", 20h);
    addFilm("b.mp4", "", 11h);
    addFilm("a.mp4", "", 11h);
    addFilm("y.mp4", "2026-05-16T12:00:00Z", 1h);
    EXPECT_EQ(order(), (std::vector<std::string>{"z.mp4", "a.mp4", "b.mp4", "y.mp4"}));
    EXPECT_EQ(order(), order());
}

}  // namespace
}  // namespace tests::intake
