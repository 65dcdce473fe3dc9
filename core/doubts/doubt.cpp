#include "core/doubts/doubt.h"

#include <algorithm>
#include <array>
#include <cmath>

namespace core::doubts {
namespace {

constexpr std::array<std::string_view, kReasonCount> kNames{
    "marked",         "clock_refuted",   "clock_unchecked", "clock_changed",  "miscount",
    "methods_differ", "readings_differ", "frames_dropped",  "outlier",        "straggler",
    "not_confirmed",  "not_unique",      "curvature",       "alias",          "stroboscope",
    "blur",           "wide_interval",   "ball_speed",      "hitters_differ", "scatter_differs",
};

}  // namespace

std::string_view reasonName(Reason reason) noexcept {
    return kNames[static_cast<std::size_t>(reason)];
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
