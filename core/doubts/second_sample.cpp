#include "core/doubts/second_sample.h"

#include "core/base/words.h"
#include "core/plan/random_order.h"

namespace core::doubts {
namespace {

std::vector<project::ShotId> keptShots(const project::Snapshot& snapshot) {
    std::vector<project::ShotId> kept;
    for (const project::Shot* shot : project::shotsInOrder(snapshot)) {
        const project::Clip* clip = snapshot.clips.find(shot->clip);
        if (shot->standing == project::ShotStanding::Kept && clip != nullptr &&
            !project::isTally(*clip)) {
            kept.push_back(shot->id);
        }
    }
    return kept;
}

}  // namespace

std::size_t shotsToSample(const project::Snapshot& snapshot) {
    return keptShots(snapshot).size();
}

Result<std::vector<project::ShotId>> drawSecondSample(const project::Snapshot& snapshot,
                                                      std::size_t count, std::uint64_t seed) {
    auto shots = keptShots(snapshot);
    if (shots.empty() || count == 0) {
        return fail(ErrorCode::InvalidInput,
                    shots.empty()
                        ? said("No shot is kept yet: there is nothing to read a second time.")
                        : said("Say how many shots are to be read again."));
    }
    plan::RandomOrder{seed}.shuffle(shots);
    shots.resize(std::min(shots.size(), count));
    return shots;
}

}  // namespace core::doubts
