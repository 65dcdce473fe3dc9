#include "core/publish/drawing/cairo_drawing.h"

#include <cctype>
#include <cstdint>
#include <cstdlib>
#include <initializer_list>
#include <string_view>

#include "core/base/expects.h"
#include "core/publish/drawing/palette.h"
#include "core/publish/drawing/utf8.h"

namespace core::publish {
namespace {

constexpr const char* kFontFamily = "DejaVu Sans, sans-serif";

double hexShare(std::string_view colour, std::size_t at) {
    const std::string digits{colour.substr(at, 2)};
    return static_cast<double>(std::strtol(digits.c_str(), nullptr, 16)) / 255.0;
}

void traceMarker(cairo_t* context, const Marker& marker) {
    cairo_new_path(context);
    if (marker.shape == Shape::Disc) {
        cairo_arc(context, marker.at.x, marker.at.y, marker.sizePt / 2.0, 0.0, 6.283185307179586);
        return;
    }
    for (const PointPt corner : cornersOf(marker)) {
        cairo_line_to(context, corner.x, corner.y);
    }
    cairo_close_path(context);
}

struct CairoWriter {
    cairo_t* context;
    Ground ground;

    void operator()(const Line& line) const {
        constexpr double kDashes[] = {4.0, 3.0};
        setInk(context, line.ink, ground);
        cairo_set_line_width(context, line.widthPt);
        cairo_set_dash(context, kDashes, line.isDashed ? 2 : 0, 0.0);
        cairo_move_to(context, line.from.x, line.from.y);
        cairo_line_to(context, line.to.x, line.to.y);
        cairo_stroke(context);
    }
    void operator()(const Rectangle& rectangle) const {
        setInk(context, rectangle.ink, ground);
        cairo_rectangle(context, rectangle.topLeft.x, rectangle.topLeft.y, rectangle.widthPt,
                        rectangle.heightPt);
        cairo_fill(context);
    }
    void operator()(const Marker& marker) const {
        traceMarker(context, marker);
        setInk(context, marker.isFilled ? marker.ink : Ink::Paper, ground);
        cairo_fill_preserve(context);
        if (!marker.isFilled) {
            setInk(context, marker.ink, ground);
            cairo_set_line_width(context, 1.4);
            cairo_set_dash(context, nullptr, 0, 0.0);
            cairo_stroke(context);
        }
        cairo_new_path(context);
    }
    void operator()(const Text& text) const {
        const auto layout = layoutOf(context, text.text, {text.sizePt, text.isBold});
        const double width = sizeOf(layout.get()).width;
        double shift = 0.0;
        if (text.anchor != Anchor::Start) {
            shift = text.anchor == Anchor::End ? width : width / 2.0;
        }
        const double baseline =
            static_cast<double>(pango_layout_get_baseline(layout.get())) / PANGO_SCALE;
        setInk(context, text.ink, ground);
        cairo_move_to(context, text.at.x - shift, text.at.y - baseline);
        pango_cairo_show_layout(context, layout.get());
    }
    void operator()(const GroupStart& /*group*/) const {}
    void operator()(const GroupEnd& /*group*/) const {}
};

/// No line ends behind the stroke of a unit: "U/min", "m/s".
void keepUnitsWhole(PangoLayout& layout, std::string_view text) {
    const auto isLetter = [&](std::size_t at) {
        return at < text.size() && std::isalpha(static_cast<unsigned char>(text[at])) != 0;
    };
    PangoAttrList* attributes = pango_attr_list_new();
    for (auto at = text.find('/'); at != std::string_view::npos; at = text.find('/', at + 1)) {
        if (at > 0 && isLetter(at - 1) && isLetter(at + 1)) {
            PangoAttribute* whole = pango_attr_allow_breaks_new(FALSE);
            whole->start_index = static_cast<guint>(at);
            whole->end_index = static_cast<guint>(at + 2);
            pango_attr_list_insert(attributes, whole);
        }
    }
    pango_layout_set_attributes(&layout, attributes);
    pango_attr_list_unref(attributes);
}

}  // namespace

void setInk(cairo_t* context, Ink ink, Ground ground) {
    const auto& colours = coloursOf(ink);
    const auto colour = ground == Ground::Light ? colours.light : colours.dark;
    cairo_set_source_rgb(context, hexShare(colour, 1), hexShare(colour, 3), hexShare(colour, 5));
}

LayoutPtr layoutOf(cairo_t* context, const std::string& text, const TextStyle& style) {
    LayoutPtr layout{pango_cairo_create_layout(context)};
    pango_cairo_context_set_resolution(pango_layout_get_context(layout.get()), 72.0);
    PangoFontDescription* font = pango_font_description_from_string(kFontFamily);
    pango_font_description_set_absolute_size(font, style.sizePt * PANGO_SCALE);
    pango_font_description_set_weight(font, style.isBold ? PANGO_WEIGHT_BOLD : PANGO_WEIGHT_NORMAL);
    pango_layout_set_font_description(layout.get(), font);
    pango_font_description_free(font);
    cairo_font_options_t* options = cairo_font_options_create();
    cairo_font_options_set_hint_style(options, CAIRO_HINT_STYLE_NONE);
    cairo_font_options_set_hint_metrics(options, CAIRO_HINT_METRICS_OFF);
    cairo_font_options_set_antialias(options, CAIRO_ANTIALIAS_GRAY);
    pango_cairo_context_set_font_options(pango_layout_get_context(layout.get()), options);
    cairo_font_options_destroy(options);
    if (style.wrapWidthPt > 0.0) {
        pango_layout_set_width(layout.get(), static_cast<int>(style.wrapWidthPt * PANGO_SCALE));
        pango_layout_set_wrap(layout.get(), PANGO_WRAP_WORD_CHAR);
    }
    pango_layout_set_auto_dir(layout.get(), FALSE);
    const std::string clean = style.wrapWidthPt > 0.0 ? plainText(text) : singleLine(text);
    pango_layout_set_text(layout.get(), clean.c_str(), static_cast<int>(clean.size()));
    keepUnitsWhole(*layout, clean);
    return layout;
}

SizePt sizeOf(PangoLayout* layout) {
    int width = 0;
    int height = 0;
    pango_layout_get_size(layout, &width, &height);
    return {static_cast<double>(width) / PANGO_SCALE, static_cast<double>(height) / PANGO_SCALE};
}

void drawAll(cairo_t* context, const std::vector<Drawn>& drawn, Ground ground) {
    const CairoWriter writer{context, ground};
    for (const auto& item : drawn) {
        std::visit(writer, item);
    }
}

SurfacePtr surfaceOf(PixelView picture) {
    CORE_EXPECTS(picture.format == PixelFormat::Rgb8);
    SurfacePtr surface{
        cairo_image_surface_create(CAIRO_FORMAT_RGB24, picture.width, picture.height)};
    if (cairo_surface_status(surface.get()) != CAIRO_STATUS_SUCCESS) {
        return nullptr;
    }
    cairo_surface_flush(surface.get());
    unsigned char* const data = cairo_image_surface_get_data(surface.get());
    const int stride = cairo_image_surface_get_stride(surface.get());
    for (int y = 0; y < picture.height; ++y) {
        const std::uint8_t* from = picture.row(y);
        auto* const to =
            reinterpret_cast<std::uint32_t*>(data + static_cast<std::ptrdiff_t>(y) * stride);
        for (int x = 0; x < picture.width; ++x, from += 3) {
            to[x] = (std::uint32_t{from[0]} << 16U) | (std::uint32_t{from[1]} << 8U) | from[2];
        }
    }
    cairo_surface_mark_dirty(surface.get());
    return surface;
}

}  // namespace core::publish
