#include "core/base/words.h"

#include <algorithm>
#include <array>
#include <boost/locale/gnu_gettext.hpp>
#include <boost/locale/message.hpp>
#include <cstdlib>

#include <locale>
#include <memory>
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

}  // namespace core
