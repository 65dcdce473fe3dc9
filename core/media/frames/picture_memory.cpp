#include "core/media/frames/picture_memory.h"

#include <algorithm>
#include <cstddef>
#include <cstdint>
#include <memory>

#include "core/base/words.h"
#include "core/jobs/memory_budget.h"
#include "core/jobs/recycled_memory.h"
#include "core/media/libav_log.h"

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

/// A block on loan, and the account that it is noted in.
struct Loan {
    jobs::RecycledMemory::Block block;
    std::shared_ptr<std::atomic<std::size_t>> account;
};

void giveBack(void* opaque, std::uint8_t* /*data*/) {
    const std::unique_ptr<Loan> loan{static_cast<Loan*>(opaque)};
    *loan->account -= loan->block.bytes;
    jobs::RecycledMemory::ofProgram().giveBack(loan->block);
}

/// Whether one more picture keeps the decoder within its allowance. Pictures that the program's
/// holders have are in the budget and not the decoder's; whose they are is not known, which errs on
/// the side of allowing.
bool hasRoom(std::size_t held, std::size_t more) {
    const std::size_t elsewhere = jobs::MemoryBudget::ofProgram().counters().allBytes();
    return held + more <= decodingAllowanceBytes() + elsewhere;
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
    auto* complaints = static_cast<DecodeComplaints*>(decoder->opaque);
    const auto& account = complaints->pictureBytes();
    if (!hasRoom(*account, layout.bytes)) {
        complaints->add(picture->reordered_opaque,
                        said("its pictures and those that they refer to take more than {} "
                             "MB, as no camera's do; the file is damaged",
                             decodingAllowanceBytes() / 1'000'000));
        return AVERROR(ENOMEM);
    }
    auto& memory = jobs::RecycledMemory::ofProgram();
    const auto block = memory.take(layout.bytes);
    if (block.data == nullptr) {
        return AVERROR(ENOMEM);
    }
    auto* plane = reinterpret_cast<std::uint8_t*>(block.data);
    auto loan = std::make_unique<Loan>(Loan{block, account});
    picture->buf[0] = av_buffer_create(plane, block.bytes, giveBack, loan.get(), 0);
    if (picture->buf[0] == nullptr) {
        memory.giveBack(block);
        return AVERROR(ENOMEM);
    }
    *account += block.bytes;
    static_cast<void>(loan.release());  // giveBack() has it now
    for (std::size_t i = 0; i < layout.planeBytes.size() && layout.planeBytes[i] > 0; ++i) {
        picture->data[i] = plane;
        picture->linesize[i] = layout.rowBytes[i];
        plane += layout.planeBytes[i];
    }
    picture->extended_data = picture->data;
    return 0;
}

}  // namespace

std::size_t decodingAllowanceBytes() noexcept {
    constexpr std::size_t kLeast = std::size_t{1} << 30U;
    return std::max(kLeast, jobs::MemoryBudget::ofProgram().counters().limitBytes / 2);
}

int decodingThreads(int wanted, const AVCodecParameters& pictures) noexcept {
    const int bytes = av_image_get_buffer_size(static_cast<AVPixelFormat>(pictures.format),
                                               pictures.width, pictures.height, 1);
    const int threads = wanted > 0 ? wanted : std::min(av_cpu_count() + 1, 16);  // as FFmpeg does
    const std::size_t perPicture = static_cast<std::size_t>(std::max(bytes, 1));
    const std::size_t most = decodingAllowanceBytes() / 3 / perPicture;
    return std::min(threads, static_cast<int>(std::clamp<std::size_t>(most, 1, 64)));
}

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
