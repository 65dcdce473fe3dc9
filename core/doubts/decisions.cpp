#include "core/doubts/decisions.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <string_view>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/doubts/second_look.h"
#include "core/project/clock_refutation.h"

namespace core::doubts {
namespace {

constexpr std::string_view kFilmAgain = "film again";

std::vector<project::ShotId> keptShotsOf(const project::Snapshot& snapshot, project::CellId cell) {
    std::vector<project::ShotId> kept;
    for (const project::Shot& shot : snapshot.shots) {
        if (shot.cell == cell && shot.standing == project::ShotStanding::Kept) {
            kept.push_back(shot.id);
        }
    }
    return kept;
}

}  // namespace

Result<void> keepAsIs(project::Store& store, const Doubts& doubts, const Doubted& item) {
    const auto keepOne = [&store](const Doubted& one) -> Result<void> {
        const auto snapshot = store.snapshot();
        const project::Shot* shot = snapshot->shots.find(*one.shot);
        if (shot != nullptr && shot->doubtful) {
            BOOST_OUTCOME_TRY(store.setDoubtful(*one.shot, false));
        }
        return store.addSecondLook(*one.shot, one.reasonNames());
    };
    const auto snapshot = store.snapshot();
    if (item.shot) {
        const project::Shot* shot = snapshot->shots.find(*item.shot);
        if (shot == nullptr) {
            return fail(ErrorCode::NotFound, said("The shot is no longer in the project."));
        }
        return store.together(toKeep("Looked at {} again and kept it as it is.",
                                     project::shotNameToKeep(*snapshot, *shot)),
                              [&] { return keepOne(item); });
    }
    const auto cell = item.cell.value_or(project::CellId{});
    return store.together(
        toKeep("Looked at {} again and kept it as it is.", project::cellName(*snapshot, cell)),
        [&]() -> Result<void> {
            BOOST_OUTCOME_TRY(
                store.setSetting(cellLookKey(cell), cellLookValue(*snapshot, cell, item)));
            for (const Doubted& other : doubts.items) {
                if (other.shot && other.cell == item.cell) {
                    BOOST_OUTCOME_TRY(keepOne(other));
                }
            }
            return ok();
        });
}

Result<void> overruleFlight(project::Store& store, project::ClipId id, const std::string& why) {
    const auto snapshot = store.snapshot();
    const auto* clip = snapshot->clips.find(id);
    if (clip == nullptr) {
        return fail(ErrorCode::NotFound, said("The clip is no longer in the project."));
    }
    const auto refutation = project::refutationOf(*snapshot, *clip);
    if (!refutation || why.find_first_not_of(" \t\n") == std::string::npos) {
        return fail(ErrorCode::InvalidInput,
                    refutation ? said("Give a reason: it is published with the findings.")
                               : said("Nothing speaks against the capture rate of {}.",
                                      clipName(*snapshot, id)));
    }
    return store.together(
        toKeep("Kept the capture rate of {:s} although the flight speaks against it: {:s}.",
               clipName(*snapshot, id), why),
        [&] {
            return store.setSetting(project::overruledKey(id),
                                    project::overruledValue(*snapshot, *clip, why));
        });
}

Result<void> noteRefutations(project::Store& store, const DoubtMaterial& material) {
    for (const auto& [shot, opinion] : material.opinions) {
        if (!opinion->clockRefuted.empty() && store.snapshot()->shots.find(shot) != nullptr) {
            BOOST_OUTCOME_TRY(store.noteRefutation(shot, opinion->clockRefuted));
        }
    }
    return ok();
}

Result<void> filmAgain(project::Store& store, project::ShotId shot, const std::string& why) {
    return store.setAside(
        shot, why.empty() ? std::string{kFilmAgain} : fmt::format("{}: {}", kFilmAgain, why));
}

Result<void> filmAgain(project::Store& store, project::CellId cell, const std::string& why) {
    const auto snapshot = store.snapshot();
    const auto kept = keptShotsOf(*snapshot, cell);
    if (kept.empty()) {
        return fail(ErrorCode::InvalidInput, said("The cell has no kept shot to film again."));
    }
    return store.together(
        toKeep("Set aside {:s} to be filmed again: {}.", project::cellName(*snapshot, cell),
               countToKeep(kept.size(), "shot", "shots")),
        [&]() -> Result<void> {
            for (const project::ShotId shot : kept) {
                BOOST_OUTCOME_TRY(filmAgain(store, shot, why));
            }
            return ok();
        });
}

bool isToFilmAgain(const project::Shot& shot) noexcept {
    return shot.standing == project::ShotStanding::SetAside &&
           std::string_view{shot.reason}.starts_with(kFilmAgain);
}

Result<void> doubtCell(project::Store& store, project::CellId cell) {
    const auto snapshot = store.snapshot();
    const auto kept = keptShotsOf(*snapshot, cell);
    if (kept.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("The cell has no kept shot that could be marked as doubtful."));
    }
    return store.together(toKeep("Marked {:s} as doubtful: {}.", project::cellName(*snapshot, cell),
                                 countToKeep(kept.size(), "shot", "shots")),
                          [&]() -> Result<void> {
                              for (const project::ShotId shot : kept) {
                                  BOOST_OUTCOME_TRY(store.setDoubtful(shot, true));
                              }
                              return ok();
                          });
}

std::vector<plan::CellToFilm> filmList(const project::Snapshot& snapshot) {
    std::map<project::CellId, int> counts;
    for (const project::Shot& shot : snapshot.shots) {
        if (shot.cell && isToFilmAgain(shot)) {
            ++counts[*shot.cell];
        }
    }
    std::vector<plan::CellToFilm> cells;
    for (const auto& [id, shots] : counts) {
        const project::Cell* cell = snapshot.cells.find(id);
        const auto* session = cell != nullptr ? snapshot.sessions.find(cell->session) : nullptr;
        const auto* implement =
            cell != nullptr ? snapshot.implements.find(cell->implement) : nullptr;
        const auto* hitter = cell != nullptr ? snapshot.hitters.find(cell->hitter) : nullptr;
        if (session != nullptr && implement != nullptr && hitter != nullptr) {
            cells.push_back(
                {{session->name, implement->name, implement->condition, hitter->name}, shots});
        }
    }
    return cells;
}

}  // namespace core::doubts
