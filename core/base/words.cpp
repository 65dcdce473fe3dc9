#include "core/base/words.h"

#include <fmt/args.h>

#include <algorithm>
#include <array>
#include <boost/locale/gnu_gettext.hpp>
#include <boost/locale/message.hpp>
#include <cstdlib>

#include <locale>
#include <memory>
#include <optional>
#include <vector>

#include "core/base/catalogues.h"
#include "core/base/kept_words.h"

namespace core::words {
namespace {

using Catalogue = boost::locale::message_format<char>;

/// Writes numbers with a decimal comma, where a format asks for the locale ("{:.1Lf}").
class DecimalComma : public std::numpunct<char> {
protected:
    char do_decimal_point() const override { return ','; }
};

struct Speech {
    std::string language = "en";
    std::locale locale = std::locale::classic();
    const Catalogue* catalogue = nullptr;  ///< of the locale; none for English
};

thread_local int keptSpeeches = 0;  // of this thread

Speech& speech() {
    static Speech ofPerson;
    static Speech english;
    return keptSpeeches > 0 ? english : ofPerson;
}

std::locale localeOf(const CarriedCatalogue& carried) {
    boost::locale::gnu_gettext::messages_info info;
    info.language = carried.language;
    info.encoding = "UTF-8";
    info.domains.emplace_back("turnmark");
    info.paths.emplace_back("");
    info.callback = [bytes = carried.bytes](const std::string&, const std::string&) {
        return std::vector<char>(bytes.begin(), bytes.end());
    };
    const std::locale numbers{std::locale::classic(), new DecimalComma};
    return {numbers, boost::locale::gnu_gettext::create_messages_facet<char>(info)};
}

/// What stands in the places of {}; absent when the rest of the sentence is another.
std::optional<std::vector<std::string>> valuesIn(std::string_view english, std::string_view kept) {
    constexpr std::string_view kPlace = "{}";
    std::vector<std::string> values;
    const std::size_t first = std::min(english.find(kPlace), english.size());
    if (!kept.starts_with(english.substr(0, first))) {
        return std::nullopt;
    }
    english.remove_prefix(first);
    kept.remove_prefix(first);
    while (!english.empty()) {
        english.remove_prefix(kPlace.size());
        const std::size_t next = std::min(english.find(kPlace), english.size());
        const std::string_view after = english.substr(0, next);
        const std::size_t at = next == english.size() && kept.ends_with(after)
                                   ? kept.size() - after.size()
                                   : kept.find(after);
        if (at == std::string_view::npos) {
            return std::nullopt;
        }
        values.emplace_back(kept.substr(0, at));
        kept.remove_prefix(at + after.size());
        english.remove_prefix(next);
    }
    return kept.empty() ? std::optional{values} : std::nullopt;
}

/// "de_AT.UTF-8" is "de".
std::string_view languageAlone(std::string_view locale) {
    return locale.substr(0, locale.find_first_of("_.@-"));
}

std::string valueOf(const char* variable) {
    const char* value = std::getenv(variable);
    return value != nullptr ? value : "";
}

}  // namespace

std::string_view speak(std::string_view language) {
    const auto carried = carriedCatalogues();
    const auto found =
        std::ranges::find(carried, languageAlone(language), &CarriedCatalogue::language);
    Speech& now = speech();
    now = Speech{};
    if (found != carried.end()) {
        now.language = found->language;
        now.locale = localeOf(*found);
        now.catalogue = &std::use_facet<Catalogue>(now.locale);
    }
    return now.language;
}

std::string_view language() noexcept {
    return speech().language;
}

std::string ofEnvironment() {
    std::string locale;
    for (const char* variable : {"LC_ALL", "LC_MESSAGES", "LANG"}) {
        locale = valueOf(variable);
        if (!locale.empty()) {
            break;
        }
    }
    const std::string_view alone = languageAlone(locale);
    if (alone.empty() || alone == "C" || alone == "POSIX") {
        return "en";
    }
    const std::string list = valueOf("LANGUAGE");
    return std::string{list.empty() ? alone : languageAlone(list.substr(0, list.find(':')))};
}

char decimalSign() noexcept {
    return speech().catalogue != nullptr ? ',' : '.';
}

std::string decimal(std::string number) {
    std::ranges::replace(number, '.', decimalSign());
    return number;
}

std::string_view inLanguage(std::string_view english) {
    const Catalogue* catalogue = speech().catalogue;
    const char* found =
        catalogue != nullptr ? catalogue->get(0, nullptr, std::string{english}.c_str()) : nullptr;
    return found != nullptr ? found : english;
}

std::string_view inLanguage(std::string_view one, std::string_view more, long long count) {
    const Catalogue* catalogue = speech().catalogue;
    const int wanted = count == 1 ? 1 : 2;
    const char* found = catalogue != nullptr
                            ? catalogue->get(0, nullptr, std::string{one}.c_str(), wanted)
                            : nullptr;
    return found != nullptr ? std::string_view{found} : (count == 1 ? one : more);
}

std::string filled(std::string_view english, std::string_view translated, fmt::format_args values) {
    try {
        return fmt::vformat(speech().locale, fmt::string_view{translated.data(), translated.size()},
                            values);
    } catch (const fmt::format_error&) {  // a fault of the catalogue, which its test refuses
        return fmt::vformat(fmt::string_view{english.data(), english.size()}, values);
    }
}

}  // namespace core::words

namespace core {

KeptSpeech::KeptSpeech() noexcept {
    ++words::keptSpeeches;
}

KeptSpeech::~KeptSpeech() {
    --words::keptSpeeches;
}

std::string saidText(std::string_view english) {
    return std::string{words::inLanguage(english)};
}

std::string saidAgain(std::string_view english, const std::string& kept) {
    const auto values = words::valuesIn(english, kept);
    if (!values) {
        return kept;
    }
    fmt::dynamic_format_arg_store<fmt::format_context> store;
    for (const std::string& value : *values) {
        const bool isNumber = value.find_first_not_of("0123456789.") == std::string::npos;
        store.push_back(isNumber ? words::decimal(value) : value);
    }
    return words::filled(english, words::inLanguage(english), store);
}

}  // namespace core
