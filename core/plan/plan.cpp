#include "core/plan/plan.h"

#include <algorithm>
#include <array>
#include <cmath>

#include "core/base/expects.h"
#include "core/base/text_table.h"
#include "core/base/words.h"

namespace core::plan {
namespace {

constexpr int kMinutesPerDay = 24 * 60;

Result<void> checkName(const std::string& name, std::string_view what) {
    if (!isUtf8Text(name)) {
        return fail(ErrorCode::InvalidInput,
                    said("The name of the {} is not UTF-8 text. Type it again.", saidText(what)));
    }
    if (name.empty() || withoutOuterSpace(name).size() != name.size()) {
        return fail(ErrorCode::InvalidInput,
                    said("The {} \"{}\" has no name, or space around it. Give it a name.",
                         saidText(what), name));
    }
    return ok();
}

Result<void> checkText(const std::string& text, std::string_view what) {
    if (!isUtf8Text(text)) {
        return fail(ErrorCode::InvalidInput,
                    said("The {} is not UTF-8 text. Type it again.", saidText(what)));
    }
    return ok();
}

Result<void> checkRange(int value, int low, int high, std::string_view what) {
    if (value < low || value > high) {
        return fail(ErrorCode::OutOfRange, said("The {} must be from {} to {}, not {}.",
                                                saidText(what), low, high, value));
    }
    return ok();
}

Result<void> checkPositive(const std::optional<double>& value, std::string_view what) {
    if (value && !std::isfinite(*value)) {
        return fail(ErrorCode::NotFinite, said("The {} is not a number.", saidText(what)));
    }
    if (value && *value <= 0.0) {
        return fail(ErrorCode::OutOfRange,
                    said("The {} must be greater than zero.", saidText(what)));
    }
    return ok();
}

auto thereTwice(std::string_view what, const std::string& name) {
    return fail(
        ErrorCode::InvalidInput,
        said("The {} {} is in the plan twice. Give each a name of its own.", saidText(what), name));
}

template <class Names>
Result<void> checkNames(const Names& names, std::string_view what) {
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
    BOOST_OUTCOME_TRY(checkName(implement.name, toSay("implement")));
    BOOST_OUTCOME_TRY(checkText(implement.condition, toSay("condition")));
    for (std::size_t other = 0; other < index; ++other) {
        if (plan.implements[other].name == implement.name &&
            plan.implements[other].condition == implement.condition) {
            return thereTwice(toSay("implement"),
                              implement.condition.empty()
                                  ? implement.name
                                  : implement.name + " (" + implement.condition + ")");
        }
    }
    for (const auto& [column, value] : implement.attributes) {
        if (std::find(plan.attributeNames.begin(), plan.attributeNames.end(), column) ==
            plan.attributeNames.end()) {
            return fail(ErrorCode::InvalidInput,
                        said("The implement {} has a value for {}, which is no column of the plan.",
                             implement.name, column));
        }
        BOOST_OUTCOME_TRY(checkText(value, toSay("attribute of an implement")));
    }
    return ok();
}

Result<void> checkNumbers(const Plan& plan) {
    BOOST_OUTCOME_TRY(checkRange(
        static_cast<int>(std::min<std::size_t>(plan.implements.size(), kMaxImplements + 1)), 0,
        kMaxImplements, toSay("number of implements")));
    BOOST_OUTCOME_TRY(
        checkRange(static_cast<int>(std::min<std::size_t>(plan.hitters.size(), kMaxHitters + 1)), 0,
                   kMaxHitters, toSay("number of hitters")));
    BOOST_OUTCOME_TRY(checkRange(plan.shotsPerCell, 1, kMaxShotsPerCell, toSay("shots per cell")));
    BOOST_OUTCOME_TRY(checkRange(plan.shotsPerVisit, 1, kMaxShotsPerCell, toSay("shots in a row")));
    BOOST_OUTCOME_TRY(checkRange(plan.controlShots, 1, kMaxShotsPerCell, toSay("control shots")));
    BOOST_OUTCOME_TRY(
        checkRange(plan.swingsBetweenRests, 1, kMaxPlannedShots, toSay("swings between rests")));
    BOOST_OUTCOME_TRY(checkRange(plan.restMinutes, 1, kMinutesPerDay, toSay("minutes of rest")));
    BOOST_OUTCOME_TRY(checkPositive(plan.assumedScatterRpm, toSay("assumed scatter")));
    BOOST_OUTCOME_TRY(checkPositive(plan.filming.captureFps, toSay("capture rate")));
    BOOST_OUTCOME_TRY(checkPositive(plan.filming.exposureSeconds, toSay("exposure")));
    BOOST_OUTCOME_TRY(checkPositive(plan.filming.expectedRpm, toSay("expected spin")));
    const auto cells = plan.implements.size() * plan.hitters.size();
    const auto control = plan.control ? 3U * static_cast<std::size_t>(plan.controlShots) : 0U;
    const auto shots =
        cells * static_cast<std::size_t>(plan.shotsPerCell) + control * plan.hitters.size();
    if (shots > static_cast<std::size_t>(kMaxPlannedShots)) {
        return fail(
            ErrorCode::OutOfRange,
            said("The plan comes to {} shots. More than {} are no filming day: plan several days.",
                 shots, kMaxPlannedShots));
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
    BOOST_OUTCOME_TRY(checkText(plan.session, toSay("name of the filming day")));
    BOOST_OUTCOME_TRY(checkText(plan.ball, toSay("description of the ball")));
    BOOST_OUTCOME_TRY(checkNames(plan.attributeNames, toSay("column")));
    BOOST_OUTCOME_TRY(checkNames(plan.hitters, toSay("hitter")));
    for (std::size_t i = 0; i < plan.implements.size(); ++i) {
        BOOST_OUTCOME_TRY(checkImplement(plan, i));
    }
    if (plan.control && *plan.control >= plan.implements.size()) {
        return fail(ErrorCode::OutOfRange, said("The control is no implement of the plan."));
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
