#include "core/project/snapshot.h"

#include <fmt/format.h>

#include <tuple>

#include "core/base/kept_words.h"
#include "core/base/words.h"

namespace core::project {
namespace {

/// Order of the film within a clip.
auto filmOrder(const Shot& shot) {
    return std::tuple{shot.clip, shot.strikeFrame.value_or(shot.firstFrame), shot.id};
}

void sortByFilm(std::vector<const Shot*>& shots) {
    std::sort(shots.begin(), shots.end(),
              [](const Shot* a, const Shot* b) { return filmOrder(*a) < filmOrder(*b); });
}

}  // namespace

Stroke strokeOf(const Session& session, const Shot& shot) noexcept {
    return shot.stroke.value_or(session.stroke);
}

bool isTally(const Clip& clip) noexcept {
    return clip.container == kTallyContainer;
}

std::vector<ClipRemark> allRemarks(const Clip& clip) {
    auto remarks = clip.remarks;
    remarks.insert(remarks.end(), clip.clockRemarks.begin(), clip.clockRemarks.end());
    for (ClipRemark& remark : remarks) {
        remark.message = saidKept(remark.message);
    }
    return remarks;
}

const plan::Plan& planOf(const Snapshot& snapshot) {
    static const plan::Plan kNothingPlanned;
    return snapshot.plans.isEmpty() ? kNothingPlanned : snapshot.plans.begin()->plan;
}

std::vector<const SecondReading*> waitingSecondReadings(const Snapshot& snapshot) {
    std::vector<const SecondReading*> waiting;
    for (const SecondReading& each : snapshot.secondReadings) {
        if (!each.reading) {
            waiting.push_back(&each);
        }
    }
    std::sort(waiting.begin(), waiting.end(), [](const auto* a, const auto* b) {
        return std::pair{a->position, a->id} < std::pair{b->position, b->id};
    });
    return waiting;
}

std::vector<const Shot*> shotsOfClip(const Snapshot& snapshot, ClipId clip) {
    std::vector<const Shot*> shots;
    for (const Shot& shot : snapshot.shots) {
        if (shot.clip == clip) {
            shots.push_back(&shot);
        }
    }
    sortByFilm(shots);
    return shots;
}

std::vector<const Shot*> shotsInOrder(const Snapshot& snapshot) {
    std::vector<const Shot*> shots;
    shots.reserve(snapshot.shots.size());
    for (const Shot& shot : snapshot.shots) {
        shots.push_back(&shot);
    }
    sortByFilm(shots);  // ids of clips rise in the order in which they were added
    return shots;
}

std::vector<const Reading*> readingsOfShot(const Snapshot& snapshot, ShotId shot) {
    std::vector<const Reading*> readings;
    for (const Reading& reading : snapshot.readings) {
        if (reading.shot == shot) {
            readings.push_back(&reading);
        }
    }
    return readings;
}

ReadingsByShot readingsByShot(const Snapshot& snapshot) {
    ReadingsByShot readings;
    for (const Reading& reading : snapshot.readings) {
        readings[reading.shot].push_back(&reading);
    }
    return readings;
}

std::string implementName(const Snapshot& snapshot, ImplementId id) {
    const Implement* implement = snapshot.implements.find(id);
    if (implement == nullptr) {
        return {};
    }
    const auto namesakes = std::count_if(
        snapshot.implements.begin(), snapshot.implements.end(),
        [implement](const Implement& other) { return other.name == implement->name; });
    return namesakes > 1 && !implement->condition.empty()
               ? fmt::format("{} ({})", implement->name, implement->condition)
               : implement->name;
}

std::string cellName(const Snapshot& snapshot, CellId id) {
    const Cell* cell = snapshot.cells.find(id);
    if (cell == nullptr) {
        return {};
    }
    const Hitter* hitter = snapshot.hitters.find(cell->hitter);
    return fmt::format("{} · {}", implementName(snapshot, cell->implement),
                       hitter != nullptr ? hitter->name : std::string{});
}

std::string clipName(const Snapshot& snapshot, ClipId id) {
    const Clip* clip = snapshot.clips.find(id);
    return clip != nullptr ? clip->path.substr(clip->path.rfind('/') + 1)
                           : said("clip {}", id.value);
}

std::string shotName(const Snapshot& snapshot, const Shot& shot) {
    const Clip* clip = snapshot.clips.find(shot.clip);
    const std::string name = clipName(snapshot, shot.clip);
    return clip != nullptr && isTally(*clip) ? said("shot {} of table {}", shot.ordinal, name)
                                             : said("shot {} of clip {}", shot.ordinal, name);
}

std::string shotNameToKeep(const Snapshot& snapshot, const Shot& shot) {
    const Clip* clip = snapshot.clips.find(shot.clip);
    const std::string name = clipName(snapshot, shot.clip);
    return clip != nullptr && isTally(*clip) ? toKeep("shot {} of table {:s}", shot.ordinal, name)
                                             : toKeep("shot {} of clip {:s}", shot.ordinal, name);
}

}  // namespace core::project
