#include "core/guide/guide.h"

#include "core/guide/embedded.h"
#include "core/plan/cautions.h"

namespace core::guide {
namespace {

constexpr std::string_view kCautionsPlace = "{{cautions}}";
constexpr std::string_view kRigPlace = "{{rig}}";

void replaceAll(std::string& text, std::string_view what, std::string_view by) {
    for (auto at = text.find(what); at != std::string::npos; at = text.find(what, at + by.size())) {
        text.replace(at, what.size(), by);
    }
}

std::string cautionsQuoted() {
    std::string text = "> **Before anybody swings**\n>\n";
    for (const std::string& caution : plan::filmingCautions()) {
        text += "> - " + caution + '\n';
    }
    return text;
}

Page pageOf(const EmbeddedText& embedded) {
    Page page{std::string{embedded.name}, {}, std::string{embedded.text}};
    constexpr std::size_t kHeadingMark = 2;  // "# "
    page.title = page.markdown.substr(kHeadingMark, page.markdown.find('\n') - kHeadingMark);
    replaceAll(page.markdown, kCautionsPlace, cautionsQuoted());
    replaceAll(page.markdown, kRigPlace, plan::rigCaution());
    return page;
}

}  // namespace

const std::vector<Page>& pages() {
    static const std::vector<Page> kPages = [] {
        std::vector<Page> all;
        for (const EmbeddedText& embedded : embeddedPages()) {
            all.push_back(pageOf(embedded));
        }
        return all;
    }();
    return kPages;
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
    for (const EmbeddedText& embedded : embeddedDrawings()) {
        if (name == std::string{embedded.name} + ".svg") {
            return embedded.text;
        }
    }
    return {};
}

}  // namespace core::guide
