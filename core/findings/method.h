#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "core/project/snapshot.h"

namespace core::findings {

/// How it was read: what the counting readings have in common, and what else of the project tells
/// how the findings came about. words::methodSentences() says it.
struct MethodFacts {
    /// What reading the kept shots cost, of those that were timed: a visit that was counted kept a
    /// reading of them.
    struct Effort {
        std::size_t shots{};
        double seconds{};
        double medianSeconds{};
        double medianPresses{};  ///< keys and clicks
        std::size_t hidden{};    ///< shots read with implement and hitter hidden
    };
    struct OverruledFlight {
        std::string clip{};
        std::string statement{};  ///< in kept words: what the flight says against the clock
        std::string why{};
    };

    std::size_t marks{};                                  ///< shots read by marks
    std::size_t fits{};                                   ///< from the pictures
    std::map<spin::CountingHabit, std::size_t> counts{};  ///< whole frames, counted elsewhere
    std::set<std::string> readers{};
    std::set<std::string> versions{};
    bool hasView{};  ///< a reading has an uncertainty of the line of sight
    double leastClock{1.0};
    double mostClock{0.0};
    std::optional<Effort> effort{};
    plan::Plan plan{};
    std::size_t setAside{};
    std::vector<OverruledFlight> overruled{};

    [[nodiscard]] std::size_t kept() const;
};

MethodFacts methodOf(const project::Snapshot& snapshot);

}  // namespace core::findings
