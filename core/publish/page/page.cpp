#include "core/publish/page/page.h"

#include <fmt/format.h>

#include <cstdint>
#include <string_view>

#include "core/base/words.h"
#include "core/publish/drawing/painter.h"
#include "core/publish/drawing/svg.h"
#include "core/publish/drawing/utf8.h"
#include "core/publish/figures/figures.h"
#include "core/publish/output_folder.h"
#include "core/publish/page/page_style.h"

namespace core::publish {
namespace {

/// Text of people in its own direction, so that a name written from right to left leaves its
/// neighbours where they are.
std::string inOwnDirection(const std::string& text) {
    return "<bdi>" + escaped(text) + "</bdi>";
}

std::string_view toneClass(Tone tone) {
    switch (tone) {
        case Tone::Plain:
            return "plain";
        case Tone::Lead:
            return "lead";
        case Tone::Quiet:
            return "quiet";
        case Tone::Caution:
            return "caution";
    }
    return "plain";
}

/// Writes the blocks of a section one after the other.
struct PageWriter {
    std::string out;
    Result<void> state{ok()};

    void operator()(const Paragraph& paragraph) {
        if (!paragraph.text.empty()) {
            out += fmt::format("<p class=\"{}\" dir=\"auto\">{}</p>\n", toneClass(paragraph.tone),
                               escaped(paragraph.text));
        }
    }
    void operator()(const BulletList& list) {
        if (list.items.empty()) {
            return;
        }
        out += "<ul>\n";
        for (const auto& item : list.items) {
            out += "<li dir=\"auto\">" + escaped(item) + "</li>\n";
        }
        out += "</ul>\n";
    }
    void operator()(const TableBlock& table) {
        out += R"(<div class="scroll" tabindex="0" role="region" aria-label=")" +
               escaped(table.caption) + "\">\n<table>\n<caption>" + escaped(table.caption) +
               "</caption>\n<thead><tr>";
        for (const auto& column : table.columns) {
            out += fmt::format("<th scope=\"col\"{}>{}</th>",
                               column.isNumber ? " class=\"number\"" : "", escaped(column.heading));
        }
        out += "</tr></thead>\n<tbody>\n";
        for (const auto& row : table.rows) {
            out += "<tr>";
            for (std::size_t i = 0; i < row.size(); ++i) {
                out += fmt::format("<td{}>{}</td>",
                                   table.columns[i].isNumber ? " class=\"number\"" : "",
                                   inOwnDirection(row[i]));
            }
            out += "</tr>\n";
        }
        out += "</tbody>\n</table>\n</div>\n";
    }
    void operator()(const FigureBlock& block) {
        const Figure& figure = *block.figure;
        // A wide figure scrolls in a box of its own.
        const std::string open =
            figure.widthPt > kFigureWidthPt
                ? fmt::format(
                      R"(<div class="scroll wide" tabindex="0" role="region" aria-label="{}">)",
                      escaped(figure.title)) +
                      "\n"
                : "";
        out += fmt::format(
            "<figure id=\"figure-{}\">\n{}{}{}<figcaption><b>{}.</b> {}</figcaption>\n"
            "</figure>\n",
            figure.name, open, svgText(figure, SvgUse::InPage), open.empty() ? "" : "</div>\n",
            escaped(figure.title), escaped(figure.caption));
    }
    void operator()(const StripBlock& strip) {
        out += "<figure class=\"strip\">\n<figcaption>" + inOwnDirection(strip.heading) +
               "</figcaption>\n";
        if (strip.picture != nullptr) {
            const auto png = pngOf(strip.picture->view());
            if (!png) {
                state = png.error();
                return;
            }
            out += fmt::format(
                "<img width=\"{}\" height=\"{}\" alt=\"{}\" "
                "src=\"data:image/png;base64,{}\">\n",
                strip.picture->width(), strip.picture->height(), escaped(singleLine(strip.words)),
                base64(png.value()));
        }
        out += R"(<p class="quiet" dir="auto">)" + escaped(strip.words) + "</p>\n</figure>\n";
    }
    void operator()(const LinkList& list) {
        out += "<ul>\n";
        for (const auto& link : list.links) {
            out += fmt::format("<li><a href=\"{0}\">{0}</a>: {1}</li>\n", escaped(link.file),
                               escaped(link.words));
        }
        out += "</ul>\n";
    }
};

std::string pageHead(const Document& document) {
    return fmt::format(
        "<!DOCTYPE html>\n<html lang=\"{}\">\n<head>\n<meta charset=\"utf-8\">\n"
        "<meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n"
        "<meta name=\"color-scheme\" content=\"light dark\">\n"
        "<meta name=\"generator\" content=\"{}\">\n"
        // Whatever a text contains, the browser loads nothing and runs nothing.
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; img-src data:; "
        "style-src 'unsafe-inline'; base-uri 'none'; form-action 'none'\">\n"
        "<title>{}</title>\n<style>\n{}</style>\n</head>\n<body>\n",
        words::language(), escaped(document.origin.program), escaped(singleLine(document.title)),
        pageStyle());
}

std::string pageHeader(const Document& document, const std::string& date) {
    std::string out = "<header>\n<h1 dir=\"auto\">" + escaped(document.title) + "</h1>\n";
    for (const auto& line : document.subtitles) {
        out += "<p dir=\"auto\">" + escaped(line) + "</p>\n";
    }
    out += "<p class=\"quiet\">" + escaped(document.origin.line()) + "</p>\n";
    out += fmt::format("<p {}>{}</p>\n</header>\n", kDatedLineMark,
                       escaped(said("Published on {}.", date)));
    return out;
}

}  // namespace

std::string base64(std::string_view bytes) {
    constexpr std::string_view kDigits =
        "ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789+/";
    std::string text;
    text.reserve((bytes.size() + 2) / 3 * 4);
    for (std::size_t at = 0; at < bytes.size(); at += 3) {
        std::uint32_t group = 0;
        for (std::size_t i = 0; i < 3; ++i) {
            const std::uint32_t byte =
                at + i < bytes.size() ? static_cast<unsigned char>(bytes[at + i]) : 0U;
            group = (group << 8U) | byte;
        }
        const std::size_t given = std::min<std::size_t>(3, bytes.size() - at);
        for (std::size_t i = 0; i < 4; ++i) {
            text += i <= given ? kDigits[(group >> (18U - 6U * i)) & 63U] : '=';
        }
    }
    return text;
}

Result<std::string> htmlPage(const Document& document, const std::string& date) {
    PageWriter writer{pageHead(document) + pageHeader(document, date) + "<main>\n"};
    for (const auto& section : document.sections) {
        if (section.isFolded) {
            writer.out += fmt::format("<section id=\"{}\">\n<details>\n<summary>{}</summary>\n",
                                      section.id, escaped(section.heading));
        } else {
            writer.out += fmt::format("<section id=\"{}\">\n<h2>{}</h2>\n", section.id,
                                      escaped(section.heading));
        }
        for (const auto& block : section.blocks) {
            std::visit(writer, block);
        }
        writer.out += section.isFolded ? "</details>\n</section>\n" : "</section>\n";
    }
    BOOST_OUTCOME_TRY(writer.state);
    return writer.out + "</main>\n</body>\n</html>\n";
}

}  // namespace core::publish
