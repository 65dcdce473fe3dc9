#pragma once

#include <string>
#include <vector>

#include "core/publish/drawing/cairo_drawing.h"
#include "core/publish/drawing/document.h"

namespace core::publish {

/// Sets one thing below the other onto pages of a PDF surface and turns the page when it is full.
/// Internal; Confined.
class PageFlow {
public:
    static constexpr double kPageWidthPt = 595.28;  ///< A4, ISO 216
    static constexpr double kPageHeightPt = 841.89;
    static constexpr double kMarginPt = 56.0;
    static constexpr double kTextWidthPt = kPageWidthPt - 2.0 * kMarginPt;

    /// foot: at the bottom of every page, beside its number.
    PageFlow(cairo_surface_t* surface, std::string foot);

    struct Style {
        double sizePt{10.0};
        bool isBold{};
        Ink ink{Ink::Text};
        double indentPt{};
        double spaceAfterPt{5.0};
    };
    /// Wrapped, over several pages where it is long.
    void text(const std::string& words, const Style& style);
    /// Stays on one page with as much of what comes after it.
    void heading(const std::string& words, double sizePt, double keptWithPt);
    /// Turns the page unless there is room for so much.
    void keep(double heightPt) { ensureRoom(heightPt); }
    /// Heights as set, captions left out.
    [[nodiscard]] static double heightPtOf(const Figure& figure);
    [[nodiscard]] static double heightPtOf(PixelView picture);
    /// Scaled down where it is wider or higher than a page's text.
    void figure(const Figure& figure);
    void picture(PixelView picture);
    void table(const TableBlock& table);
    void space(double heightPt) { m_yPt += heightPt; }
    void finish();

private:
    [[nodiscard]] double roomPt() const noexcept {
        return kPageHeightPt - kMarginPt - 14.0 - m_yPt;
    }
    void turnPage();
    void ensureRoom(double heightPt);
    void drawFoot();
    [[nodiscard]] double rowHeight(const TableBlock& table, const std::vector<std::string>& row,
                                   const std::vector<double>& widths, bool isBold) const;
    void drawTableRow(const TableBlock& table, const std::vector<std::string>& row,
                      const std::vector<double>& widths, bool isBold);
    [[nodiscard]] double widestWordPt(const std::string& heading) const;
    [[nodiscard]] std::vector<double> columnWidths(const TableBlock& table) const;

    CairoPtr m_context;
    std::string m_foot;
    double m_yPt{kMarginPt};
    int m_page{1};
};

}  // namespace core::publish
