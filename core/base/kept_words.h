#pragma once

#include <fmt/format.h>

#include <concepts>
#include <string>
#include <string_view>
#include <utility>

/// What a project keeps in words: lines of its history, remarks on a clip. Whoever opens it may
/// speak another language than the person who made it, so that it is kept in English and said in
/// the language of the person when it is shown.
///
///     toKeep("Set aside {}: {:s}.", shot, reason)
///     saidKept(line.what)
///
/// A value {:s} is somebody's own words, which nothing is made of; one with another format may be a
/// number, a count or kept words itself.
namespace core {

/// The sentence as it is kept.
template <typename... Values>
std::string toKeep(fmt::format_string<Values...> english, Values&&... values) {
    return fmt::format(english, std::forward<Values>(values)...);
}

/// A count with its noun in kept words: "1 shot", "2 shots".
template <std::integral Count>
std::string countToKeep(Count count, std::string_view one, std::string_view more) {
    return fmt::format("{} {}", count, count == 1 ? one : more);
}

/// A sentence that earlier versions kept; the catalogue holds its translation for their histories.
constexpr std::string_view wasKept(std::string_view english) noexcept {
    return english;
}

/// While one is alive, this thread says everything in English: for what others say and what is
/// kept.
class KeptSpeech {
public:
    KeptSpeech() noexcept;
    ~KeptSpeech();
    KeptSpeech(const KeptSpeech&) = delete;
    KeptSpeech& operator=(const KeptSpeech&) = delete;
};

/// What toKeep() made, or was said during a KeptSpeech, in the language of the person; any other
/// text as it is.
std::string saidKept(std::string_view kept);

}  // namespace core
