#include "core/doubts/doubt.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace core::doubts {
namespace {

struct Words {
    std::string_view name;
    std::string_view words;
};

constexpr std::array<Words, kReasonCount> kWords{{
    {"marked", "marked as doubtful"},
    {"clock_refuted", "flight does not fit the capture rate"},
    {"clock_unchecked", "capture rate not checked"},
    {"clock_changed", "read with another capture rate"},
    {"miscount", "turns miscounted"},
    {"methods_differ", "marks and pictures differ"},
    {"readings_differ", "repeated reading differs"},
    {"frames_dropped", "frames missing inside"},
    {"outlier", "outlier in its cell"},
    {"straggler", "straggler in its cell"},
    {"not_confirmed", "pictures do not confirm the marks"},
    {"not_unique", "another rate fits nearly as well"},
    {"curvature", "no steady turning"},
    {"alias", "few frames a turn"},
    {"stroboscope", "whole number of frames a turn"},
    {"blur", "blurred mark"},
    {"wide_interval", "interval wide for its cell"},
    {"ball_speed", "unusual ball speed"},
    {"hitters_differ", "hitters disagree on the implement"},
    {"scatter_differs", "scatter unlike the other cells"},
}};

}  // namespace

std::string_view reasonName(Reason reason) noexcept {
    return kWords[static_cast<std::size_t>(reason)].name;
}

std::string_view reasonWords(Reason reason) noexcept {
    return kWords[static_cast<std::size_t>(reason)].words;
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
