#include "core/plan/plan.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/expects.h"
#include "core/base/text_table.h"

namespace core::plan {
namespace {

constexpr int kMinutesPerDay = 24 * 60;

Result<void> checkName(const std::string& name, const char* what) {
    if (!isUtf8Text(name)) {
        return fail(ErrorCode::InvalidInput,
                    std::string{"The name of the "} + what + " is not UTF-8 text. Type it again.");
    }
    if (name.empty() || withoutOuterSpace(name).size() != name.size()) {
        return fail(ErrorCode::InvalidInput,
                    std::string{"The "} + what + " \"" + name +
                        "\" has no name, or space around it. Give it a name.");
    }
    return ok();
}

Result<void> checkText(const std::string& text, const char* what) {
    if (!isUtf8Text(text)) {
        return fail(ErrorCode::InvalidInput,
                    std::string{"The "} + what + " is not UTF-8 text. Type it again.");
    }
    return ok();
}

Result<void> checkRange(int value, int low, int high, const char* what) {
    if (value < low || value > high) {
        return fail(ErrorCode::OutOfRange, std::string{"The "} + what + " must be from " +
                                               std::to_string(low) + " to " + std::to_string(high) +
                                               ", not " + std::to_string(value) + ".");
    }
    return ok();
}

Result<void> checkPositive(const std::optional<double>& value, const char* what) {
    if (value && !std::isfinite(*value)) {
        return fail(ErrorCode::NotFinite, std::string{"The "} + what + " is not a number.");
    }
    if (value && *value <= 0.0) {
        return fail(ErrorCode::OutOfRange,
                    std::string{"The "} + what + " must be greater than zero.");
    }
    return ok();
}

auto thereTwice(const char* what, const std::string& name) {
    return fail(ErrorCode::InvalidInput, std::string{"The "} + what + " " + name +
                                             " is in the plan twice. Give each a name of its "
                                             "own.");
}

template <class Names>
Result<void> checkNames(const Names& names, const char* what) {
    for (std::size_t i = 0; i < names.size(); ++i) {
        BOOST_OUTCOME_TRY(checkName(names[i], what));
        if (std::find(names.begin(), names.begin() + static_cast<std::ptrdiff_t>(i), names[i]) !=
            names.begin() + static_cast<std::ptrdiff_t>(i)) {
            return thereTwice(what, names[i]);
        }
    }
    return ok();
}

Result<void> checkImplement(const Plan& plan, std::size_t index) {
    const PlannedImplement& implement = plan.implements[index];
    BOOST_OUTCOME_TRY(checkName(implement.name, "implement"));
    BOOST_OUTCOME_TRY(checkText(implement.condition, "condition"));
    for (std::size_t other = 0; other < index; ++other) {
        if (plan.implements[other].name == implement.name &&
            plan.implements[other].condition == implement.condition) {
            return thereTwice("implement", implement.condition.empty()
                                               ? implement.name
                                               : implement.name + " (" + implement.condition + ")");
        }
    }
    for (const auto& [column, value] : implement.attributes) {
        if (std::find(plan.attributeNames.begin(), plan.attributeNames.end(), column) ==
            plan.attributeNames.end()) {
            return fail(ErrorCode::InvalidInput, "The implement " + implement.name +
                                                     " has a value for " + column +
                                                     ", which is no column of the plan.");
        }
        BOOST_OUTCOME_TRY(checkText(value, "attribute of an implement"));
    }
    return ok();
}

Result<void> checkNumbers(const Plan& plan) {
    BOOST_OUTCOME_TRY(checkRange(
        static_cast<int>(std::min<std::size_t>(plan.implements.size(), kMaxImplements + 1)), 0,
        kMaxImplements, "number of implements"));
    BOOST_OUTCOME_TRY(
        checkRange(static_cast<int>(std::min<std::size_t>(plan.hitters.size(), kMaxHitters + 1)), 0,
                   kMaxHitters, "number of hitters"));
    BOOST_OUTCOME_TRY(checkRange(plan.shotsPerCell, 1, kMaxShotsPerCell, "shots per cell"));
    BOOST_OUTCOME_TRY(checkRange(plan.shotsPerVisit, 1, kMaxShotsPerCell, "shots in a row"));
    BOOST_OUTCOME_TRY(checkRange(plan.controlShots, 1, kMaxShotsPerCell, "control shots"));
    BOOST_OUTCOME_TRY(
        checkRange(plan.swingsBetweenRests, 1, kMaxPlannedShots, "swings between rests"));
    BOOST_OUTCOME_TRY(checkRange(plan.restMinutes, 1, kMinutesPerDay, "minutes of rest"));
    BOOST_OUTCOME_TRY(checkPositive(plan.assumedScatterRpm, "assumed scatter"));
    BOOST_OUTCOME_TRY(checkPositive(plan.filming.captureFps, "capture rate"));
    BOOST_OUTCOME_TRY(checkPositive(plan.filming.exposureSeconds, "exposure"));
    BOOST_OUTCOME_TRY(checkPositive(plan.filming.expectedRpm, "expected spin"));
    const auto cells = plan.implements.size() * plan.hitters.size();
    const auto control = plan.control ? 3U * static_cast<std::size_t>(plan.controlShots) : 0U;
    const auto shots =
        cells * static_cast<std::size_t>(plan.shotsPerCell) + control * plan.hitters.size();
    if (shots > static_cast<std::size_t>(kMaxPlannedShots)) {
        return fail(ErrorCode::OutOfRange, "The plan comes to " + std::to_string(shots) +
                                               " shots. More than " +
                                               std::to_string(kMaxPlannedShots) +
                                               " are no filming day: plan several days.");
    }
    return ok();
}

}  // namespace

std::string_view orderKindName(OrderKind kind) noexcept {
    constexpr std::array<std::string_view, 4> kNames{"random", "blocked", "latin_square",
                                                     "williams"};
    return kNames[static_cast<std::size_t>(kind)];
}

Result<void> checkPlan(const Plan& plan) {
    BOOST_OUTCOME_TRY(checkNumbers(plan));
    BOOST_OUTCOME_TRY(checkText(plan.session, "name of the session"));
    BOOST_OUTCOME_TRY(checkText(plan.ball, "description of the ball"));
    BOOST_OUTCOME_TRY(checkNames(plan.attributeNames, "column"));
    BOOST_OUTCOME_TRY(checkNames(plan.hitters, "hitter"));
    for (std::size_t i = 0; i < plan.implements.size(); ++i) {
        BOOST_OUTCOME_TRY(checkImplement(plan, i));
    }
    if (plan.control && *plan.control >= plan.implements.size()) {
        return fail(ErrorCode::OutOfRange, "The control is no implement of the plan.");
    }
    return ok();
}

std::string implementLabel(const Plan& plan, std::size_t implement) {
    CORE_EXPECTS(implement < plan.implements.size());
    const PlannedImplement& chosen = plan.implements[implement];
    const auto namesakes = std::count_if(
        plan.implements.begin(), plan.implements.end(),
        [&chosen](const PlannedImplement& other) { return other.name == chosen.name; });
    return namesakes > 1 && !chosen.condition.empty() ? chosen.name + " (" + chosen.condition + ")"
                                                      : chosen.name;
}

}  // namespace core::plan
