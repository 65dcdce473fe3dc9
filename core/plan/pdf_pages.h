#pragma once

#include <cairo.h>
#include <pango/pangocairo.h>

#include <memory>
#include <string>

#include "core/base/result.h"
#include "core/plan/qr_code.h"

/// Drawing on the pages of a PDF with cairo and pango. Private to core/plan.
namespace core::plan {

struct TextLook {
    double sizePt{10.0};
    bool isBold{};
    double widthPt{};  ///< lines are broken at this width; 0: one line
    bool isCentred{};  ///< within the width
    double grey{};     ///< 0 is black
};

/// A PDF in the making, A4 upright. Points from the top left corner. Confined.
class PdfPages {
public:
    static constexpr double kWidthPt = 595.28;  ///< A4, ISO 216
    static constexpr double kHeightPt = 841.89;
    static constexpr double kMarginPt = 48.0;
    static constexpr double kTextWidthPt = kWidthPt - 2.0 * kMarginPt;

    explicit PdfPages(const std::string& title);

    /// Height that a text takes.
    [[nodiscard]] double heightOf(const std::string& text, const TextLook& look) const;
    /// The text with its top left corner at the place; gives its height.
    double text(double x, double y, const std::string& text, const TextLook& look);
    /// On one line, its size brought down until it is no wider than look.widthPt.
    double fittedLine(double x, double y, const std::string& text, TextLook look);
    void box(double x, double y, double sizePt);
    void shade(double x, double y, double width, double height);
    void rule(double x, double y, double width);
    /// The code with its quiet zone, in a square.
    void code(double x, double y, double sizePt, const QrCode& code);
    /// Ends the page and begins the next one.
    void turn();
    /// Ends the last page. Errors: WriteFailed.
    Result<std::string> finish();

private:
    struct Deleter {
        void operator()(cairo_t* context) const { cairo_destroy(context); }
        void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
        void operator()(PangoLayout* layout) const { g_object_unref(layout); }
    };
    using LayoutPtr = std::unique_ptr<PangoLayout, Deleter>;
    [[nodiscard]] LayoutPtr layoutOf(const std::string& text, const TextLook& look) const;

    std::unique_ptr<std::string> m_pdf;  ///< its place in memory stays
    std::unique_ptr<cairo_surface_t, Deleter> m_surface;
    std::unique_ptr<cairo_t, Deleter> m_context;
};

}  // namespace core::plan
