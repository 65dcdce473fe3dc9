#include "core/findings/settings.h"

#include <fmt/format.h>

#include <cmath>
#include <sstream>

#include "core/base/number.h"
#include "core/base/text_table.h"
#include "core/base/words.h"

namespace core::findings {
namespace {

// More than any struck ball spins: beyond it is a slip of the pen.
constexpr double kMostStepRpm = 1e5;

std::string storedText(const project::Snapshot& snapshot, std::string_view key) {
    const auto at = snapshot.settings.find(std::string{key});
    return at == snapshot.settings.end() ? std::string{} : at->second;
}

}  // namespace

Result<std::optional<Rpm>> parseStep(std::string_view text) {
    std::string_view number = withoutOuterSpace(text);
    if (number.ends_with("rpm")) {
        number = withoutOuterSpace(number.substr(0, number.size() - 3));
    }
    if (number.empty()) {
        return std::optional<Rpm>{};
    }
    BOOST_OUTCOME_TRY(value, numberFrom(number));
    if (!(value > 0.0)) {
        return fail(
            ErrorCode::InvalidInput,
            said("The noticeable step must be greater than zero. Empty the field for none."));
    }
    if (value > kMostStepRpm) {
        return fail(ErrorCode::InvalidInput,
                    said("{:g} rpm is more than any ball spins. Enter the noticeable step "
                         "in rpm, for example 300.",
                         value));
    }
    return std::optional{Rpm{value}};
}

Result<std::optional<Rpm>> noticeableStep(const project::Snapshot& snapshot) {
    const std::string text = storedText(snapshot, kStepKey);
    auto step = parseStep(text);
    if (!step) {
        return fail(ErrorCode::Damaged,
                    said("The noticeable step kept in the project cannot be used. {}",
                         step.error().message));
    }
    return step;
}

Result<void> setNoticeableStep(project::Store& store, std::optional<Rpm> step) {
    if (step && !(std::isfinite(step->rpm) && step->rpm > 0.0)) {
        return fail(ErrorCode::InvalidInput,
                    said("The noticeable step must be greater than zero."));
    }
    return store.setSetting(std::string{kStepKey}, step ? fmt::format("{}", step->rpm) : "");
}

Result<Bands> bands(const project::Snapshot& snapshot) {
    auto made = Bands::parse(storedText(snapshot, kBandsKey));
    if (!made) {
        return fail(ErrorCode::Damaged,
                    said("The bands kept in the project cannot be used. {}", made.error().message));
    }
    return made;
}

Result<void> setBands(project::Store& store, const Bands& bands) {
    return store.setSetting(std::string{kBandsKey}, bands.text());
}

Looks looks(const project::Snapshot& snapshot) {
    Looks looks;
    std::istringstream stored{storedText(snapshot, kLooksKey)};
    if (!(stored >> looks.count >> looks.fingerprint)) {
        return {};
    }
    return looks;
}

Looks nextLook(const Looks& before, std::uint64_t fingerprint) {
    return before.count > 0 && before.fingerprint == fingerprint
               ? before
               : Looks{before.count + 1, fingerprint};
}

Result<void> keepLook(project::Store& store, const Looks& look) {
    if (!store.readOnlyReason().empty()) {
        return ok();  // a look at a project that another program writes is not counted
    }
    return store.noteSetting(std::string{kLooksKey},
                             fmt::format("{} {}", look.count, look.fingerprint));
}

}  // namespace core::findings
