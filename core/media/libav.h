#pragma once

// FFmpeg's C headers and owners for its handles. Internal to core/media.

extern "C" {
#include <libavcodec/avcodec.h>
#include <libavcodec/bsf.h>
#include <libavformat/avformat.h>
#include <libavutil/cpu.h>
#include <libavutil/display.h>
#include <libavutil/error.h>
#include <libavutil/imgutils.h>
#include <libavutil/opt.h>
#include <libavutil/pixdesc.h>
#include <libswresample/swresample.h>
#include <libswscale/swscale.h>
}

#include <array>
#include <memory>
#include <string>

namespace core::media {

/// Calls one of FFmpeg's functions that free a handle through a pointer to it.
template <auto freeHandle>
struct FreeByAddress {
    template <class T>
    void operator()(T* handle) const noexcept {
        freeHandle(&handle);
    }
};
struct FreeSws {
    void operator()(SwsContext* context) const noexcept { sws_freeContext(context); }
};

using CodecContextPtr = std::unique_ptr<AVCodecContext, FreeByAddress<avcodec_free_context>>;
using AvFramePtr = std::unique_ptr<AVFrame, FreeByAddress<av_frame_free>>;
using PacketPtr = std::unique_ptr<AVPacket, FreeByAddress<av_packet_free>>;
using FormatContextPtr = std::unique_ptr<AVFormatContext, FreeByAddress<avformat_close_input>>;
using BitstreamFilterPtr = std::unique_ptr<AVBSFContext, FreeByAddress<av_bsf_free>>;
using SwrContextPtr = std::unique_ptr<SwrContext, FreeByAddress<swr_free>>;
using SwsContextPtr = std::unique_ptr<SwsContext, FreeSws>;

/// FFmpeg's own words for one of its error numbers.
inline std::string libavErrorText(int error) {
    std::array<char, AV_ERROR_MAX_STRING_SIZE> text{};
    av_strerror(error, text.data(), text.size());
    return text.data();
}

}  // namespace core::media
