#include "core/publish/page/page_flow.h"

#include <algorithm>
#include <cmath>
#include <sstream>
#include <utility>

namespace core::publish {
namespace {

constexpr double kTableTextPt = 8.5;
constexpr double kColumnGapPt = 7.0;
constexpr double kWordRoomPt = 0.5;  // so that rounding breaks no word

struct LineRun {
    int first{};
    int last{};  ///< behind the last
    double heightPt{};
};

double lineHeightPt(PangoLayout* layout, int line) {
    PangoRectangle logical{};
    pango_layout_line_get_extents(pango_layout_get_line_readonly(layout, line), nullptr, &logical);
    return static_cast<double>(logical.height) / PANGO_SCALE;
}

/// As many lines from `first` on as the room holds; at least one.
LineRun runOf(PangoLayout* layout, int first, double roomPt) {
    LineRun run{first, first, 0.0};
    const int count = pango_layout_get_line_count(layout);
    while (run.last < count) {
        const double height = lineHeightPt(layout, run.last);
        if (run.last > first && run.heightPt + height > roomPt) {
            break;
        }
        run.heightPt += height;
        ++run.last;
    }
    return run;
}

constexpr double kCaptionPt = 30.0;
constexpr double kHeadingPt = 50.0;

double scaleOf(const Figure& figure) {
    const double pageRoom =
        PageFlow::kPageHeightPt - 2.0 * PageFlow::kMarginPt - 14.0 - kCaptionPt - kHeadingPt;
    return std::min({1.0, PageFlow::kTextWidthPt / figure.widthPt, pageRoom / figure.heightPt});
}

double scaleOf(PixelView picture) {
    return std::min(0.6, PageFlow::kTextWidthPt / picture.width);
}

}  // namespace

PageFlow::PageFlow(cairo_surface_t* surface, std::string foot)
    : m_context{cairo_create(surface)}, m_foot{std::move(foot)} {}

void PageFlow::drawFoot() {
    const double y = kPageHeightPt - kMarginPt + 12.0;
    const std::vector<Drawn> foot{
        Text{{kMarginPt, y},
             cutToWidth(m_foot, kTextWidthPt - 40.0, 7.5),
             Anchor::Start,
             7.5,
             Ink::Soft},
        Text{{kPageWidthPt - kMarginPt, y}, std::to_string(m_page), Anchor::End, 7.5, Ink::Soft}};
    drawAll(m_context.get(), foot, Ground::Light);
}

void PageFlow::turnPage() {
    drawFoot();
    cairo_show_page(m_context.get());
    ++m_page;
    m_yPt = kMarginPt;
}

void PageFlow::finish() {
    drawFoot();
    cairo_show_page(m_context.get());
}

void PageFlow::ensureRoom(double heightPt) {
    if (heightPt > roomPt() && m_yPt > kMarginPt) {
        turnPage();
    }
}

void PageFlow::text(const std::string& words, const Style& style) {
    if (words.empty()) {
        return;
    }
    const auto layout = layoutOf(m_context.get(), words,
                                 {style.sizePt, style.isBold, kTextWidthPt - style.indentPt});
    const int count = pango_layout_get_line_count(layout.get());
    for (int line = 0; line < count;) {
        if (lineHeightPt(layout.get(), line) > roomPt()) {
            turnPage();
        }
        const LineRun run = runOf(layout.get(), line, roomPt());
        setInk(m_context.get(), style.ink, Ground::Light);
        for (int i = run.first; i < run.last; ++i) {
            PangoRectangle logical{};
            PangoLayoutLine* const set = pango_layout_get_line_readonly(layout.get(), i);
            pango_layout_line_get_extents(set, nullptr, &logical);
            const double ascent = -static_cast<double>(logical.y) / PANGO_SCALE;
            cairo_move_to(m_context.get(), kMarginPt + style.indentPt, m_yPt + ascent);
            pango_cairo_show_layout_line(m_context.get(), set);
            m_yPt += static_cast<double>(logical.height) / PANGO_SCALE;
        }
        line = run.last;
    }
    m_yPt += style.spaceAfterPt;
}

void PageFlow::heading(const std::string& words, double sizePt, double keptWithPt) {
    ensureRoom(3.0 * sizePt + keptWithPt);
    if (m_yPt > kMarginPt) {
        m_yPt += sizePt;
    }
    text(words, {sizePt, true, Ink::Text, 0.0, 6.0});
}

double PageFlow::heightPtOf(const Figure& figure) {
    return figure.heightPt * scaleOf(figure);
}

double PageFlow::heightPtOf(PixelView picture) {
    return picture.height * scaleOf(picture);
}

void PageFlow::figure(const Figure& figure) {
    const double scale = scaleOf(figure);
    ensureRoom(figure.heightPt * scale + kCaptionPt);
    cairo_save(m_context.get());
    cairo_translate(m_context.get(), kMarginPt, m_yPt);
    cairo_scale(m_context.get(), scale, scale);
    drawAll(m_context.get(), figure.drawn, Ground::Light);
    cairo_restore(m_context.get());
    m_yPt += figure.heightPt * scale + 4.0;
}

void PageFlow::picture(PixelView picture) {
    const SurfacePtr surface = surfaceOf(picture);
    if (surface == nullptr || picture.isEmpty()) {
        return;
    }
    const double scale = scaleOf(picture);
    ensureRoom(picture.height * scale);
    cairo_save(m_context.get());
    cairo_translate(m_context.get(), kMarginPt, m_yPt);
    cairo_scale(m_context.get(), scale, scale);
    cairo_set_source_surface(m_context.get(), surface.get(), 0.0, 0.0);
    cairo_paint(m_context.get());
    cairo_restore(m_context.get());
    m_yPt += picture.height * scale + 4.0;
}

double PageFlow::widestWordPt(const std::string& heading) const {
    std::istringstream words{heading};
    double widest = 0.0;
    for (std::string word; words >> word;) {
        const auto layout = layoutOf(m_context.get(), word, {kTableTextPt, true, 0.0});
        widest = std::max(widest, sizeOf(layout.get()).width);
    }
    return widest;
}

/// By the columns' shares, but no word of a heading breaks: what a narrow column lacks comes from
/// the room that the others have beyond theirs.
std::vector<double> PageFlow::columnWidths(const TableBlock& table) const {
    double shares = 0.0;
    for (const auto& column : table.columns) {
        shares += column.share;
    }
    std::vector<double> beyond;  // what the column has beyond its least width
    double lacking = 0.0;
    double spare = 0.0;
    std::vector<double> least;
    for (const auto& column : table.columns) {
        least.push_back(widestWordPt(column.heading) + kColumnGapPt + kWordRoomPt);
        beyond.push_back(column.share / shares * kTextWidthPt - least.back());
        (beyond.back() < 0.0 ? lacking : spare) += std::abs(beyond.back());
    }
    const double given = spare > 0.0 ? std::min(lacking / spare, 1.0) : 0.0;
    const double taken = lacking > 0.0 ? std::min(spare / lacking, 1.0) : 0.0;
    std::vector<double> widths;
    for (std::size_t i = 0; i < least.size(); ++i) {
        widths.push_back(least[i] + beyond[i] * (1.0 - (beyond[i] < 0.0 ? taken : given)));
    }
    return widths;
}

double PageFlow::rowHeight(const TableBlock& table, const std::vector<std::string>& row,
                           const std::vector<double>& widths, bool isBold) const {
    double height = 0.0;
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const auto layout =
            layoutOf(m_context.get(), row[i], {kTableTextPt, isBold, widths[i] - kColumnGapPt});
        height = std::max(height, sizeOf(layout.get()).height);
    }
    return std::min(height, kPageHeightPt / 2.0) + 4.0;
}

