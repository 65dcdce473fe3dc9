#pragma once

#include <sys/stat.h>

#include <filesystem>
#include <optional>
#include <string>

#include "core/base/result.h"

namespace core::media {

/// Notices when the file under a clip's name is gone or has become another one. Without that, a
/// decoder opened anew would show another clip's pictures under this one's frame numbers. Internal;
/// Confined.
class FileWatch {
public:
    /// The fingerprint that the file must have; empty: the one it has at the first check().
    FileWatch(std::filesystem::path file, std::string fingerprint)
        : m_file{std::move(file)}, m_fingerprint{std::move(fingerprint)} {}

    /// True when the file has to be opened, for the first time or again: what lies there has the
    /// right content and was not looked at before. As long as nothing changes, this only asks for
    /// the file's status. Errors: NotFound when no file is there; InvalidInput when its content is
    /// another; those of fingerprint().
    Result<bool> check();
    /// False when something has happened to the file since the last check() that found it good.
    [[nodiscard]] bool isUntouched() const;

private:
    [[nodiscard]] std::optional<struct stat> status() const;

    std::filesystem::path m_file;
    std::string m_fingerprint;
    std::optional<struct stat> m_known;
};

}  // namespace core::media
