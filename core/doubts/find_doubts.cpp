#include "core/doubts/find_doubts.h"

#include <algorithm>

#include "core/doubts/rules_of_groups.h"
#include "core/doubts/rules_of_readings.h"
#include "core/doubts/second_look.h"

namespace core::doubts {
namespace {

/// Not from a table of frame counts, which has no pictures.
bool isFilmed(const project::Snapshot& snapshot, const project::Shot& shot) {
    const auto* clip = snapshot.clips.find(shot.clip);
    return clip != nullptr && !project::isTally(*clip);
}

void sortWorstFirst(std::vector<Doubt>& doubts) {
    std::stable_sort(doubts.begin(), doubts.end(),
                     [](const Doubt& a, const Doubt& b) { return a.severity() > b.severity(); });
}

void append(std::vector<Doubt>& doubts, std::vector<Doubt> more) {
    std::move(more.begin(), more.end(), std::back_inserter(doubts));
}

}  // namespace

std::size_t Doubts::unsettled() const noexcept {
    return static_cast<std::size_t>(std::count_if(
        items.begin(), items.end(), [](const auto& item) { return !item.isSettled; }));
}

Doubts findDoubts(const DoubtMaterial& material, const findings::Findings& findings) {
    const project::Snapshot& snapshot = *material.snapshot;
    Doubts doubts;
    doubts.revision = snapshot.revision;
    for (auto& cell : doubtsOfCells(findings)) {
        cell.isSettled = wasLookedAt(snapshot, cell);
        doubts.items.push_back(std::move(cell));
    }
    auto ofGroups = doubtsOfShotsInCells(material, findings);
    const auto readings = project::readingsByShot(snapshot);
    for (const project::Shot* shot : project::shotsInOrder(snapshot)) {
        if (shot->standing == project::ShotStanding::SetAside) {
            continue;
        }
        Doubted doubted{shot->id, shot->cell, {}, false};
        if (shot->doubtful) {
            doubted.doubts.push_back({Reason::Marked, Grade::Grave, 0.0, {}});
        }
        if (shot->standing == project::ShotStanding::Kept) {
            ++doubts.keptShots;
            doubts.withoutPictures +=
                isFilmed(snapshot, *shot) && !material.opinions.contains(shot->id) ? 1U : 0U;
            append(doubted.doubts, doubtsOfReading(material, readings, *shot));
            append(doubted.doubts, std::move(ofGroups[shot->id]));
        }
        if (!doubted.doubts.empty()) {
            sortWorstFirst(doubted.doubts);
            doubted.isSettled = !shot->doubtful && wasLookedAt(snapshot, doubted);
            doubts.items.push_back(std::move(doubted));
        }
    }
    std::stable_sort(
        doubts.items.begin(), doubts.items.end(), [](const Doubted& a, const Doubted& b) {
            return a.isSettled != b.isSettled ? b.isSettled : a.severity() > b.severity();
        });
    return doubts;
}

}  // namespace core::doubts
