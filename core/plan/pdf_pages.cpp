#include "core/plan/pdf_pages.h"

#include <cairo-pdf.h>

#include <algorithm>

#include "core/base/version.h"
#include "core/base/words.h"

namespace core::plan {
namespace {

constexpr double kSmallestPt = 7.0;

cairo_status_t appendToPdf(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

double inPoints(int pangoUnits) {
    return static_cast<double>(pangoUnits) / PANGO_SCALE;
}

}  // namespace

PdfPages::PdfPages(const std::string& title)
    : m_pdf{std::make_unique<std::string>()},
      m_surface{cairo_pdf_surface_create_for_stream(appendToPdf, m_pdf.get(), kWidthPt, kHeightPt)},
      m_context{cairo_create(m_surface.get())} {
    cairo_pdf_surface_set_metadata(m_surface.get(), CAIRO_PDF_METADATA_TITLE, title.c_str());
    cairo_pdf_surface_set_metadata(m_surface.get(), CAIRO_PDF_METADATA_CREATOR,
                                   programName().c_str());
}

PdfPages::LayoutPtr PdfPages::layoutOf(const std::string& text, const TextLook& look) const {
    LayoutPtr layout{pango_cairo_create_layout(m_context.get())};
    pango_cairo_context_set_resolution(pango_layout_get_context(layout.get()), 72.0);
    PangoFontDescription* font = pango_font_description_from_string("DejaVu Sans, sans-serif");
    pango_font_description_set_absolute_size(font, look.sizePt * PANGO_SCALE);
    pango_font_description_set_weight(font, look.isBold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout.get(), font);
    pango_font_description_free(font);
    if (look.widthPt > 0.0) {
        pango_layout_set_width(layout.get(), static_cast<int>(look.widthPt * PANGO_SCALE));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    }
    if (look.isCentred) {
        pango_layout_set_alignment(layout.get(), PANGO_ALIGN_CENTER);
    }
    pango_layout_set_text(layout.get(), text.c_str(), static_cast<int>(text.size()));
    return layout;
}

double PdfPages::heightOf(const std::string& text, const TextLook& look) const {
    int height = 0;
    pango_layout_get_size(layoutOf(text, look).get(), nullptr, &height);
    return inPoints(height);
}

double PdfPages::text(double x, double y, const std::string& text, const TextLook& look) {
    const auto layout = layoutOf(text, look);
    cairo_set_source_rgb(m_context.get(), look.grey, look.grey, look.grey);
    cairo_move_to(m_context.get(), x, y);
    pango_cairo_show_layout(m_context.get(), layout.get());
    int height = 0;
    pango_layout_get_size(layout.get(), nullptr, &height);
    return inPoints(height);
}

double PdfPages::fittedLine(double x, double y, const std::string& words, TextLook look) {
    TextLook oneLine = look;
    oneLine.widthPt = 0.0;
    int width = 0;
    pango_layout_get_size(layoutOf(words, oneLine).get(), &width, nullptr);
    if (inPoints(width) > look.widthPt) {
        look.sizePt = std::max(kSmallestPt, look.sizePt * look.widthPt / inPoints(width) * 0.99);
    }
    return text(x, y, words, look);
}

void PdfPages::box(double x, double y, double sizePt) {
    cairo_set_source_rgb(m_context.get(), 0.0, 0.0, 0.0);
    cairo_set_line_width(m_context.get(), 0.8);
    cairo_rectangle(m_context.get(), x, y, sizePt, sizePt);
    cairo_stroke(m_context.get());
}

void PdfPages::shade(double x, double y, double width, double height) {
    cairo_set_source_rgb(m_context.get(), 0.91, 0.91, 0.91);
    cairo_rectangle(m_context.get(), x, y, width, height);
    cairo_fill(m_context.get());
}

void PdfPages::rule(double x, double y, double width) {
    cairo_set_source_rgb(m_context.get(), 0.6, 0.6, 0.6);
    cairo_set_line_width(m_context.get(), 0.4);
    cairo_move_to(m_context.get(), x, y);
    cairo_line_to(m_context.get(), x + width, y);
    cairo_stroke(m_context.get());
}

void PdfPages::code(double x, double y, double sizePt, const QrCode& code) {
    const double module = sizePt / (code.size + 2.0 * QrCode::kQuietModules);
    cairo_set_source_rgb(m_context.get(), 0.0, 0.0, 0.0);
    for (int row = 0; row < code.size; ++row) {
        for (int column = 0; column < code.size; ++column) {
            if (code.isDark(row, column)) {
                cairo_rectangle(m_context.get(), x + (column + QrCode::kQuietModules) * module,
                                y + (row + QrCode::kQuietModules) * module, module, module);
            }
        }
    }
    cairo_fill(m_context.get());  // one path: no hairlines between neighbours
}

void PdfPages::turn() {
    cairo_show_page(m_context.get());
}

Result<std::string> PdfPages::finish() {
    cairo_show_page(m_context.get());
    cairo_surface_finish(m_surface.get());
    const auto status = cairo_surface_status(m_surface.get());
    if (status != CAIRO_STATUS_SUCCESS) {
        return fail(ErrorCode::WriteFailed,
                    said("The PDF cannot be made: {}.", cairo_status_to_string(status)));
    }
    return std::move(*m_pdf);
}

}  // namespace core::plan
