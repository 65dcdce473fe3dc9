#include "core/guide/guide.h"

#include <map>
#include <mutex>

#include "core/base/words.h"
#include "core/guide/embedded.h"
#include "core/plan/cautions.h"

namespace core::guide {
namespace {

constexpr std::string_view kCautionsPlace = "{{cautions}}";
constexpr std::string_view kRigPlace = "{{rig}}";
constexpr std::string_view kSectionMark = "\n## ";

void replaceAll(std::string& text, std::string_view what, std::string_view by) {
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
        text.replace(at, what.size(), by);
    }
}

std::string cautionsQuoted() {
    std::string text = "> **" + plan::cautionsHeading() + "**\n>\n";
    for (const std::string& caution : plan::filmingCautions()) {
        text += "> - " + caution + '\n';
    }
    return text;
}

/// "The true capture rate" becomes "the-true-capture-rate".
std::string sectionId(std::string_view heading) {
    std::string id;
    for (const char c : heading) {
        const char lower = c >= 'A' && c <= 'Z' ? static_cast<char>(c + 32) : c;
        if ((lower >= 'a' && lower <= 'z') || (lower >= '0' && lower <= '9')) {
            id += lower;
        } else if (!id.empty() && id.back() != '-') {
            id += '-';
        }
    }
    return id.ends_with('-') ? id.substr(0, id.size() - 1) : id;
}

std::vector<std::string> sectionIdsOf(std::string_view english) {
    std::vector<std::string> ids;
    for (auto at = english.find(kSectionMark); at != std::string_view::npos;
         at = english.find(kSectionMark, at + 1)) {
        const auto heading = english.substr(at + kSectionMark.size());
        ids.push_back(sectionId(heading.substr(0, heading.find('\n'))));
    }
    return ids;
}

/// The text of that name in the language spoken now, else in English; null without either.
const EmbeddedText* spoken(const std::vector<EmbeddedText>& texts, std::string_view name) {
    const EmbeddedText* found = nullptr;
    for (const EmbeddedText& text : texts) {
        if (text.name == name && (found == nullptr || text.language == words::language())) {
            found = &text;
        }
    }
    return found;
}

std::string_view named(const std::vector<EmbeddedText>& texts, std::string_view name,
                       std::string_view ending) {
    if (!name.ends_with(ending)) {
        return {};
    }
    const auto* found = spoken(texts, name.substr(0, name.size() - ending.size()));
    return found != nullptr ? found->text : std::string_view{};
}

Page pageOf(const EmbeddedText& english) {
    const auto ids = sectionIdsOf(english.text);
    const EmbeddedText* shown = spoken(embeddedPages(), english.name);
    if (sectionIdsOf(shown->text).size() != ids.size()) {  // a translation that is behind
        shown = &english;
    }
    Page page{std::string{shown->name}, {}, std::string{shown->text}, ids};
    constexpr std::size_t kHeadingMark = 2;  // "# "
    page.title = page.markdown.substr(kHeadingMark, page.markdown.find('\n') - kHeadingMark);
    replaceAll(page.markdown, kCautionsPlace, cautionsQuoted());
    replaceAll(page.markdown, kRigPlace, plan::rigCaution());
    return page;
}

std::vector<Page> pagesNow() {
    std::vector<Page> all;
    for (const EmbeddedText& embedded : embeddedPages()) {
        if (embedded.language == "en") {
            all.push_back(pageOf(embedded));
        }
    }
    return all;
}

}  // namespace

const std::vector<Page>& pages() {
    static std::mutex mutex;
    static std::map<std::string, std::vector<Page>, std::less<>> ofLanguage;
    const std::lock_guard lock{mutex};
    const auto found = ofLanguage.find(words::language());
    return found != ofLanguage.end()
               ? found->second
               : ofLanguage.emplace(words::language(), pagesNow()).first->second;
}

const Page* findPage(std::string_view name) {
    for (const Page& page : pages()) {
        if (page.name == name) {
            return &page;
        }
    }
    return nullptr;
}

std::string_view drawing(std::string_view name) {
    return named(embeddedDrawings(), name, ".svg");
}

std::string_view picture(std::string_view name) {
    return named(embeddedPictures(), name, ".png");
}

}  // namespace core::guide
