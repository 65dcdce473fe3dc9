#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

#include "core/project/store.h"

namespace core::publish {

inline constexpr std::string_view kPublishedKey = "published";

/// What was published last. Kept in the project without a step of undo or a line of history: it is
/// no edit.
struct LastPublished {
    std::string on;               ///< "2026-05-16"
    std::uint64_t fingerprint{};  ///< of the findings (findings::Findings::fingerprint)
    std::string folder;           ///< as it was given

    friend bool operator==(const LastPublished&, const LastPublished&) = default;
};

/// Absent: never, or the kept text cannot be read.
[[nodiscard]] std::optional<LastPublished> lastPublished(const project::Snapshot& snapshot);
/// Nothing is kept of a project that can only be read. Errors: those of
/// project::Store::noteSetting().
Result<void> noteLastPublished(project::Store& store, const LastPublished& published);

}  // namespace core::publish
