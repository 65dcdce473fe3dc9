#include "core/intake/film_order.h"

#include <algorithm>
#include <chrono>
#include <iterator>
#include <tuple>

#include "core/base/words.h"
#include "core/intake/clip_shots.h"
#include "core/intake/find_clip.h"
#include "core/media/file/creation_time.h"

namespace core::intake {
namespace {

using Seconds = std::chrono::sys_seconds;

/// When a film was taken, as well as its file tells it.
Result<Seconds> takenAt(const std::filesystem::path& file) {
    using std::chrono::floor;
    if (const auto created = media::creationTimeOf(file)) {
        return floor<std::chrono::seconds>(*created);
    }
    std::error_code problem;
    const auto changed = std::filesystem::last_write_time(file, problem);
    if (problem) {
        return fail(ErrorCode::NotFound,
                    said("The time of {} cannot be read: {}.", file.string(), problem.message()));
    }
    return floor<std::chrono::seconds>(std::chrono::file_clock::to_sys(changed));
}

}  // namespace

Result<std::vector<project::ClipId>> filmOrder(project::Store& store, project::SessionId session) {
    struct Film {
        Seconds takenAt;
        std::string path;
        project::ClipId clip;
    };
    const auto snapshot = store.snapshot();
    if (snapshot->sessions.find(session) == nullptr) {
        return fail(ErrorCode::NotFound, said("The filming day is no longer in the project."));
    }
    std::vector<Film> films;
    for (const auto& clip : snapshot->clips) {
        if (clip.session != session || project::isTally(clip)) {
            continue;
        }
        BOOST_OUTCOME_TRY(file, findClip(store, clip.id));
        BOOST_OUTCOME_TRY(taken, takenAt(file));
        films.push_back({taken, clip.path, clip.id});
    }
    std::sort(films.begin(), films.end(), [](const Film& a, const Film& b) {
        return std::tie(a.takenAt, a.path) < std::tie(b.takenAt, b.path);
    });
    std::vector<project::ClipId> order;
    for (const Film& film : films) {
        order.push_back(film.clip);
    }
    return order;
}

std::vector<const project::Shot*> shotsInFilmOrder(const project::Snapshot& snapshot,
                                                   const std::vector<project::ClipId>& clips) {
    std::vector<const project::Shot*> shots;
    for (const auto clip : clips) {
        const auto ofClip = project::shotsOfClip(snapshot, clip);
        std::ranges::copy_if(ofClip, std::back_inserter(shots),
                             [](const project::Shot* shot) { return !isFlightAfterKink(*shot); });
    }
    return shots;
}

}  // namespace core::intake
