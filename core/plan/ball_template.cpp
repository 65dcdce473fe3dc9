#include "core/plan/ball_template.h"

#include <cairo-pdf.h>
#include <cairo-svg.h>
#include <pango/pangocairo.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <memory>
#include <numbers>

#include "core/base/version.h"
#include "core/base/words.h"

namespace core::plan {
namespace {

constexpr double kPointsPerMm = 72.0 / 25.4;
constexpr double kSheetWidthMm = 297.0;  // A4 lying
constexpr double kSheetHeightMm = 210.0;
constexpr double kSheetEdgeMm = 12.0;
constexpr double kTabMm = 7.0;
constexpr double kMostPieceMm = kSheetWidthMm - 2.0 * kSheetEdgeMm - kTabMm;
constexpr double kControlLineMm = 50.0;
constexpr int kParts = 32;  // of the whole strip
constexpr int kQuarters = 4;

struct CairoDeleter {
    void operator()(cairo_t* context) const { cairo_destroy(context); }
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};

cairo_status_t appendBytes(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

/// A sheet on which everything is drawn in millimetres from its top left corner.
class TemplateSheet {
public:
    explicit TemplateSheet(TemplateFile kind)
        : m_surface{kind == TemplateFile::Pdf
                        ? cairo_pdf_surface_create_for_stream(
                              appendBytes, &m_bytes, points(kSheetWidthMm), points(kSheetHeightMm))
                        : cairo_svg_surface_create_for_stream(appendBytes, &m_bytes,
                                                              points(kSheetWidthMm),
                                                              points(kSheetHeightMm))},
          m_context{cairo_create(m_surface.get())} {
        if (kind == TemplateFile::Pdf) {
            cairo_pdf_surface_set_metadata(m_surface.get(), CAIRO_PDF_METADATA_CREATOR,
                                           programName().c_str());
        }
    }

    void line(double x1, double y1, double x2, double y2, double widthMm, bool isDashed = false) {
        const std::array<double, 2> dash{points(2.0), points(1.5)};
        cairo_set_dash(m_context.get(), dash.data(), isDashed ? 2 : 0, 0.0);
        cairo_set_line_width(m_context.get(), points(widthMm));
        cairo_move_to(m_context.get(), points(x1), points(y1));
        cairo_line_to(m_context.get(), points(x2), points(y2));
        cairo_stroke(m_context.get());
    }

    void text(double x, double y, const std::string& words, double sizePt, bool isBold = false) {
        const std::unique_ptr<PangoLayout, CairoDeleter> layout{
            pango_cairo_create_layout(m_context.get())};
        pango_cairo_context_set_resolution(pango_layout_get_context(layout.get()), 72.0);
        PangoFontDescription* font =
            pango_font_description_from_string("Open Sans, DejaVu Sans, sans-serif");
        pango_font_description_set_absolute_size(font, sizePt * PANGO_SCALE);
        pango_font_description_set_weight(font, isBold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
        pango_layout_set_font_description(layout.get(), font);
        pango_font_description_free(font);
        pango_layout_set_text(layout.get(), words.c_str(), static_cast<int>(words.size()));
        cairo_move_to(m_context.get(), points(x), points(y));
        pango_cairo_show_layout(m_context.get(), layout.get());
    }

    Result<std::string> finish() {
        cairo_show_page(m_context.get());
        cairo_surface_finish(m_surface.get());
        const auto status = cairo_surface_status(m_surface.get());
        if (status != CAIRO_STATUS_SUCCESS) {
            return fail(ErrorCode::WriteFailed,
                        said("The template cannot be drawn: {}.", cairo_status_to_string(status)));
        }
        return std::move(m_bytes);
    }

private:
    static double points(double mm) { return mm * kPointsPerMm; }

    std::string m_bytes;
    std::unique_ptr<cairo_surface_t, CairoDeleter> m_surface;
    std::unique_ptr<cairo_t, CairoDeleter> m_context;
};

/// One piece of the strip: outline, middle line with its crosses, quarters with their letters, and
/// a tab at the end that the next piece, or the beginning, lies on.
struct TemplatePiece {
    double lengthMm;
    double heightMm;
    int first;  ///< part of the strip at its left end, of kParts
    int parts;
};

std::string letterAt(int part) {
    return std::string(1, static_cast<char>('A' + part / (kParts / kQuarters) % kQuarters));
}

void draw(TemplateSheet& sheet, const TemplatePiece& piece, double y) {
    constexpr double kCrossMm = 1.2;
    constexpr double kLetterPt = 9.0;
    const double left = kSheetEdgeMm;
    const double right = left + piece.lengthMm;
    const double middle = y + piece.heightMm / 2.0;
    for (const double edge : {y, y + piece.heightMm}) {
        sheet.line(left, edge, right + kTabMm, edge, 0.2);
    }
    sheet.line(left, y, left, y + piece.heightMm, 0.2);
    sheet.line(right + kTabMm, y, right + kTabMm, y + piece.heightMm, 0.2, true);
    sheet.line(left, middle, right, middle, 0.15);
    for (int i = 0; i <= piece.parts; ++i) {
        const double x = left + piece.lengthMm * i / piece.parts;
        const int part = piece.first + i;
        sheet.line(x, middle - kCrossMm, x, middle + kCrossMm, 0.3);
        if (part % (kParts / kQuarters) == 0) {
            sheet.line(x, y, x, y + piece.heightMm, 0.3);
            sheet.text(x + 0.8, y + 0.4, letterAt(part), kLetterPt, true);
        }
    }
}

double sayHowTo(TemplateSheet& sheet, double diameterMm, int pieces) {
    double y = kSheetEdgeMm;
    const auto say = [&](const std::string& words, double sizePt, double after,
                         bool isBold = false) {
        sheet.text(kSheetEdgeMm, y, words, sizePt, isBold);
        y += sizePt * 1.45 / kPointsPerMm + after;
    };
    say(said("Wrap-round template for a ball of {:g} mm", diameterMm), 15.0, 1.0, true);
    say(said("Print at 100 %, not fitted to the page. The control line must be 50 mm long."), 10.0,
        3.0);
    sheet.line(kSheetEdgeMm, y, kSheetEdgeMm + kControlLineMm, y, 0.3);
    for (const double x : {kSheetEdgeMm, kSheetEdgeMm + kControlLineMm}) {
        sheet.line(x, y - 1.5, x, y + 1.5, 0.3);
    }
    sheet.text(kSheetEdgeMm + kControlLineMm + 3.0, y - 2.2, "50 mm", 10.0);
    y += 5.0;
    if (pieces > 1) {
        say(said("The strip comes in {} pieces. Cut them out and tape them end to end, letter on "
                 "letter.",
                 pieces),
            10.0, 0.0);
    }
    say(said("1  Cut the strip out. Prick a hole at every cross. Wrap the strip round the ball, A "
             "on A."),
        10.0, 0.0);
    say(said("2  Set a dot through every hole, take the strip off and join the dots."), 10.0, 0.0);
    say(said("3  Wrap it again over A and C, square to the first line; then over B and D. Join the "
             "dots."),
        10.0, 0.0);
    say(said("4  Fill the fields as the marking asks. The strip is as wide as a band."), 10.0, 6.0);
    return y;
}

}  // namespace

Result<std::string> ballTemplate(double diameterMm, TemplateFile kind) {
    if (!std::isfinite(diameterMm)) {
        return fail(ErrorCode::NotFinite, said("The diameter of the ball is not a number."));
    }
    if (diameterMm < kLeastBallMm || diameterMm > kLargestBallMm) {
        return fail(
            ErrorCode::OutOfRange,
            said(
                "There is no template for a ball of {:g} mm. Give a diameter from {:g} to {:g} mm.",
                diameterMm, kLeastBallMm, kLargestBallMm));
    }
    const double roundMm = std::numbers::pi * diameterMm;
    const int pieces = roundMm <= kMostPieceMm ? 1 : roundMm <= 2.0 * kMostPieceMm ? 2 : kQuarters;
    constexpr double kBandShare = 0.22;
    const double heightMm = std::clamp(kBandShare * diameterMm, 8.0, 30.0);
    TemplateSheet sheet{kind};
    double y = sayHowTo(sheet, diameterMm, pieces);
    const int parts = kParts / pieces;
    for (int piece = 0; piece < pieces; ++piece) {
        draw(sheet, {roundMm / pieces, heightMm, piece * parts, parts}, y);
        y += heightMm + 3.0;
    }
    return sheet.finish();
}

}  // namespace core::plan
