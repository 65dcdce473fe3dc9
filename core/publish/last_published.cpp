#include "core/publish/last_published.h"

#include <fmt/format.h>

#include <sstream>

namespace core::publish {

std::optional<LastPublished> lastPublished(const project::Snapshot& snapshot) {
    const auto setting = snapshot.settings.find(std::string{kPublishedKey});
    if (setting == snapshot.settings.end()) {
        return std::nullopt;
    }
    LastPublished last;
    std::istringstream stored{setting->second};
    if (!(stored >> last.on >> last.fingerprint) || stored.get() != ' ' ||
        !std::getline(stored, last.folder)) {
        return std::nullopt;
    }
    return last;
}

Result<void> noteLastPublished(project::Store& store, const LastPublished& published) {
    if (!store.readOnlyReason().empty()) {
        return ok();
    }
    return store.noteSetting(
        std::string{kPublishedKey},
        fmt::format("{} {} {}", published.on, published.fingerprint, published.folder));
}

}  // namespace core::publish
