#include "core/project/store/sentences.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <set>

#include "core/base/words.h"

namespace core::project {
namespace {

std::string turnsText(std::optional<int> turns) {
    return turns ? fmt::format(" ({})", counted(*turns, "turn", "turns")) : std::string{};
}

std::string textOf(const spin::ReturnMark& mark) {
    if (mark.kind == spin::ReturnMark::Kind::Nearest) {
        return fmt::format("return at frame {}{}", mark.frame.value, turnsText(mark.turns));
    }
    const std::string fraction =
        mark.fraction ? fmt::format(" at {:.2f}", mark.fraction->value) : std::string{};
    return fmt::format("return between frames {} and {}{}{}", mark.frame.value,
                       mark.frameAfter.value, fraction, turnsText(mark.turns));
}

std::string textOf(const spin::AngleMark& mark) {
    return fmt::format("angle {:.1f}° in frame {}{}", toDegrees(mark.angle), mark.frame.value,
                       turnsText(mark.turns));
}

/// Adds what is in one list and not in the other.
template <class Mark>
void tellDifference(const std::vector<Mark>& from, const std::vector<Mark>& to, const char* how,
                    std::vector<std::string>& told) {
    for (const Mark& mark : to) {
        if (std::find(from.begin(), from.end(), mark) == from.end()) {
            told.push_back(fmt::format("{} {}", textOf(mark), how));
        }
    }
}

std::vector<std::string> implementLabels(const plan::Plan& plan) {
    std::vector<std::string> labels;
    for (std::size_t i = 0; i < plan.implements.size(); ++i) {
        labels.push_back(implementLabel(plan, i));
    }
    return labels;
}

/// What one list has and the other has not, as a part of a sentence.
void tellNames(const std::vector<std::string>& from, const std::vector<std::string>& to,
               const char* how, std::vector<std::string>& told) {
    std::vector<std::string> names;
    std::copy_if(to.begin(), to.end(), std::back_inserter(names), [&from](const auto& name) {
        return std::find(from.begin(), from.end(), name) == from.end();
    });
    if (!names.empty()) {
        told.push_back(fmt::format("{} {}", fmt::join(names, ", "), how));
    }
}

void tellNumber(int before, int after, const char* what, std::vector<std::string>& told) {
    if (before != after) {
        told.push_back(fmt::format("{} {}, before {}", what, after, before));
    }
}

}  // namespace

std::string planSentence(const plan::Plan& before, const plan::Plan& after) {
    std::vector<std::string> told;
    tellNames(implementLabels(before), implementLabels(after), "added", told);
    tellNames(implementLabels(after), implementLabels(before), "removed", told);
    tellNames(before.hitters, after.hitters, "added as hitter", told);
    tellNames(after.hitters, before.hitters, "removed as hitter", told);
    tellNumber(before.shotsPerCell, after.shotsPerCell, "shots per cell", told);
    tellNumber(before.shotsPerVisit, after.shotsPerVisit, "shots in a row", told);
    if (before.order != after.order || before.seed != after.seed) {
        told.push_back(fmt::format("order {}, seed {}", orderKindName(after.order), after.seed));
    }
    if (told.empty()) {
        told.emplace_back("facts of the implements, the ball, the rests or the camera");
    }
    return fmt::format("Changed the plan: {}.", fmt::join(told, "; "));
}

std::string marksSentence(const Snapshot& snapshot, const Shot& shot, const spin::MarkSet& marks) {
    const spin::MarkSet& before = shot.marks;
    if (marks == spin::MarkSet{}) {
        return fmt::format("Cleared the marks of {}.", shotName(snapshot, shot));
    }
    std::vector<std::string> told;
    if (marks.start != before.start) {
        told.push_back(marks.start ? fmt::format("start at frame {}", marks.start->frame.value)
                                   : std::string{"start removed"});
    }
    tellDifference(before.returns, marks.returns, "added", told);
    tellDifference(marks.returns, before.returns, "removed", told);
    tellDifference(before.angles, marks.angles, "added", told);
    tellDifference(marks.angles, before.angles, "removed", told);
    if (told.empty()) {
        told.emplace_back("marks in another order");
    }
    return fmt::format("Marked {}: {}.", shotName(snapshot, shot), fmt::join(told, "; "));
}

std::string shotsName(const Snapshot& snapshot, const std::vector<Shot>& shots) {
    if (shots.size() == 1) {
        return shotName(snapshot, shots.front());
    }
    std::set<ClipId> clips;
    for (const Shot& shot : shots) {
        clips.insert(shot.clip);
    }
    return clips.size() == 1 ? fmt::format("{} of clip {}", counted(shots.size(), "shot", "shots"),
                                           clipName(snapshot, *clips.begin()))
                             : fmt::format("{} of {}", counted(shots.size(), "shot", "shots"),
                                           counted(clips.size(), "clip", "clips"));
}

std::string readingText(const Reading& reading) {
    return fmt::format("{:.1f} rpm ({:.1f} to {:.1f})", reading.rate.value.rpm,
                       reading.interval95.low.rpm, reading.interval95.high.rpm);
}

const char* strokeText(Stroke stroke) noexcept {
    switch (stroke) {
        case Stroke::Topspin:
            return "topspin";
        case Stroke::Backspin:
            return "backspin";
        case Stroke::NotKnown:
            break;
    }
    return "not known";
}

std::string clockText(const std::optional<ClockSetting>& clock) {
    if (!clock) {
        return "not settled";
    }
    switch (clock->kind) {
        case timebase::ClockKind::Stamped:
            return "stamped";
        case timebase::ClockKind::Stretched:
            return fmt::format("stretched {}", clock->stretch.toString());
        case timebase::ClockKind::Counted:
            break;
    }
    return fmt::format("counted at {} per second",
                       clock->counted ? clock->counted->fps.toString() : std::string{"?"});
}

}  // namespace core::project
