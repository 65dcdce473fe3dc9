#include "core/doubts/doubt.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/words.h"

namespace core::doubts {
namespace {

struct Words {
    std::string_view name;
    std::string_view words;
};

constexpr std::array<Words, kReasonCount> kWords{{
    {"marked", toSay("marked as doubtful")},
    {"clock_refuted", toSay("flight does not fit the capture rate")},
    {"clock_unchecked", toSay("capture rate not checked")},
    {"clock_changed", toSay("read with another capture rate")},
    {"miscount", toSay("turns miscounted")},
    {"methods_differ", toSay("marks and pictures differ")},
    {"readings_differ", toSay("repeated reading differs")},
    {"frames_dropped", toSay("frames missing inside")},
    {"outlier", toSay("outlier in its cell")},
    {"straggler", toSay("straggler in its cell")},
    {"not_confirmed", toSay("pictures do not confirm the marks")},
    {"not_unique", toSay("another rate fits nearly as well")},
    {"curvature", toSay("no steady turning")},
    {"alias", toSay("few frames a turn")},
    {"stroboscope", toSay("whole number of frames a turn")},
    {"blur", toSay("blurred mark")},
    {"wide_interval", toSay("interval wide for its cell")},
    {"ball_speed", toSay("unusual ball speed")},
    {"hitters_differ", toSay("hitters disagree on the implement")},
    {"scatter_differs", toSay("scatter unlike the other cells")},
}};

}  // namespace

std::string_view reasonName(Reason reason) noexcept {
    return kWords[static_cast<std::size_t>(reason)].name;
}

std::string reasonWords(Reason reason) {
    return saidText(kWords[static_cast<std::size_t>(reason)].words);
}

double Doubt::severity() const noexcept {
    constexpr double kMostWithinGrade = 0.999;
    return static_cast<double>(grade) + kMostWithinGrade * strength / (1.0 + strength);
}

bool Doubted::has(Reason reason) const noexcept {
    return std::any_of(doubts.begin(), doubts.end(),
                       [reason](const Doubt& doubt) { return doubt.reason == reason; });
}

std::string Doubted::reasonNames() const {
    std::vector<std::string_view> names;
    for (const Doubt& doubt : doubts) {
        names.push_back(reasonName(doubt.reason));
    }
    std::sort(names.begin(), names.end());
    names.erase(std::unique(names.begin(), names.end()), names.end());
    std::string joined;
    for (const auto name : names) {
        joined += (joined.empty() ? "" : " ") + std::string{name};
    }
    return joined;
}

}  // namespace core::doubts
