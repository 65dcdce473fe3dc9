#include "core/evidence/prune.h"

#include <fmt/format.h>

#include <algorithm>

namespace core::evidence {
namespace {

bool isDate(const std::string& text) {
    const auto isDigit = [](char c) { return c >= '0' && c <= '9'; };
    if (text.size() != 10 || text[4] != '-' || text[7] != '-') {
        return false;
    }
    return std::count_if(text.begin(), text.end(), isDigit) == 8;
}

}  // namespace

Result<std::vector<project::StoredSize>> chosenToPrune(const project::Store& store,
                                                       const PruneChoice& choice) {
    if (choice.madeBefore && !isDate(*choice.madeBefore)) {
        return fail(ErrorCode::InvalidInput,
                    fmt::format("{} is no date. Write it as 2026-05-03.", *choice.madeBefore));
    }
    BOOST_OUTCOME_TRY(sizes, store.pictureSizes());
    const auto snapshot = store.snapshot();
    std::erase_if(sizes, [&](const project::StoredSize& size) {
        const auto* shot = snapshot->shots.find(size.shot);
        const bool isSetAside =
            shot != nullptr && shot->standing == project::ShotStanding::SetAside;
        // Times of ISO 8601 in UTC sort as text.
        const bool isOld = choice.madeBefore && size.madeAt < *choice.madeBefore;
        const bool goes =
            choice.all || shot == nullptr || (choice.ofShotsSetAside && isSetAside) || isOld;
        return !goes;
    });
    return sizes;
}

Result<std::vector<project::StoredSize>> prune(project::Store& store, const PruneChoice& choice) {
    BOOST_OUTCOME_TRY(chosen, chosenToPrune(store, choice));
    std::vector<project::ShotId> shots;
    for (const auto& size : chosen) {
        shots.push_back(size.shot);
    }
    BOOST_OUTCOME_TRY(store.dropPictures(shots));
    return chosen;
}

}  // namespace core::evidence
