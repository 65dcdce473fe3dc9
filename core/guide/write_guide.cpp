#include "core/guide/write_guide.h"

#include <fmt/format.h>

#include "core/base/version.h"
#include "core/base/words.h"
#include "core/guide/page_html.h"
#include "core/publish/drawing/utf8.h"
#include "core/publish/page/page_style.h"

namespace core::guide {
namespace {

std::string guideTitle() {
    return said("Turnmark guide");
}

/// Beside what a published page has: contents at the left where there is room, below where not.
constexpr std::string_view kGuideStyle = R"(body{max-width:46rem}
nav ul{list-style:none;padding:0}
nav a{display:block;padding:.2rem 0;text-decoration:none}
nav [aria-current]{font-weight:600;color:var(--text)}
nav,.to-contents,.turn-page{font-size:.95rem}
.turn-page{display:flex;justify-content:space-between;gap:1rem;margin-top:2.5rem;
padding-top:.6rem;border-top:1px solid var(--grid)}
.caution p,.caution ul{margin:.3rem 0}
.drawing .scroll svg{width:100%;min-width:30rem;max-width:45rem}
code{font-family:"DejaVu Sans Mono",monospace;font-size:.92em}
pre{overflow-x:auto;padding:.6rem .8rem;border:1px solid var(--grid);border-radius:.3rem}
@media(min-width:64rem){body{max-width:64rem;display:grid;grid-template-columns:15rem minmax(0,1fr);
column-gap:2.5rem}nav{grid-column:1;grid-row:1/span 3;position:sticky;top:1rem;align-self:start}
main,.turn-page{grid-column:2;max-width:46rem}.to-contents{display:none}}
@media print{nav,.to-contents,.turn-page{display:none}body{display:block}}
)";

std::string linkTo(const Page& page, bool isHere) {
    return fmt::format("<li><a href=\"{}.html\"{}>{}</a></li>\n", page.name,
                       isHere ? " aria-current=\"page\"" : "", publish::escaped(page.title));
}

std::string contentsOf(const Page* here) {
    std::string list;
    for (const Page& page : pages()) {
        list += linkTo(page, &page == here);
    }
    return fmt::format(
        "<nav id=\"contents\" aria-label=\"{}\">\n"
        "<p><b><a href=\"index.html\">{}</a></b></p>\n<ul>\n{}</ul>\n</nav>\n",
        said("Contents"), guideTitle(), list);
}

std::string headOf(std::string_view title) {
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n"
        "<meta name=\"generator\" content=\"{}\">\n"
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; "
        "style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n"
        "<title>{}</title>\n<style>\n{}{}</style>\n</head>\n<body>\n",
        words::language(), publish::escaped(programName()), publish::escaped(std::string{title}),
        publish::pageStyle(), kGuideStyle);
}

std::string neighbours(const Page& page) {
    const auto& all = pages();
    const std::size_t at = static_cast<std::size_t>(&page - all.data());
    std::string out = "<p class=\"turn-page\">";
    const auto link = [&](std::size_t to, std::string_view arrow) {
        return fmt::format("<a href=\"{}.html\">{} {}</a>", all[to].name, arrow,
                           publish::escaped(all[to].title));
    };
    out += at > 0 ? link(at - 1, "←") : "<span></span>";
    out += at + 1 < all.size() ? link(at + 1, "→") : "<span></span>";
    return out + "</p>\n";
}

std::string htmlOf(const Page& page) {
    return headOf(fmt::format("{} – {}", page.title, guideTitle())) +
           fmt::format("<p class=\"to-contents\"><a href=\"#contents\">{}</a></p>\n<main>\n",
                       said("All pages")) +
           bodyHtml(page, HtmlFor::Browser) + "</main>\n" + neighbours(page) + contentsOf(&page) +
           "</body>\n</html>\n";
}

std::string indexHtml() {
    std::string list;
    for (const Page& page : pages()) {
        list += linkTo(page, false);
    }
    return headOf(guideTitle()) +
           fmt::format(
               "<main>\n<h1>{}</h1>\n<p class=\"lead\">{}</p>\n</main>\n<nav aria-label=\"{}\">\n"
               "<ul>\n{}</ul>\n</nav>\n</body>\n</html>\n",
               guideTitle(),
               said("Turnmark reads the spin of a struck ball from your footage, with the "
                    "uncertainty of every number. This guide goes from the first shot to a "
                    "published table."),
               said("Contents"), list);
}

}  // namespace

Result<publish::Written> writeGuide(const std::filesystem::path& folder, const WriteRule& foreign) {
    BOOST_OUTCOME_TRY(output, publish::OutputFolder::open(folder, foreign));
    BOOST_OUTCOME_TRY(output.put("index.html", indexHtml()));
    for (const Page& page : pages()) {
        BOOST_OUTCOME_TRY(output.put(page.name + ".html", htmlOf(page)));
    }
    return output.commit(programName());
}

}  // namespace core::guide
