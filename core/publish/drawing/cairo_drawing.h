#pragma once

#include <cairo.h>
#include <pango/pangocairo.h>

#include <memory>
#include <string>
#include <vector>

#include "core/base/pixels.h"
#include "core/publish/figures/figure.h"

/// Drawing with cairo and pango. Internal to this module.
namespace core::publish {

struct CairoDeleter {
    void operator()(cairo_t* context) const { cairo_destroy(context); }
    void operator()(cairo_surface_t* surface) const { cairo_surface_destroy(surface); }
    void operator()(PangoLayout* layout) const { g_object_unref(layout); }
};
using CairoPtr = std::unique_ptr<cairo_t, CairoDeleter>;
using SurfacePtr = std::unique_ptr<cairo_surface_t, CairoDeleter>;
using LayoutPtr = std::unique_ptr<PangoLayout, CairoDeleter>;

enum class Ground { Light, Dark };

void setInk(cairo_t* context, Ink ink, Ground ground);

/// A text ready to be set, its size in points of the context's user space. Sizes do not depend on
/// the resolution of the target.
struct TextStyle {
    double sizePt{10.0};
    bool isBold{false};
    double wrapWidthPt{0.0};  ///< 0: one line
};
LayoutPtr layoutOf(cairo_t* context, const std::string& text, const TextStyle& style);
struct SizePt {
    double width{};
    double height{};
};
SizePt sizeOf(PangoLayout* layout);

void drawAll(cairo_t* context, const std::vector<Drawn>& drawn, Ground ground);

/// A picture as cairo keeps it. Null when there is no memory for it.
SurfacePtr surfaceOf(PixelView picture);

}  // namespace core::publish
