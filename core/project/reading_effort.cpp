#include "core/project/reading_effort.h"

#include <set>

#include "core/project/snapshot.h"

namespace core::project {

std::map<ShotId, ShotEffort> effortByShot(const Snapshot& snapshot) {
    std::map<ShotId, ShotEffort> efforts;
    std::set<ShotId> seenNamed;
    for (const ReadingEffort& visit : snapshot.efforts) {  // by id: in the order of the visits
        ShotEffort& effort = efforts[visit.shot];
        effort.keys += visit.keys;
        effort.clicks += visit.clicks;
        effort.activeSeconds += visit.activeSeconds;
        if (!visit.namesHidden) {
            seenNamed.insert(visit.shot);
        }
        if (visit.outcome == VisitOutcome::Kept) {
            effort.namesHidden = !seenNamed.contains(visit.shot);
        }
    }
    return efforts;
}

}  // namespace core::project
