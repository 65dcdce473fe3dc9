#include "core/pack/manifest.h"

#include <algorithm>
#include <climits>
#include <cwchar>
#include <cwctype>
#include <nlohmann/json.hpp>
#include <set>

#include "core/base/neutral_locale.h"
#include "core/base/text_table.h"
#include "core/base/whole_number.h"
#include "core/base/words.h"

namespace core::pack {
namespace {

using ManifestJson = nlohmann::ordered_json;

constexpr std::string_view kFormat = "turnmark pack";
constexpr int kVersion = 2;
constexpr int kVersionOfWholeFiles = 1;
constexpr std::size_t kLongestPath = 1024;
constexpr std::size_t kLongestPart = 255;

auto notAPack(const std::string& why) {
    return fail(ErrorCode::ForeignFile, said("This is no packed project: {}.", why));
}

bool isSum(const std::string& text) {
    return text.size() == 64 && text.find_first_not_of("0123456789abcdef") == std::string::npos;
}

/// Parts follow each other, lie in the file, and have as many bytes as the pack.
bool arePartsSound(const Manifest::File& file) {
    std::int64_t end = 0;
    std::int64_t bytes = 0;
    for (const media::ByteRange& part : file.parts) {
        if (part.begin < end || part.end <= part.begin) {
            return false;
        }
        end = part.end;
        bytes += part.end - part.begin;
    }
    return file.parts.empty() || (bytes == file.size && end <= file.wholeSize);
}

std::vector<media::ByteRange> partsFrom(const ManifestJson& json) {
    std::vector<media::ByteRange> parts;
    for (const auto& part : json) {
        parts.push_back({wholeFrom<std::int64_t>(part.at(0)), wholeFrom<std::int64_t>(part.at(1))});
    }
    return parts;
}

/// On some disks upper and lower case are one name.
Result<void> checkFiles(const Manifest& manifest) {
    std::set<std::string> names;
    bool hasProject = false;
    for (const auto& file : manifest.files) {
        if (!isSafePath(file.path)) {
            return fail(ErrorCode::InvalidInput,
                        said("The packed project names a file that is not allowed: \"{}\". "
                             "Nothing was unpacked.",
                             file.path));
        }
        if (!names.insert(caseless(file.path)).second) {
            return fail(ErrorCode::InvalidInput,
                        said("The packed project has {} twice. Nothing was unpacked.", file.path));
        }
        if (file.size < 0 || !isSum(file.sha256)) {
            return notAPack(said("size or sum of {} is missing", file.path));
        }
        if (!arePartsSound(file)) {
            return notAPack(said("the parts of {} do not fit each other", file.path));
        }
        hasProject |= file.path == manifest.project;
    }
    return hasProject ? Result<void>{ok()} : Result<void>{notAPack(said("it has no project file"))};
}

}  // namespace

bool isSafePath(std::string_view path) {
    if (path.empty() || path.size() > kLongestPath || path == kManifestName || !isUtf8Text(path)) {
        return false;
    }
    const bool hasControl = std::any_of(path.begin(), path.end(), [](char c) {
        return static_cast<unsigned char>(c) < 0x20 || c == 0x7f || c == '\\';
    });
    if (hasControl) {
        return false;
    }
    for (std::size_t begin = 0; begin <= path.size();) {
        const std::size_t end = std::min(path.find('/', begin), path.size());
        const std::string_view part = path.substr(begin, end - begin);
        if (part.empty() || part == "." || part == ".." || part.size() > kLongestPart) {
            return false;
        }
        begin = end + 1;
    }
    const std::string lower = caseless(std::string{path});
    return !lower.ends_with("-journal") && !lower.ends_with("-wal") && !lower.ends_with("-shm") &&
           !lower.ends_with(".open");
}

std::string caseless(const std::string& name) {
    const NeutralLocale unicode;
    constexpr std::size_t kFailed = static_cast<std::size_t>(-1);
    std::wstring wide(name.size() + 1, L'\0');
    std::mbstate_t state{};
    const char* from = name.c_str();
    const std::size_t letters = std::mbsrtowcs(wide.data(), &from, wide.size(), &state);
    if (letters == kFailed) {
        return name;
    }
    std::transform(wide.begin(), wide.end(), wide.begin(), [](wchar_t letter) {
        return static_cast<wchar_t>(std::towlower(static_cast<std::wint_t>(letter)));
    });
    std::string small(letters * MB_LEN_MAX + 1, '\0');
    const wchar_t* wideFrom = wide.c_str();
    state = {};
    small.resize(std::wcsrtombs(small.data(), &wideFrom, small.size(), &state));
    return small;
}

std::string toJson(const Manifest& manifest) {
    ManifestJson files = ManifestJson::array();
    int version = kVersionOfWholeFiles;
    for (const auto& file : manifest.files) {
        ManifestJson entry{{"path", file.path}, {"size", file.size}, {"sha256", file.sha256}};
        if (!file.parts.empty()) {
            version = kVersion;
            entry["whole_size"] = file.wholeSize;
            for (const media::ByteRange& part : file.parts) {
                entry["parts"].push_back({part.begin, part.end});
            }
        }
        files.push_back(std::move(entry));
    }
    return ManifestJson{{"format", kFormat},
                        {"version", version},
                        {"project", manifest.project},
                        {"files", files}}
               .dump(2, ' ', false, ManifestJson::error_handler_t::replace) +
           "\n";
}

Result<Manifest> manifestFrom(std::string_view text) {
    Manifest manifest;
    try {
        const ManifestJson json = ManifestJson::parse(text);
        if (json.at("format").get<std::string>() != kFormat) {
            return notAPack(said("it is of another kind"));
        }
        if (wholeFrom<int>(json.at("version")) > kVersion) {
            return fail(ErrorCode::NewerVersion,
                        said("The project was packed by a newer version of the "
                             "program. Install that version to unpack it."));
        }
        manifest.project = json.at("project").get<std::string>();
        for (const auto& file : json.at("files")) {
            manifest.files.push_back({file.at("path").get<std::string>(),
                                      wholeFrom<std::int64_t>(file.at("size")),
                                      file.at("sha256").get<std::string>()});
            if (file.contains("parts")) {
                manifest.files.back().parts = partsFrom(file.at("parts"));
                manifest.files.back().wholeSize = wholeFrom<std::int64_t>(file.at("whole_size"));
            }
        }
    } catch (const std::exception& problem) {  // of the library and of wholeFrom()
        return notAPack(problem.what());
    }
    BOOST_OUTCOME_TRY(checkFiles(manifest));
    return manifest;
}

}  // namespace core::pack