void PageFlow::drawTableRow(const TableBlock& table, const std::vector<std::string>& row,
                            const std::vector<double>& widths, bool isBold) {
    const double height = rowHeight(table, row, widths, isBold);
    double x = kMarginPt;
    setInk(m_context.get(), Ink::Text, Ground::Light);
    for (std::size_t i = 0; i < table.columns.size(); ++i) {
        const auto layout =
            layoutOf(m_context.get(), row[i], {kTableTextPt, isBold, widths[i] - kColumnGapPt});
        if (table.columns[i].isNumber) {
            pango_layout_set_alignment(layout.get(), PANGO_ALIGN_RIGHT);
        }
        cairo_move_to(m_context.get(), x, m_yPt + 2.0);
        pango_cairo_show_layout(m_context.get(), layout.get());
        x += widths[i];
    }
    m_yPt += height;
    drawAll(
        m_context.get(),
        {Line{
            {kMarginPt, m_yPt}, {kPageWidthPt - kMarginPt, m_yPt}, Ink::Grid, isBold ? 1.0 : 0.5}},
        Ground::Light);
}

void PageFlow::table(const TableBlock& table) {
    std::vector<std::string> headings;
    for (const auto& column : table.columns) {
        headings.push_back(column.heading);
    }
    const auto widths = columnWidths(table);
    text(table.caption, {8.5, false, Ink::Soft, 0.0, 2.0});
    ensureRoom(2.0 * rowHeight(table, headings, widths, true));
    drawTableRow(table, headings, widths, true);
    for (const auto& row : table.rows) {
        if (rowHeight(table, row, widths, false) > roomPt()) {
            turnPage();
            drawTableRow(table, headings, widths, true);
        }
        drawTableRow(table, row, widths, false);
    }
    m_yPt += 8.0;
}

}  // namespace core::publish
