#include "core/intake/film_files.h"

#include <algorithm>
#include <array>
#include <cctype>
#include <fstream>
#include <set>
#include <string_view>

#include "core/base/words.h"

namespace core::intake {
namespace {

namespace fs = std::filesystem;

bool hasFilmExtension(const fs::path& file) {
    constexpr std::array<std::string_view, 11> kFilms{
        ".mp4", ".mov", ".m4v", ".mkv", ".avi", ".webm", ".mts", ".m2ts", ".3gp", ".mpg", ".ts"};
    std::string extension = file.extension().string();
    std::transform(extension.begin(), extension.end(), extension.begin(),
                   [](unsigned char letter) { return static_cast<char>(std::tolower(letter)); });
    return std::find(kFilms.begin(), kFilms.end(), extension) != kFilms.end();
}

bool beginsAsFilm(const fs::path& file) {
    std::array<char, 12> bytes{};
    std::ifstream stream{file, std::ios::binary};
    if (!stream.read(bytes.data(), bytes.size())) {
        return false;
    }
    const std::string_view head{bytes.data(), bytes.size()};
    return head.substr(4, 4) == "ftyp" || head.starts_with("\x1A\x45\xDF\xA3") ||
           (head.starts_with("RIFF") && head.substr(8, 4) == "AVI ");
}

bool isHidden(const fs::path& path) {
    return path.filename().string().starts_with('.');
}

/// The films in a folder, unsorted.
void search(const fs::path& folder, const std::stop_token& stop, FilmFiles& result,
            std::vector<fs::path>& films) {
    std::error_code problem;
    fs::recursive_directory_iterator at{folder, problem};
    for (; !problem && at != fs::recursive_directory_iterator{} && !stop.stop_requested();
         at.increment(problem)) {
        std::error_code ignored;
        if (isHidden(at->path())) {
            at.disable_recursion_pending();
        } else if (at->is_regular_file(ignored)) {
            if (hasFilmExtension(at->path()) || beginsAsFilm(at->path())) {
                films.push_back(at->path());
            } else {
                ++result.passedOver;
            }
        }
    }
    if (problem) {
        result.refused.push_back({folder.string(), said("The folder cannot be read to its end: {}. "
                                                        "Check its access rights, then try again.",
                                                        problem.message())});
    }
}

}  // namespace

FilmFiles filmFilesOf(const std::vector<fs::path>& sources, std::stop_token stop) {
    FilmFiles result;
    std::set<fs::path> known;
    for (const fs::path& source : sources) {
        std::error_code problem;
        const fs::path path = fs::absolute(source).lexically_normal();
        std::vector<fs::path> films;
        if (fs::is_directory(path, problem)) {
            search(path, stop, result, films);
            std::sort(films.begin(), films.end());
        } else if (fs::exists(path, problem)) {
            films.push_back(path);
        } else {
            result.refused.push_back(
                {source.string(), said("There is no such file or folder. Check the name.")});
        }
        for (const fs::path& film : films) {
            if (known.insert(film).second) {
                result.films.push_back(film);
            }
        }
    }
    return result;
}

}  // namespace core::intake
