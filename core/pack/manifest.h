#pragma once

#include <cstdint>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/media/file/stretches.h"

namespace core::pack {

/// What a pack says of itself in its first entry. Private to core/pack.
struct Manifest {
    struct File {
        std::string path;  ///< relative, '/' between parts
        std::int64_t size{};
        std::string sha256;
        /// Where the bytes lie in the file once it is unpacked; empty: one after the other, all.
        std::vector<media::ByteRange> parts{};
        std::int64_t wholeSize{};  ///< of the unpacked file; only with parts
    };
    std::string project;
    std::vector<File> files;
};

inline constexpr std::string_view kManifestName = "manifest.json";

[[nodiscard]] std::string toJson(const Manifest& manifest);
/// Everything in it is checked. Errors: ForeignFile; NewerVersion; InvalidInput for a path that is
/// not allowed or stands twice.
Result<Manifest> manifestFrom(std::string_view json);

/// Whether a path is relative, stays below its folder, is plain text, and is none of the names that
/// lead a program to do something (SQLite's journals, locks).
[[nodiscard]] bool isSafePath(std::string_view path);

/// The name with all letters small, of every script: on some disks names of one such text are one.
[[nodiscard]] std::string caseless(const std::string& name);

}  // namespace core::pack
