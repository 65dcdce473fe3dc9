#include "core/media/frames/picture_conversion.h"

#include <algorithm>
#include <array>
#include <cstring>
#include <utility>
#include <vector>

namespace core::media {
namespace {

// The scaler's filters look a few pixels around, and its dither repeats every 8 pixels: a rectangle
// that starts on these steps and is this much larger comes out as the same part of the whole.
constexpr int kAlignX = 16;
constexpr int kAlignY = 8;

struct ConversionKey {
    int sourceWidth{};
    int sourceHeight{};
    int format{};
    int width{};
    int height{};
    int flags{};
    int matrix{};
    int range{};
    bool operator==(const ConversionKey&) const = default;
};

bool isFullRange(const AVFrame& picture) {
    switch (picture.format) {
        case AV_PIX_FMT_YUVJ420P:
        case AV_PIX_FMT_YUVJ422P:
        case AV_PIX_FMT_YUVJ444P:
        case AV_PIX_FMT_YUVJ440P:
        case AV_PIX_FMT_YUVJ411P:
            return true;
        default:
            return picture.color_range == AVCOL_RANGE_JPEG;
    }
}

/// A damaged header may name a matrix that is none of the enumeration; the number is taken as it is
/// and the scaler falls back to BT.601.
int matrixOf(const AVFrame& picture) {
    static_assert(sizeof(picture.colorspace) == sizeof(int));
    int matrix = 0;
    std::memcpy(&matrix, &picture.colorspace, sizeof(matrix));
    return matrix;
}

SwsContextPtr makeContext(const ConversionKey& key) {
    SwsContextPtr context{sws_alloc_context()};
    SwsContext* sws = context.get();
    if (sws == nullptr) {
        return nullptr;
    }
    av_opt_set_int(sws, "srcw", key.sourceWidth, 0);
    av_opt_set_int(sws, "srch", key.sourceHeight, 0);
    av_opt_set_int(sws, "src_format", key.format, 0);
    av_opt_set_int(sws, "dstw", key.width, 0);
    av_opt_set_int(sws, "dsth", key.height, 0);
    av_opt_set_int(sws, "dst_format", AV_PIX_FMT_RGB24, 0);
    av_opt_set_int(sws, "sws_flags", key.flags, 0);
    if (key.format == AV_PIX_FMT_YUV420P) {
        av_opt_set_int(sws, "src_v_chr_pos", 128, 0);  // as the ffmpeg program sets it
    }
    sws_setColorspaceDetails(sws, sws_getCoefficients(key.matrix), key.range,
                             sws_getCoefficients(SWS_CS_DEFAULT), 0, 0, 1 << 16, 1 << 16);
    return sws_init_context(sws, nullptr, nullptr) < 0 ? nullptr : std::move(context);
}

/// Making a context costs more than converting a small rectangle: each thread keeps its last few.
SwsContext* contextFor(const ConversionKey& key) {
    struct Kept {
        ConversionKey key;
        SwsContextPtr context;
    };
    constexpr std::size_t kMostKept = 4;
    thread_local std::array<Kept, kMostKept> kept;  // the latest one in front
    auto found = std::find_if(kept.begin(), kept.end(), [&](const Kept& one) {
        return one.context != nullptr && one.key == key;
    });
    if (found == kept.end()) {
        found = kept.end() - 1;
        *found = {key, makeContext(key)};
    }
    std::rotate(kept.begin(), found, found + 1);
    return kept.front().context.get();
}

/// Planes of the picture from pixel (x, y) on; both on the alignment steps.
std::array<const std::uint8_t*, 4> planesFrom(const AVFrame& picture, int x, int y) {
    const auto format = static_cast<AVPixelFormat>(picture.format);
    const AVPixFmtDescriptor* pixels = av_pix_fmt_desc_get(format);
    std::array<const std::uint8_t*, 4> planes{};
    for (int plane = 0; plane < 4; ++plane) {
        const auto p = static_cast<std::size_t>(plane);
        planes[p] = picture.data[p];
        const bool isPalette = (pixels->flags & AV_PIX_FMT_FLAG_PAL) != 0 && plane == 1;
        if (planes[p] == nullptr || isPalette || (x == 0 && y == 0)) {
            continue;
        }
        const bool isChroma = plane == 1 || plane == 2;
        const int row = isChroma ? y >> pixels->log2_chroma_h : y;
        planes[p] += static_cast<std::ptrdiff_t>(row) * picture.linesize[p] +
                     (x == 0 ? 0 : av_image_get_linesize(format, x, plane));
    }
    return planes;
}

PixelBuffer cut(const PixelBuffer& whole, int x, int y, int width, int height) {
    if (x == 0 && y == 0 && width == whole.width() && height == whole.height()) {
        return whole;
    }
    PixelBuffer part{width, height, PixelFormat::Rgb8};
    for (int line = 0; line < height; ++line) {
        std::memcpy(part.row(line), whole.row(y + line) + std::ptrdiff_t{3} * x,
                    static_cast<std::size_t>(width) * 3);
    }
    return part;
}

/// The rows the scaler writes may run a little past their end; it gets room of its own.
PixelBuffer convert(const AVFrame& picture, const StoredRect& rect, int width, int height,
                    int flags) {
    PixelBuffer result{width, height, PixelFormat::Rgb8};
    SwsContext* context = contextFor({rect.width, rect.height, picture.format, width, height, flags,
                                      matrixOf(picture), isFullRange(picture) ? 1 : 0});
    if (context == nullptr) {
        return result;
    }
    const auto planes = planesFrom(picture, rect.x, rect.y);
    constexpr std::ptrdiff_t kRowStep = 64;
    const std::ptrdiff_t stride = (result.strideBytes() + 2 * kRowStep - 1) / kRowStep * kRowStep;
    thread_local std::vector<std::uint8_t> room;
    room.resize(static_cast<std::size_t>(stride) * static_cast<std::size_t>(height) + kRowStep);
    const std::array<std::uint8_t*, 4> target{room.data(), nullptr, nullptr, nullptr};
    const std::array<int, 4> targetStride{static_cast<int>(stride), 0, 0, 0};
    sws_scale(context, planes.data(), picture.linesize, 0, rect.height, target.data(),
              targetStride.data());
    for (int line = 0; line < height; ++line) {
        std::memcpy(result.row(line), room.data() + line * stride,
                    static_cast<std::size_t>(result.strideBytes()));
    }
    return result;
}

}  // namespace

PixelBuffer toRgb(const AVFrame& picture, const StoredRect& rect) {
    const int left = std::max(0, rect.x / kAlignX * kAlignX - kAlignX);
    const int top = std::max(0, rect.y / kAlignY * kAlignY - kAlignY);
    const auto upTo = [](int end, int step, int limit) {
        return std::min(limit, (end + step - 1) / step * step + step);
    };
    const int right = upTo(rect.x + rect.width, kAlignX, picture.width);
    const int bottom = upTo(rect.y + rect.height, kAlignY, picture.height);
    const StoredRect larger{left, top, right - left, bottom - top};
    return cut(convert(picture, larger, larger.width, larger.height, SWS_BICUBIC), rect.x - left,
               rect.y - top, rect.width, rect.height);
}

PixelBuffer toRgbScaled(const AVFrame& picture, int width, int height) {
    const StoredRect whole{0, 0, picture.width, picture.height};
    return convert(picture, whole, width, height, SWS_AREA);
}

}  // namespace core::media
