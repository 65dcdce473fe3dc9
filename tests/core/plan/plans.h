#pragma once

#include "core/plan/plan.h"

namespace tests::plan {

/// An invented plan: implements "face 1", "face 2" …, hitters "A", "B" …
inline core::plan::Plan planOf(std::size_t implements, std::size_t hitters) {
    core::plan::Plan plan;
    plan.session = "Bench day";
    for (std::size_t i = 1; i <= implements; ++i) {
        plan.implements.push_back({"face " + std::to_string(i), "new", {}});
    }
    for (std::size_t i = 0; i < hitters; ++i) {
        plan.hitters.emplace_back(1, static_cast<char>('A' + static_cast<int>(i)));
    }
    return plan;
}

}  // namespace tests::plan
