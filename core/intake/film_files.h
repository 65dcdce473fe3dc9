#pragma once

#include <filesystem>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/result.h"

namespace core::intake {

/// A file or folder that cannot be taken in, and why.
struct Refused {
    std::string what;
    std::string reason;
};

/// The films that were meant by files and folders.
struct FilmFiles {
    std::vector<std::filesystem::path> films;  ///< absolute, each once; a folder's sorted by path
    std::vector<Refused> refused;              ///< not there, or a folder that cannot be read
    std::size_t passedOver{};                  ///< files in folders that are no films
};

/// Folders are searched with all folders in them; symbolic links to folders are not followed and
/// names that begin with a dot are passed over. In a folder a file counts as a film by its
/// extension, and one without a known extension by its first bytes (ISO base media `ftyp`, ISO/IEC
/// 14496-12; EBML, RFC 8794; RIFF with `AVI `). A file that is named itself is always one.
/// Touches no project. Stopped, it gives what it found until then.
[[nodiscard]] FilmFiles filmFilesOf(const std::vector<std::filesystem::path>& sources,
                                    std::stop_token stop = {});

}  // namespace core::intake
