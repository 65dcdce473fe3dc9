#pragma once

#include <chrono>
#include <filesystem>
#include <optional>

namespace core::media {

/// When a file says that it was created, in UTC: the creation time of an ISO base media file
/// (`mvhd`, ISO/IEC 14496-12) or the date of a Matroska file (`DateUTC`, RFC 9559). Cameras write
/// when they began to film, some of them in local time. Reads the header only. Absent when the file
/// says nothing of it or cannot be opened.
[[nodiscard]] std::optional<std::chrono::sys_time<std::chrono::microseconds>> creationTimeOf(
    const std::filesystem::path& file);

}  // namespace core::media
