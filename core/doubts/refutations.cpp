#include "core/doubts/refutations.h"

#include "core/doubts/decisions.h"
#include "core/project/clock_refutation.h"

namespace core::doubts {
namespace {

/// Kept in the project once it was looked through; later programs note what they see at once.
constexpr const char* kLookedKey = "flights_looked_through";

bool wasLookedThrough(const project::Snapshot& snapshot) {
    return snapshot.settings.contains(kLookedKey);
}

}  // namespace

project::SnapshotPtr withRefutations(const DoubtMaterial& material) {
    std::shared_ptr<project::Snapshot> noted;
    for (const auto& [id, opinion] : material.opinions) {
        const auto& now = noted ? *noted : *material.snapshot;
        const auto* shot = opinion->clockRefuted.empty() ? nullptr : now.shots.find(id);
        const auto* clip = shot != nullptr ? now.clips.find(shot->clip) : nullptr;
        if (clip == nullptr || project::refutationOf(now, *clip)) {
            continue;
        }
        const auto value = project::refutationValue(now, *clip, id, opinion->clockRefuted);
        const auto key = project::refutationKey(clip->id);
        noted = noted ? noted : std::make_shared<project::Snapshot>(*material.snapshot);
        noted->settings[key] = value;
    }
    return noted ? project::SnapshotPtr{noted} : material.snapshot;
}

Result<project::SnapshotPtr> withRefutations(const project::Store& store) {
    if (wasLookedThrough(*store.snapshot())) {
        return store.snapshot();
    }
    BOOST_OUTCOME_TRY(material, gatherAll(store));
    return withRefutations(material);
}

Result<void> learnRefutations(project::Store& store) {
    if (wasLookedThrough(*store.snapshot()) || !store.readOnlyReason().empty()) {
        return ok();
    }
    BOOST_OUTCOME_TRY(material, gatherAll(store));
    BOOST_OUTCOME_TRY(noteRefutations(store, material));
    return store.noteSetting(kLookedKey, "yes");
}

}  // namespace core::doubts
