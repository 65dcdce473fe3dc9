#include "core/evidence/prune.h"

#include <algorithm>
#include <chrono>
#include <regex>
#include <string>

#include "core/base/words.h"

namespace core::evidence {
namespace {

/// A day of the calendar, as ISO 8601 writes it.
bool isDate(const std::string& text) {
    static const std::regex form{R"((\d{4})-(\d{2})-(\d{2}))"};
    std::smatch parts;
    return std::regex_match(text, parts, form) &&
           std::chrono::year_month_day{
               std::chrono::year{std::stoi(parts[1])},
               std::chrono::month{static_cast<unsigned>(std::stoi(parts[2]))},
               std::chrono::day{static_cast<unsigned>(std::stoi(parts[3]))}}
               .ok();
}

}  // namespace

Result<std::vector<project::StoredSize>> chosenToPrune(const project::Store& store,
                                                       const PruneChoice& choice) {
    if (choice.madeBefore && !isDate(*choice.madeBefore)) {
        return fail(
            ErrorCode::InvalidInput,
            said("{} is no day of the calendar. Write it as 2026-05-03.", *choice.madeBefore));
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
