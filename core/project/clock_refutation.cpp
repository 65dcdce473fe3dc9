#include "core/project/clock_refutation.h"

#include <fmt/format.h>

#include <charconv>

#include "core/project/marks_json.h"

namespace core::project {
namespace {

/// What a flight was held against. With another clock or ball it says nothing any more.
std::string basisOf(const Snapshot& snapshot, const Clip& clip) {
    const Session* day = snapshot.sessions.find(clip.session);
    return clip.clock && day != nullptr && day->ballDiameterMm
               ? fmt::format("{} {}", clockToJson(*clip.clock), *day->ballDiameterMm)
               : std::string{};
}

/// The value of a setting after its basis, where that is the present one.
std::optional<std::string> heldNow(const Snapshot& snapshot, const Clip& clip,
                                   const std::string& key) {
    const auto at = snapshot.settings.find(key);
    if (at == snapshot.settings.end() || at->second.empty()) {
        return std::nullopt;
    }
    const std::string start = basisOf(snapshot, clip) + '\n';
    return start.size() > 1 && at->second.starts_with(start)
               ? std::optional{at->second.substr(start.size())}
               : std::nullopt;
}

}  // namespace

std::string refutationKey(ClipId clip) {
    return fmt::format("flight_refutes_clock_of_clip_{}", clip.value);
}

std::string overruledKey(ClipId clip) {
    return fmt::format("flight_overruled_of_clip_{}", clip.value);
}

std::string refutationValue(const Snapshot& snapshot, const Clip& clip, ShotId shot,
                            const std::string& statement) {
    return fmt::format("{}\n{}\n{}", basisOf(snapshot, clip), shot.value, statement);
}

std::string overruledValue(const Snapshot& snapshot, const Clip& clip, const std::string& why) {
    return fmt::format("{}\n{}", basisOf(snapshot, clip), why);
}

std::optional<ClockRefutation> refutationOf(const Snapshot& snapshot, const Clip& clip) {
    const auto held = heldNow(snapshot, clip, refutationKey(clip.id));
    if (!held) {
        return std::nullopt;
    }
    const std::size_t end = held->find('\n');
    return ClockRefutation{end == std::string::npos ? *held : held->substr(end + 1),
                           heldNow(snapshot, clip, overruledKey(clip.id)).value_or(std::string{})};
}

bool isLeftOut(const Snapshot& snapshot, const Clip& clip) {
    const auto refutation = refutationOf(snapshot, clip);
    return refutation && refutation->overruled.empty();
}

bool isCounted(const Snapshot& snapshot, const Shot& shot) {
    const Clip* clip = snapshot.clips.find(shot.clip);
    return shot.standing == ShotStanding::Kept && shot.counting &&
           snapshot.readings.find(*shot.counting) != nullptr &&
           (clip == nullptr || !isLeftOut(snapshot, *clip));
}

std::optional<ShotId> refutingShot(const Snapshot& snapshot, const Clip& clip) {
    const auto held = heldNow(snapshot, clip, refutationKey(clip.id));
    ShotId shot;
    if (!held ||
        std::from_chars(held->data(), held->data() + held->size(), shot.value).ec != std::errc{}) {
        return std::nullopt;
    }
    return shot;
}

}  // namespace core::project
