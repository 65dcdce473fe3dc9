#include "core/guide/page_html.h"

#include <fmt/format.h>
#include <md4c-html.h>

#include "core/publish/drawing/utf8.h"

namespace core::guide {
namespace {

void appendHtml(const MD_CHAR* text, MD_SIZE size, void* to) {
    static_cast<std::string*>(to)->append(text, size);
}

/// What stands between two marks, with the marks, is made anew wherever it occurs.
template <typename Make>
std::string remade(const std::string& text, std::string_view open, std::string_view close,
                   const Make& make) {
    std::string out;
    std::size_t from = 0;
    for (auto at = text.find(open); at != std::string::npos; at = text.find(open, from)) {
        const auto end = text.find(close, at + open.size());
        if (end == std::string::npos) {
            break;
        }
        out += text.substr(from, at - from);
        out += make(text.substr(at + open.size(), end - at - open.size()));
        from = end + close.size();
    }
    return out + text.substr(from);
}

/// inside: `drawings/markings.svg" alt="Four balls…`.
std::string drawingHtml(const std::string& inside, HtmlFor viewer) {
    constexpr std::string_view kAlt = "\" alt=\"";
    const auto at = inside.find(kAlt);
    const std::string name = inside.substr(0, at);
    const std::string words = inside.substr(at + kAlt.size());
    if (viewer == HtmlFor::Window) {
        return fmt::format("<p><img src=\"{}\" alt=\"{}\"></p>\n<p>{}.</p>", name, words, words);
    }
    std::string svg{drawing(name)};
    svg.insert(svg.find("<svg") + 4, fmt::format(R"( role="img" aria-label="{}")", words));
    return fmt::format(
        "<figure class=\"drawing\">\n<div class=\"scroll wide\" tabindex=\"0\" role=\"region\" "
        "aria-label=\"{0}\">\n{1}</div>\n<figcaption>{0}.</figcaption>\n</figure>",
        words, svg);
}

}  // namespace

std::string bodyHtml(const Page& page, HtmlFor viewer) {
    std::string html;
    md_html(page.markdown.data(), static_cast<MD_SIZE>(page.markdown.size()), appendHtml, &html,
            MD_FLAG_TABLES | MD_FLAG_NOHTML, 0);
    auto id = page.sectionIds.begin();
    html = remade(html, "<h2>", "</h2>", [&id](const std::string& heading) {
        return fmt::format("<h2 id=\"{}\">{}</h2>", *id++, heading);
    });
    html = remade(html, "<p><img src=\"", "\"></p>",
                  [viewer](const std::string& inside) { return drawingHtml(inside, viewer); });
    html =
        remade(html, ".md\"", ">", [](const std::string& rest) { return ".html\"" + rest + ">"; });
    html = remade(html, "\n</code></pre>", "", [](const auto&) { return "</code></pre>"; });
    const bool isBrowser = viewer == HtmlFor::Browser;
    if (isBrowser) {
        html = remade(html, "<table>", "</table>", [&page](const std::string& rows) {
            return fmt::format(
                "<div class=\"scroll\" tabindex=\"0\" role=\"region\" "
                "aria-label=\"{}\">\n<table>{}</table>\n</div>",
                publish::escaped(page.title), rows);
        });
    }
    return remade(html, "<blockquote>", "</blockquote>", [isBrowser](const std::string& cautions) {
        return isBrowser ? "<div class=\"caution\">" + cautions + "</div>"
                         : "<table><tr><td>" + cautions + "</td></tr></table>";
    });
}

}  // namespace core::guide
