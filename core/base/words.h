#pragma once

#include <fmt/format.h>

#include <concepts>
#include <string>
#include <string_view>
#include <utility>

/// What core says to people, in their language.
///
/// A sentence is written in English where it is said; the catalogues in resources/words (GNU
/// gettext's PO files, one folder a language, carried in the program) hold it in other languages
/// under its English words. What a catalogue lacks is said in English. Files' keys, columns,
/// commands and what the project keeps are not said to people and stay as they are.
///
///     said("{} is not compared: {}.", name, why)
///     saidOf(shots, "{} shot was kept.", "{} shots were kept.", shots)
///     counted(shots, "shot", "shots")
namespace core {

namespace words {

/// From here on the program speaks this language: "de", or a locale's name with it ("de_AT.UTF-8").
/// English where there is no catalogue. To be called before anything is said and before a second
/// thread runs; what has been said is not said again. Gives the language spoken now: "en", "de".
std::string_view speak(std::string_view language);

/// The language spoken now: "en" unless speak() was called.
std::string_view language() noexcept;

/// The language that the environment asks for, in POSIX's order: LC_ALL, LC_MESSAGES, LANG, where
/// LANGUAGE, GNU's list, comes before all of them unless they name C or nothing.
std::string ofEnvironment();

/// Decimal sign of the language: '.' or ','.
char decimalSign() noexcept;

/// A number as text for people: its point becomes the decimal sign of the language. For what a
/// number format wrote; never for CSV, JSON or what is kept.
std::string decimal(std::string number);

/// What the catalogue has for the English words, else these; without filling anything in.
std::string_view inLanguage(std::string_view english);

/// The same for what is said of one and of more.
std::string_view inLanguage(std::string_view one, std::string_view more, long long count);

std::string filled(std::string_view english, std::string_view translated, fmt::format_args values);

}  // namespace words

/// The sentence in the language of the person, with the values in the places of {}. A translation
/// may number them to change their order: "{1} … {0}".
template <typename... Values>
std::string said(fmt::format_string<Values...> english, Values&&... values) {
    const fmt::string_view text = english;
    const std::string_view plain{text.data(), text.size()};
    return words::filled(plain, words::inLanguage(plain), fmt::make_format_args(values...));
}

/// The same, for what is said of one thing and of more. The count is a value like any other, if it
/// is to be seen.
template <std::integral Count, typename... Values>
std::string saidOf(Count count, fmt::format_string<Values...> one,
                   fmt::format_string<Values...> more, Values&&... values) {
    const fmt::string_view singular = one;
    const fmt::string_view plural = more;
    const std::string_view ofOne{singular.data(), singular.size()};
    const std::string_view ofMore{plural.data(), plural.size()};
    return words::filled(count == 1 ? ofOne : ofMore,
                         words::inLanguage(ofOne, ofMore, static_cast<long long>(count)),
                         fmt::make_format_args(values...));
}

/// Marks a text of a table, which is said later, by saidText(): the catalogue is made from what
/// stands in said(), saidOf(), counted() and toSay().
constexpr std::string_view toSay(std::string_view english) noexcept {
    return english;
}

/// A text that was marked by toSay(), in the language of the person. Nothing is filled in.
std::string saidText(std::string_view english);

/// A count with its noun: "1 shot", "2 shots".
template <std::integral Count>
std::string counted(Count count, std::string_view one, std::string_view more) {
    return fmt::format("{} {}", count, words::inLanguage(one, more, static_cast<long long>(count)));
}

}  // namespace core
