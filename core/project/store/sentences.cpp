#include "core/project/store/sentences.h"

#include <fmt/format.h>
#include <fmt/ranges.h>

#include <array>
#include <set>

#include "core/base/kept_words.h"

namespace core::project {
namespace {

[[maybe_unused]] constexpr std::array kOfEarlierVersions{
    wasKept("Added the session {:s}."),
    wasKept("Changed the session {:s}."),
    wasKept("Dropped {}."),
    wasKept("Let the reading {} by nobody named count for {}."),
    wasKept("Let the reading {} by {:s} count for {}."),
    wasKept("Opened {} again."),
    wasKept("Took the assignment of {} away."),
    wasKept("Took the note of {} away.")};

std::string withTurns(const std::string& text, std::optional<int> turns) {
    return turns ? toKeep("{} ({})", text, countToKeep(*turns, "turn", "turns")) : text;
}

std::string textOf(const spin::ReturnMark& mark) {
    if (mark.kind == spin::ReturnMark::Kind::Nearest) {
        return withTurns(toKeep("return at frame {}", mark.frame.value), mark.turns);
    }
    const std::string text =
        mark.fraction
            ? toKeep("return between frames {} and {} at {:.2f}", mark.frame.value,
                     mark.frameAfter.value, mark.fraction->value)
            : toKeep("return between frames {} and {}", mark.frame.value, mark.frameAfter.value);
    return withTurns(text, mark.turns);
}

std::string textOf(const spin::AngleMark& mark) {
    return withTurns(toKeep("angle {:.1f}° in frame {}", toDegrees(mark.angle), mark.frame.value),
                     mark.turns);
}

/// Adds what is in one list and not in the other.
template <class Mark>
void tellDifference(const std::vector<Mark>& before, const std::vector<Mark>& after,
                    std::vector<std::string>& told) {
    const auto isIn = [](const std::vector<Mark>& marks, const Mark& mark) {
        return std::find(marks.begin(), marks.end(), mark) != marks.end();
    };
    for (const Mark& mark : after) {
        if (!isIn(before, mark)) {
            told.push_back(toKeep("{} added", textOf(mark)));
        }
    }
    for (const Mark& mark : before) {
        if (!isIn(after, mark)) {
            told.push_back(toKeep("{} removed", textOf(mark)));
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

/// What one list has and the other has not; empty for nothing.
std::string namesAdded(const std::vector<std::string>& from, const std::vector<std::string>& to) {
    std::vector<std::string> names;
    std::copy_if(to.begin(), to.end(), std::back_inserter(names), [&from](const auto& name) {
        return std::find(from.begin(), from.end(), name) == from.end();
    });
    return fmt::format("{}", fmt::join(names, ", "));
}

}  // namespace

std::string planSentence(const plan::Plan& before, const plan::Plan& after) {
    std::vector<std::string> told;
    const auto had = implementLabels(before);
    const auto has = implementLabels(after);
    if (const auto names = namesAdded(had, has); !names.empty()) {
        told.push_back(toKeep("{} added", names));
    }
    if (const auto names = namesAdded(has, had); !names.empty()) {
        told.push_back(toKeep("{} removed", names));
    }
    if (const auto names = namesAdded(before.hitters, after.hitters); !names.empty()) {
        told.push_back(toKeep("{:s} added as hitter", names));
    }
    if (const auto names = namesAdded(after.hitters, before.hitters); !names.empty()) {
        told.push_back(toKeep("{:s} removed as hitter", names));
    }
    if (before.shotsPerCell != after.shotsPerCell) {
        told.push_back(
            toKeep("shots per cell {}, before {}", after.shotsPerCell, before.shotsPerCell));
    }
    if (before.shotsPerVisit != after.shotsPerVisit) {
        told.push_back(
            toKeep("shots in a row {}, before {}", after.shotsPerVisit, before.shotsPerVisit));
    }
    if (before.order != after.order || before.seed != after.seed) {
        told.push_back(toKeep("order {}, seed {}", orderKindName(after.order), after.seed));
    }
    if (told.empty()) {
        told.push_back(toKeep("facts of the implements, the ball, the rests or the camera"));
    }
    return toKeep("Changed the plan: {}.", fmt::format("{}", fmt::join(told, "; ")));
}

std::string marksSentence(const Snapshot& snapshot, const Shot& shot, const spin::MarkSet& marks) {
    const spin::MarkSet& before = shot.marks;
    if (marks == spin::MarkSet{}) {
        return toKeep("Cleared the marks of {}.", shotNameToKeep(snapshot, shot));
    }
    std::vector<std::string> told;
    if (marks.start != before.start) {
        told.push_back(marks.start ? toKeep("start at frame {}", marks.start->frame.value)
                                   : toKeep("start removed"));
    }
    tellDifference(before.returns, marks.returns, told);
    tellDifference(before.angles, marks.angles, told);
    if (told.empty()) {
        told.push_back(toKeep("marks in another order"));
    }
    return toKeep("Marked {}: {}.", shotNameToKeep(snapshot, shot),
                  fmt::format("{}", fmt::join(told, "; ")));
}

std::string shotsName(const Snapshot& snapshot, const std::vector<Shot>& shots) {
    if (shots.size() == 1) {
        return shotNameToKeep(snapshot, shots.front());
    }
    std::set<ClipId> clips;
    for (const Shot& shot : shots) {
        clips.insert(shot.clip);
    }
    return clips.size() == 1
               ? toKeep("{:d} shots of clip {:s}", shots.size(), clipName(snapshot, *clips.begin()))
               : toKeep("{:d} shots of {:d} clips", shots.size(), clips.size());
}

std::string readingText(const Reading& reading) {
    return toKeep("{:.1f} rpm ({:.1f} to {:.1f})", reading.rate.value.rpm,
                  reading.interval95.low.rpm, reading.interval95.high.rpm);
}

std::string strokeText(Stroke stroke) {
    switch (stroke) {
        case Stroke::Topspin:
            return toKeep("topspin");
        case Stroke::Backspin:
            return toKeep("backspin");
        case Stroke::NotKnown:
            break;
    }
    return toKeep("not known");
}

std::string clockText(const std::optional<ClockSetting>& clock) {
    if (!clock) {
        return toKeep("not settled");
    }
    switch (clock->kind) {
        case timebase::ClockKind::Stamped:
            return toKeep("stamped");
        case timebase::ClockKind::Stretched:
            return toKeep("stretched {}", clock->stretch.toString());
        case timebase::ClockKind::Counted:
            break;
    }
    return toKeep("counted at {} per second",
                  clock->counted ? clock->counted->fps.toString() : std::string{"?"});
}

}  // namespace core::project
