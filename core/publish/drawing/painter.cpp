#include "core/publish/drawing/painter.h"

#include <boost/crc.hpp>
#include <cmath>
#include <cstdint>

#include "core/publish/drawing/cairo_drawing.h"

namespace core::publish {
namespace {

cairo_status_t appendPng(void* closure, const unsigned char* data, unsigned int length) {
    static_cast<std::string*>(closure)->append(reinterpret_cast<const char*>(data), length);
    return CAIRO_STATUS_SUCCESS;
}

void appendBigEndian(std::string& bytes, std::uint32_t value) {
    for (int shift = 24; shift >= 0; shift -= 8) {
        bytes += static_cast<char>((value >> shift) & 0xFFU);
    }
}

/// Says how large a picture is on paper, which cairo leaves out: a pHYs chunk behind the header
/// (ISO/IEC 15948:2004, 5.3 and 11.3.5.3).
void insertResolution(std::string& png, double dotsPerInch) {
    constexpr std::size_t kBehindHeader = 8 + 4 + 4 + 13 + 4;  // signature and IHDR
    constexpr double kInchesPerMetre = 1.0 / 0.0254;
    const auto dotsPerMetre =
        static_cast<std::uint32_t>(std::lround(dotsPerInch * kInchesPerMetre));
    std::string chunk{"pHYs"};
    appendBigEndian(chunk, dotsPerMetre);
    appendBigEndian(chunk, dotsPerMetre);
    chunk += '\1';  // the unit is the metre
    boost::crc_32_type sum;
    sum.process_bytes(chunk.data(), chunk.size());
    std::string whole;
    appendBigEndian(whole, static_cast<std::uint32_t>(chunk.size() - 4));
    whole += chunk;
    appendBigEndian(whole, sum.checksum());
    png.insert(kBehindHeader, whole);
}

Result<std::string> pngOfSurface(cairo_surface_t* surface) {
    std::string png;
    const auto status = cairo_surface_write_to_png_stream(surface, appendPng, &png);
    if (status != CAIRO_STATUS_SUCCESS) {
        return fail(ErrorCode::WriteFailed, std::string{"Cannot make a PNG picture: "} +
                                                cairo_status_to_string(status) + ".");
    }
    return png;
}

}  // namespace

Result<std::string> pngOf(const Figure& figure, double dotsPerInch) {
    const double scale = dotsPerInch / 72.0;
    const SurfacePtr surface{cairo_image_surface_create(
        CAIRO_FORMAT_RGB24, static_cast<int>(std::lround(figure.widthPt * scale)),
        static_cast<int>(std::lround(figure.heightPt * scale)))};
    const CairoPtr context{cairo_create(surface.get())};
    setInk(context.get(), Ink::Paper, Ground::Light);
    cairo_paint(context.get());
    cairo_scale(context.get(), scale, scale);
    drawAll(context.get(), figure.drawn, Ground::Light);
    BOOST_OUTCOME_TRY(png, pngOfSurface(surface.get()));
    insertResolution(png, dotsPerInch);
    return std::move(png);
}

Result<std::string> pngOf(PixelView picture) {
    const SurfacePtr surface = surfaceOf(picture);
    if (surface == nullptr) {
        return fail(ErrorCode::WriteFailed, "There is no memory for a picture.");
    }
    return pngOfSurface(surface.get());
}

struct PicturePainter::Surface {
    SurfacePtr surface;
    CairoPtr context;
};

PicturePainter::PicturePainter(int width, int height) : m_surface{std::make_unique<Surface>()} {
    m_surface->surface.reset(cairo_image_surface_create(CAIRO_FORMAT_RGB24, width, height));
    m_surface->context.reset(cairo_create(m_surface->surface.get()));
}

PicturePainter::~PicturePainter() = default;

void PicturePainter::picture(PixelView picture, PointPt topLeft, double widthPt, double heightPt) {
    const SurfacePtr from = surfaceOf(picture);
    if (from == nullptr || picture.isEmpty()) {
        return;
    }
    cairo_t* const context = m_surface->context.get();
    cairo_save(context);
    cairo_rectangle(context, topLeft.x, topLeft.y, widthPt, heightPt);
    cairo_clip(context);
    cairo_translate(context, topLeft.x, topLeft.y);
    cairo_scale(context, widthPt / picture.width, heightPt / picture.height);
    cairo_set_source_surface(context, from.get(), 0.0, 0.0);
    cairo_pattern_set_extend(cairo_get_source(context), CAIRO_EXTEND_PAD);
    cairo_paint(context);
    cairo_restore(context);
}

void PicturePainter::draw(const std::vector<Drawn>& drawn) {
    drawAll(m_surface->context.get(), drawn, Ground::Dark);
}

PixelBuffer PicturePainter::rgb() const {
    cairo_surface_t* const surface = m_surface->surface.get();
    cairo_surface_flush(surface);
    const int width = cairo_image_surface_get_width(surface);
    const int height = cairo_image_surface_get_height(surface);
    const int stride = cairo_image_surface_get_stride(surface);
    const unsigned char* const data = cairo_image_surface_get_data(surface);
    PixelBuffer picture{width, height, PixelFormat::Rgb8};
    for (int y = 0; y < height; ++y) {
        const auto* const from =
            reinterpret_cast<const std::uint32_t*>(data + static_cast<std::ptrdiff_t>(y) * stride);
        std::uint8_t* to = picture.row(y);
        for (int x = 0; x < width; ++x) {
            *to++ = static_cast<std::uint8_t>((from[x] >> 16U) & 0xFFU);
            *to++ = static_cast<std::uint8_t>((from[x] >> 8U) & 0xFFU);
            *to++ = static_cast<std::uint8_t>(from[x] & 0xFFU);
        }
    }
    return picture;
}

}  // namespace core::publish
