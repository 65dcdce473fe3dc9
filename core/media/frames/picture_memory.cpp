#include "core/media/frames/picture_memory.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>

#include "core/jobs/recycled_memory.h"

namespace core::media {
namespace {

/// Between planes and at the end: decoders may read and write a little beyond a plane's last row.
constexpr std::size_t kBeyondPlane = 128;
constexpr std::size_t kAlignment = 64;  // of planes: the widest registers

struct Layout {
    std::array<int, 4> rowBytes{};
    std::array<std::size_t, 4> planeBytes{};  ///< zero for planes that there are not
    std::size_t bytes{};
};

/// Negative: FFmpeg's error number.
int layOut(AVCodecContext& decoder, const AVFrame& picture, Layout& layout) {
    const auto format = static_cast<AVPixelFormat>(picture.format);
    int width = picture.width;
    int height = picture.height;
    std::array<int, AV_NUM_DATA_POINTERS> rowSteps{};
    avcodec_align_dimensions2(&decoder, &width, &height, rowSteps.data());
    for (bool isAligned = false; !isAligned; width += width & -width) {
        // A width that is divided by one more power of two each time round.
        const int filled = av_image_fill_linesizes(layout.rowBytes.data(), format, width);
        if (filled < 0) {
            return filled;
        }
        isAligned = true;
        for (std::size_t plane = 0; plane < layout.rowBytes.size(); ++plane) {
            isAligned = isAligned && layout.rowBytes[plane] % rowSteps[plane] == 0;
        }
    }
    const std::array<std::ptrdiff_t, 4> rows{layout.rowBytes[0], layout.rowBytes[1],
                                             layout.rowBytes[2], layout.rowBytes[3]};
    const int sized =
        av_image_fill_plane_sizes(layout.planeBytes.data(), format, height, rows.data());
    if (sized < 0) {
        return sized;
    }
    for (std::size_t& plane : layout.planeBytes) {
        if (plane > 0) {
            plane = (plane + kBeyondPlane + kAlignment - 1) / kAlignment * kAlignment;
            layout.bytes += plane;
        }
    }
    return 0;
}

/// The size of the block comes back in the pointer that FFmpeg passes through.
void giveBack(void* bytes, std::uint8_t* data) {
    jobs::RecycledMemory::ofProgram().giveBack(
        {reinterpret_cast<std::byte*>(data), reinterpret_cast<std::uintptr_t>(bytes)});
}

int giveBuffer(AVCodecContext* decoder, AVFrame* picture, int flags) {
    const AVPixFmtDescriptor* pixels =
        av_pix_fmt_desc_get(static_cast<AVPixelFormat>(picture->format));
    const bool isPlain =
        pixels != nullptr && (pixels->flags & (AV_PIX_FMT_FLAG_HWACCEL | AV_PIX_FMT_FLAG_PAL)) == 0;
    if (!isPlain || (decoder->codec->capabilities & AV_CODEC_CAP_DR1) == 0) {
        return avcodec_default_get_buffer2(decoder, picture, flags);
    }
    Layout layout;
    if (const int error = layOut(*decoder, *picture, layout); error < 0) {
        return error;
    }
    auto& memory = jobs::RecycledMemory::ofProgram();
    const auto block = memory.take(layout.bytes);
    if (block.data == nullptr) {
        return AVERROR(ENOMEM);
    }
    auto* plane = reinterpret_cast<std::uint8_t*>(block.data);
    // NOLINTNEXTLINE(performance-no-int-to-ptr): a size that only giveBack() reads
    auto* size = reinterpret_cast<void*>(block.bytes);
    picture->buf[0] = av_buffer_create(plane, block.bytes, giveBack, size, 0);
    if (picture->buf[0] == nullptr) {
        memory.giveBack(block);
        return AVERROR(ENOMEM);
    }
    for (std::size_t i = 0; i < layout.planeBytes.size() && layout.planeBytes[i] > 0; ++i) {
        picture->data[i] = plane;
        picture->linesize[i] = layout.rowBytes[i];
        plane += layout.planeBytes[i];
    }
    picture->extended_data = picture->data;
    return 0;
}

}  // namespace

void decodeIntoRecycledMemory(AVCodecContext& decoder) noexcept {
    decoder.get_buffer2 = giveBuffer;
#if LIBAVCODEC_VERSION_MAJOR < 60
#pragma GCC diagnostic push
#pragma GCC diagnostic ignored "-Wdeprecated-declarations"
    decoder.thread_safe_callbacks = 1;  // later versions take it for granted
#pragma GCC diagnostic pop
#endif
}

}  // namespace core::media
