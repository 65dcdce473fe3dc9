#include "core/publish/material.h"

#include "core/base/version.h"
#include "core/doubts/refutations.h"
#include "core/project/clock_refutation.h"

#include <algorithm>
#include <set>
#include <utility>
#include <vector>

namespace core::publish {

using project::Snapshot;

const project::Shot* medianShot(const Snapshot& snapshot, project::ImplementId implement) {
    std::vector<std::pair<double, const project::Shot*>> kept;
    for (const auto& shot : snapshot.shots) {
        const auto* cell = shot.cell ? snapshot.cells.find(*shot.cell) : nullptr;
        if (cell != nullptr && cell->implement == implement && isCounted(snapshot, shot)) {
            kept.emplace_back(snapshot.readings.find(*shot.counting)->rate.value.rpm, &shot);
        }
    }
    if (kept.empty()) {
        return nullptr;
    }
    std::stable_sort(kept.begin(), kept.end(),
                     [](const auto& a, const auto& b) { return a.first < b.first; });
    return kept[(kept.size() - 1) / 2].second;
}

Result<Material> gather(const project::Store& store, Films films) {
    Material material;
    BOOST_OUTCOME_TRY(snapshot, doubts::withRefutations(store));
    material.snapshot = std::move(snapshot);
    material.projectFile = store.file();
    material.origin.title = store.file().stem().string();
    material.origin.revision = material.snapshot->revision;
    material.origin.program = programName();
    material.origin.credits = creditsOf(*material.snapshot);
    BOOST_OUTCOME_TRY(history, store.history());
    if (!history.empty()) {
        material.origin.lastChange = history.back().at;
    }
    material.history = std::move(history);
    std::set<project::ClipId> clips;
    if (films == Films::OneAShot) {
        for (const auto& shot : material.snapshot->shots) {
            if (isCounted(*material.snapshot, shot)) {
                clips.insert(shot.clip);
            }
        }
    }
    for (const auto& implement : material.snapshot->implements) {
        if (const auto* shot = medianShot(*material.snapshot, implement.id)) {
            clips.insert(shot->clip);
        }
    }
    for (const auto clip : clips) {
        BOOST_OUTCOME_TRY(frames, store.clipFrames(clip));
        material.frames.emplace(clip, frames);
    }
    return material;
}

}  // namespace core::publish
