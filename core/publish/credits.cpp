#include "core/publish/credits.h"

#include <array>
#include <utility>

#include "core/base/text_table.h"

namespace core::publish {
namespace {

/// Keys of the project's settings (FORMAT.md, R10).
constexpr std::array<std::pair<const char*, std::string Credits::*>, 3> kCreditKeys{
    {{"publish_author", &Credits::author},
     {"publish_licence", &Credits::licence},
     {"publish_cite_as", &Credits::citeAs}}};

}  // namespace

Credits creditsOf(const project::Snapshot& snapshot) {
    Credits credits;
    for (const auto& [key, member] : kCreditKeys) {
        const auto at = snapshot.settings.find(key);
        credits.*member = at == snapshot.settings.end() ? std::string{} : at->second;
    }
    return credits;
}

Result<void> keepCredits(project::Store& store, const Credits& credits) {
    const Credits kept = creditsOf(*store.snapshot());
    for (const auto& [key, member] : kCreditKeys) {
        const std::string text{withoutOuterSpace(credits.*member)};
        if (text != kept.*member) {
            BOOST_OUTCOME_TRY(store.setSetting(key, text));
        }
    }
    return ok();
}

}  // namespace core::publish
