#include "core/publish/page/pdf.h"

#include <cairo-pdf.h>

#include "core/base/words.h"
#include "core/publish/drawing/utf8.h"
#include "core/publish/page/page_flow.h"

namespace core::publish {
namespace {

cairo_status_t appendPdf(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

constexpr double kSomeLinesPt = 60.0;

/// How much of a block must stand on the page where it begins.
double keptPt(const StripBlock& strip) {
    const double words = 34.0;  // the heading above the picture and the line under it
    return strip.picture != nullptr ? PageFlow::heightPtOf(strip.picture->view()) + words
                                    : kSomeLinesPt;
}

constexpr auto kKeptPt = [](const auto& block) {
    using Kind = std::decay_t<decltype(block)>;
    if constexpr (std::is_same_v<Kind, FigureBlock>) {
        return PageFlow::heightPtOf(*block.figure) + kSomeLinesPt / 2.0;
    } else if constexpr (std::is_same_v<Kind, StripBlock>) {
        return keptPt(block);
    } else {
        return kSomeLinesPt;
    }
};

/// Sets the blocks of a section one after the other.
struct PdfWriter {
    PageFlow& flow;

    void operator()(const Paragraph& paragraph) const {
        PageFlow::Style style;
        if (paragraph.tone == Tone::Lead) {
            style.sizePt = 11.5;
        }
        if (paragraph.tone == Tone::Quiet) {
            style.sizePt = 9.0;
            style.ink = Ink::Soft;
        }
        flow.text(paragraph.text, style);
    }
    void operator()(const BulletList& list) const {
        for (const auto& item : list.items) {
            flow.text("• " + item, {9.5, false, Ink::Text, 8.0, 3.0});
        }
    }
    void operator()(const TableBlock& table) const { flow.table(table); }
    void operator()(const FigureBlock& block) const {
        flow.figure(*block.figure);
        flow.text(block.figure->title + ". " + block.figure->caption,
                  {9.0, false, Ink::Soft, 0.0, 12.0});
    }
    void operator()(const StripBlock& strip) const {
        flow.keep(keptPt(strip));
        flow.text(strip.heading, {9.5, true, Ink::Text, 0.0, 3.0});
        if (strip.picture != nullptr) {
            flow.picture(strip.picture->view());
        }
        flow.text(strip.words, {8.5, false, Ink::Soft, 0.0, 8.0});
    }
    void operator()(const LinkList& /*list*/) const {}
};

bool isOnlyLinks(const Section& section) {
    return std::all_of(section.blocks.begin(), section.blocks.end(),
                       [](const Block& block) { return std::holds_alternative<LinkList>(block); });
}

bool isSilent(const Block& block) {
    const auto* paragraph = std::get_if<Paragraph>(&block);
    return paragraph != nullptr && paragraph->text.empty();
}

void describe(cairo_surface_t* surface, const Document& document) {
    const std::string changed =
        document.origin.lastChange.empty() ? "1970-01-01T00:00:00Z" : document.origin.lastChange;
    const auto set = [surface](cairo_pdf_metadata_t what, const std::string& words) {
        cairo_pdf_surface_set_metadata(surface, what, words.c_str());
    };
    set(CAIRO_PDF_METADATA_TITLE, singleLine(document.title));
    set(CAIRO_PDF_METADATA_SUBJECT, document.origin.line());
    set(CAIRO_PDF_METADATA_CREATOR, document.origin.program);
    set(CAIRO_PDF_METADATA_CREATE_DATE, changed);
    set(CAIRO_PDF_METADATA_MOD_DATE, changed);
}

}  // namespace

Result<std::string> pdfOf(const Document& document) {
    std::string pdf;
    const SurfacePtr surface{cairo_pdf_surface_create_for_stream(
        appendPdf, &pdf, PageFlow::kPageWidthPt, PageFlow::kPageHeightPt)};
    describe(surface.get(), document);
    PageFlow flow{surface.get(), document.origin.line()};
    flow.text(document.title, {20.0, true, Ink::Text, 0.0, 8.0});
    for (const auto& line : document.subtitles) {
        flow.text(line, {10.0, false, Ink::Soft, 0.0, 2.0});
    }
    flow.space(10.0);
    for (const auto& section : document.sections) {
        if (isOnlyLinks(section)) {
            continue;
        }
        const auto first = std::find_if_not(section.blocks.begin(), section.blocks.end(), isSilent);
        flow.heading(section.heading, 13.0,
                     first == section.blocks.end() ? 0.0 : std::visit(kKeptPt, *first));
        for (const auto& block : section.blocks) {
            std::visit(PdfWriter{flow}, block);
        }
    }
    flow.finish();
    cairo_surface_finish(surface.get());
    const auto status = cairo_surface_status(surface.get());
    if (status != CAIRO_STATUS_SUCCESS) {
        return fail(ErrorCode::WriteFailed,
                    said("Cannot make the PDF: {}.", cairo_status_to_string(status)));
    }
    return pdf;
}

}  // namespace core::publish
