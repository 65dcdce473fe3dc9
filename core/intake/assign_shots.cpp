#include "core/intake/assign_shots.h"

#include <algorithm>
#include <map>
#include <vector>

#include "core/base/kept_words.h"
#include "core/base/words.h"

namespace core::intake {
namespace {

using project::ShotId;

std::string trimmed(const std::string& text) {
    const auto begin = text.find_first_not_of(" \t\r\n");
    const auto end = text.find_last_not_of(" \t\r\n");
    return begin == std::string::npos ? std::string{} : text.substr(begin, end - begin + 1);
}

Result<project::ImplementId> implementNamed(project::Store& store, const std::string& name) {
    for (const auto& implement : store.snapshot()->implements) {
        if (implement.name == name) {
            return implement.id;
        }
    }
    project::Implement implement;
    implement.name = name;
    return store.addImplement(implement);
}

Result<project::HitterId> hitterNamed(project::Store& store, const std::string& name) {
    for (const auto& hitter : store.snapshot()->hitters) {
        if (hitter.name == name) {
            return hitter.id;
        }
    }
    project::Hitter hitter;
    hitter.name = name;
    return store.addHitter(hitter);
}

Result<std::map<project::SessionId, std::vector<ShotId>>> bySession(
    const project::Snapshot& snapshot, std::span<const ShotId> shots) {
    std::map<project::SessionId, std::vector<ShotId>> groups;
    for (const ShotId id : shots) {
        const auto* shot = snapshot.shots.find(id);
        const auto* clip = shot != nullptr ? snapshot.clips.find(shot->clip) : nullptr;
        if (clip == nullptr) {
            return fail(ErrorCode::NotFound, said("A chosen shot is no longer in the project."));
        }
        groups[clip->session].push_back(id);
    }
    return groups;
}

}  // namespace

Result<void> assignShots(project::Store& store, std::span<const ShotId> shots,
                         const CellNames& names) {
    const std::string implementName = trimmed(names.implement);
    const std::string hitterName = trimmed(names.hitter);
    if (shots.empty()) {
        return fail(ErrorCode::InvalidInput, said("Choose the shots or clips to assign first."));
    }
    if (implementName.empty() || hitterName.empty()) {
        return fail(ErrorCode::InvalidInput,
                    said("Give both the implement and the hitter a name."));
    }
    BOOST_OUTCOME_TRY(groups, bySession(*store.snapshot(), shots));
    const std::string count = countToKeep(shots.size(), "shot", "shots");
    return store.together(
        toKeep("Assigned {} to {:s}, hitter {:s}.", count, implementName, hitterName),
        [&]() -> Result<void> {
            BOOST_OUTCOME_TRY(implement, implementNamed(store, implementName));
            BOOST_OUTCOME_TRY(hitter, hitterNamed(store, hitterName));
            for (const auto& [session, members] : groups) {
                BOOST_OUTCOME_TRY(cell, store.cellFor(session, implement, hitter));
                BOOST_OUTCOME_TRY(store.assignShots(members, cell));
            }
            return ok();
        });
}

}  // namespace core::intake
