#include "core/doubts/second_look.h"

#include <fmt/format.h>

#include <algorithm>
#include <cstdint>
#include <set>
#include <sstream>

#include "core/project/clock_refutation.h"

namespace core::doubts {
namespace {

std::set<std::string> wordsOf(const std::string& text) {
    std::istringstream words{text};
    std::set<std::string> seen;
    for (std::string word; words >> word;) {
        seen.insert(word);
    }
    return seen;
}

/// What the doubts of a cell rest on: another once a shot counts no more, or by another reading.
std::string basisOf(const project::Snapshot& snapshot, project::CellId cell) {
    std::size_t kept = 0;
    std::int64_t sum = 0;
    for (const auto& shot : snapshot.shots) {
        if (shot.cell == cell && project::isCounted(snapshot, shot)) {
            ++kept;
            sum += shot.counting->value;
        }
    }
    return fmt::format("{} {}\n", kept, sum);
}

/// Reasons of the cell that were looked at as it is now.
std::set<std::string> seenOf(const project::Snapshot& snapshot, project::CellId cell) {
    const auto at = snapshot.settings.find(cellLookKey(cell));
    const std::string basis = basisOf(snapshot, cell);
    return at != snapshot.settings.end() && at->second.starts_with(basis)
               ? wordsOf(at->second.substr(basis.size()))
               : std::set<std::string>{};
}

std::set<std::string> seenOf(const project::Snapshot& snapshot, project::ShotId shot) {
    for (const auto& look : snapshot.secondLooks) {
        if (look.shot == shot) {
            return wordsOf(look.reasons);
        }
    }
    return {};
}

}  // namespace

bool wasLookedAt(const project::Snapshot& snapshot, const Doubted& doubted) {
    const auto seen = doubted.shot ? seenOf(snapshot, *doubted.shot)
                                   : seenOf(snapshot, doubted.cell.value_or(project::CellId{}));
    return std::all_of(doubted.doubts.begin(), doubted.doubts.end(), [&](const Doubt& doubt) {
        return seen.contains(std::string{reasonName(doubt.reason)});
    });
}

std::string cellLookKey(project::CellId cell) {
    return fmt::format("looked_at_cell_{}", cell.value);
}

std::string cellLookValue(const project::Snapshot& snapshot, project::CellId cell,
                          const Doubted& doubted) {
    auto seen = seenOf(snapshot, cell);
    seen.merge(wordsOf(doubted.reasonNames()));
    return fmt::format("{}{}", basisOf(snapshot, cell), fmt::join(seen, " "));
}

}  // namespace core::doubts
