#include "core/media/film/film_encoder.h"

#include <algorithm>
#include <cmath>
#include <string_view>

#include "core/base/words.h"

namespace core::media {
namespace {

constexpr int kDefaultThreads = 4;  // fixed, for the same bytes on every machine

Result<void> writeFailed(const std::string& what, int error) {
    return fail(ErrorCode::WriteFailed, what + ": " + libavErrorText(error) + ".");
}

bool offers(const AVCodec& codec, AVPixelFormat format) {
    if (codec.pix_fmts == nullptr) {
        return true;
    }
    for (const AVPixelFormat* one = codec.pix_fmts; *one != AV_PIX_FMT_NONE; ++one) {
        if (*one == format) {
            return true;
        }
    }
    return false;
}

/// AV_PIX_FMT_NONE when the wanted one is not on offer.
AVPixelFormat pixelFormatFor(const AVCodec& codec, const FilmWriter::Options& options) {
    const auto wanted = options.encoderOptions.find("pix_fmt");
    if (wanted != options.encoderOptions.end()) {
        const AVPixelFormat format = av_get_pix_fmt(wanted->second.c_str());
        return format != AV_PIX_FMT_NONE && offers(codec, format) ? format : AV_PIX_FMT_NONE;
    }
    if (codec.id == AV_CODEC_ID_FFV1) {
        return AV_PIX_FMT_BGR0;
    }
    if (codec.id == AV_CODEC_ID_MJPEG) {
        return AV_PIX_FMT_YUVJ420P;
    }
    if (offers(codec, AV_PIX_FMT_YUV420P)) {
        return AV_PIX_FMT_YUV420P;
    }
    return codec.pix_fmts[0];
}

bool isRgb(AVPixelFormat format) {
    return (av_pix_fmt_desc_get(format)->flags & AV_PIX_FMT_FLAG_RGB) != 0;
}

/// Where nothing can say which matrix was used, readers take BT.601: AVI has no place for it.
void labelColours(AVCodecContext& context, const AVOutputFormat& container) {
    const bool isJpeg = context.codec_id == AV_CODEC_ID_MJPEG;
    const bool isBt601 = isJpeg || std::string_view{container.name} == "avi";
    context.color_range = isJpeg || isRgb(context.pix_fmt) ? AVCOL_RANGE_JPEG : AVCOL_RANGE_MPEG;
    if (isRgb(context.pix_fmt)) {
        return;
    }
    context.colorspace = isBt601 ? AVCOL_SPC_SMPTE170M : AVCOL_SPC_BT709;
    context.color_primaries = AVCOL_PRI_BT709;
    context.color_trc = AVCOL_TRC_BT709;
}

void setQuality(AVCodecContext& context, const FilmWriter::Options& options) {
    if (options.bitsPerSecond > 0) {
        context.bit_rate = options.bitsPerSecond;
        return;
    }
    context.bit_rate = 0;
    if (context.priv_data != nullptr &&
        av_opt_find(context.priv_data, "crf", nullptr, 0, 0) != nullptr) {
        av_opt_set_double(context.priv_data, "crf", options.constantQuality, 0);
    } else {
        context.flags |= AV_CODEC_FLAG_QSCALE;
        context.global_quality = FF_QP2LAMBDA * std::clamp(options.constantQuality / 5, 1, 31);
    }
}

Result<void> passOptions(AVCodecContext& context, const FilmWriter::Options& options) {
    for (const auto& [key, value] : options.encoderOptions) {
        if (key == "pix_fmt") {
            continue;
        }
        const int set = av_opt_set(&context, key.c_str(), value.c_str(), AV_OPT_SEARCH_CHILDREN);
        if (set < 0) {
            return fail(ErrorCode::Unsupported,
                        said("The encoder {} does not take the option {}={}: {}.", options.encoder,
                             key, value, libavErrorText(set)));
        }
    }
    return ok();
}

SwsContextPtr converterTo(const AVCodecContext& context) {
    SwsContextPtr sws{sws_getContext(context.width, context.height, AV_PIX_FMT_RGB24, context.width,
                                     context.height, context.pix_fmt,
                                     SWS_BICUBIC | SWS_ACCURATE_RND | SWS_FULL_CHR_H_INT, nullptr,
                                     nullptr, nullptr)};
    if (sws != nullptr) {
        sws_setColorspaceDetails(sws.get(), sws_getCoefficients(SWS_CS_DEFAULT), 1,
                                 sws_getCoefficients(context.colorspace),
                                 context.color_range == AVCOL_RANGE_JPEG ? 1 : 0, 0, 1 << 16,
                                 1 << 16);
    }
    return sws;
}

}  // namespace

Result<const AVCodec*> PictureEncoder::findEncoder(const FilmWriter::Options& options) {
    const AVCodec* codec = avcodec_find_encoder_by_name(options.encoder.c_str());
    if (codec == nullptr || codec->type != AVMEDIA_TYPE_VIDEO) {
        return fail(ErrorCode::Unsupported, said("There is no video encoder named '{}' here. Use "
                                                 "libx264, or install FFmpeg with it.",
                                                 options.encoder));
    }
    if (pixelFormatFor(*codec, options) == AV_PIX_FMT_NONE) {
        return fail(ErrorCode::Unsupported,
                    said("The encoder {} does not take the pixel format '{}'.", options.encoder,
                         options.encoderOptions.at("pix_fmt")));
    }
    return codec;
}

Result<std::unique_ptr<PictureEncoder>> PictureEncoder::open(const FilmWriter::Options& options,
                                                             std::int64_t firstDurationTicks,
                                                             const AVOutputFormat& container) {
    BOOST_OUTCOME_TRY(codec, findEncoder(options));
    std::unique_ptr<PictureEncoder> encoder{new PictureEncoder};
    encoder->m_context.reset(avcodec_alloc_context3(codec));
    AVCodecContext& context = *encoder->m_context;
    context.width = options.width;
    context.height = options.height;
    context.pix_fmt = pixelFormatFor(*codec, options);
    context.sample_aspect_ratio = {1, 1};
    constexpr int kMostDenominator = 65535;  // MPEG-4 part 2 stores 16 bits
    av_reduce(&context.time_base.num, &context.time_base.den,
              firstDurationTicks * options.timeBase.num(), options.timeBase.den(),
              kMostDenominator);
    context.framerate = av_inv_q(context.time_base);
    context.gop_size = options.keyFrameInterval;
    context.max_b_frames = options.bFrames;
    context.thread_count = options.threads > 0 ? options.threads : kDefaultThreads;
    context.flags |= AV_CODEC_FLAG_BITEXACT;
    context.flags |= (container.flags & AVFMT_GLOBALHEADER) != 0 ? AV_CODEC_FLAG_GLOBAL_HEADER : 0;
    labelColours(context, container);
    setQuality(context, options);
    BOOST_OUTCOME_TRY(passOptions(context, options));
    const int opened = avcodec_open2(&context, codec, nullptr);
    encoder->m_toEncoder = converterTo(context);
    if (opened < 0 || encoder->m_toEncoder == nullptr) {
        return fail(ErrorCode::Unsupported,
                    said("The encoder {} refuses pictures of {} by {} with these options: {}.",
                         options.encoder, options.width, options.height, libavErrorText(opened)));
    }
    return encoder;
}

Result<void> PictureEncoder::convert(PixelView picture) {
    av_frame_unref(m_picture.get());
    m_picture->format = m_context->pix_fmt;
    m_picture->width = m_context->width;
    m_picture->height = m_context->height;
    m_picture->color_range = m_context->color_range;
    m_picture->colorspace = m_context->colorspace;
    if (const int got = av_frame_get_buffer(m_picture.get(), 0); got < 0) {
        return writeFailed(said("There is no memory for a picture"), got);
    }
    const std::array<const std::uint8_t*, 4> source{picture.data, nullptr, nullptr, nullptr};
    const std::array<int, 4> stride{static_cast<int>(picture.strideBytes), 0, 0, 0};
    sws_scale(m_toEncoder.get(), source.data(), stride.data(), 0, picture.height, m_picture->data,
              m_picture->linesize);
    if ((m_context->flags & AV_CODEC_FLAG_QSCALE) != 0) {
        m_picture->quality = m_context->global_quality;
    }
    return ok();
}

Result<void> PictureEncoder::encode(PixelView picture, std::int64_t ticks,
                                    std::int64_t durationTicks, const PacketSink& sink) {
    BOOST_OUTCOME_TRY(convert(picture));
    m_picture->pts = static_cast<std::int64_t>(m_ticks.size());
    m_ticks.push_back(ticks);
    m_durations.push_back(durationTicks);
    return send(m_picture.get(), sink);
}

Result<void> PictureEncoder::flush(const PacketSink& sink) {
    return send(nullptr, sink);
}

/// Decoding stamps run a few pictures ahead of the first one.
std::int64_t PictureEncoder::ticksOf(std::int64_t count) const {
    const auto known = static_cast<std::int64_t>(m_ticks.size());
    if (count < 0) {
        return m_ticks.front() + count * m_durations.front();
    }
    return count < known ? m_ticks[static_cast<std::size_t>(count)]
                         : m_ticks.back() + (count - known + 1) * m_durations.back();
}

Result<void> PictureEncoder::send(const AVFrame* picture, const PacketSink& sink) {
    if (const int sent = avcodec_send_frame(m_context.get(), picture); sent < 0) {
        return writeFailed(said("A picture cannot be encoded"), sent);
    }
    for (;;) {
        const int received = avcodec_receive_packet(m_context.get(), m_packet.get());
        if (received == AVERROR(EAGAIN) || received == AVERROR_EOF) {
            return ok();
        }
        if (received < 0) {
            return writeFailed(said("A picture cannot be encoded"), received);
        }
        const std::int64_t count = m_packet->pts;
        m_packet->pts = ticksOf(count);
        m_packet->dts = m_packet->dts == AV_NOPTS_VALUE ? m_packet->pts : ticksOf(m_packet->dts);
        m_packet->duration = m_durations.at(static_cast<std::size_t>(count));
        BOOST_OUTCOME_TRY(sink(*m_packet));
    }
}

Result<std::unique_ptr<SoundEncoder>> SoundEncoder::open(AVCodecID codecId, int samplesPerSecond,
                                                         bool wantsGlobalHeader) {
    const AVCodec* codec = avcodec_find_encoder(codecId);
    if (codec == nullptr) {
        return fail(ErrorCode::Unsupported,
                    said("There is no encoder for {} sound here.", avcodec_get_name(codecId)));
    }
    std::unique_ptr<SoundEncoder> encoder{new SoundEncoder};
    encoder->m_context.reset(avcodec_alloc_context3(codec));
    AVCodecContext& context = *encoder->m_context;
    context.sample_rate = samplesPerSecond;
    context.sample_fmt = codec->sample_fmts[0];
    context.time_base = {1, samplesPerSecond};
    constexpr std::int64_t kAacBitsPerSecond = 128'000;
    context.bit_rate = codecId == AV_CODEC_ID_AAC ? kAacBitsPerSecond : 0;
    av_channel_layout_default(&context.ch_layout, 1);
    context.flags |= AV_CODEC_FLAG_BITEXACT;
    context.flags |= wantsGlobalHeader ? AV_CODEC_FLAG_GLOBAL_HEADER : 0;
    if (const int opened = avcodec_open2(&context, codec, nullptr); opened < 0) {
        return fail(ErrorCode::Unsupported,
                    said("Sound with {} samples per second cannot be written: {}.",
                         samplesPerSecond, libavErrorText(opened)));
    }
    return encoder;
}

Result<void> SoundEncoder::encode(const float* samples, std::size_t count, const PacketSink& sink) {
    m_waiting.insert(m_waiting.end(), samples, samples + count);
    constexpr std::size_t kPcmBlock = 1024;
    const std::size_t block =
        m_context->frame_size > 0 ? static_cast<std::size_t>(m_context->frame_size) : kPcmBlock;
    while (m_waiting.size() >= block) {
        BOOST_OUTCOME_TRY(sendBlock(block, sink));
    }
    return ok();
}

Result<void> SoundEncoder::sendBlock(std::size_t count, const PacketSink& sink) {
    const AvFramePtr block{av_frame_alloc()};
    block->format = m_context->sample_fmt;
    block->nb_samples = static_cast<int>(count);
    block->sample_rate = m_context->sample_rate;
    av_channel_layout_copy(&block->ch_layout, &m_context->ch_layout);
    if (const int got = av_frame_get_buffer(block.get(), 0); got < 0) {
        return writeFailed(said("There is no memory for sound"), got);
    }
    if (m_context->sample_fmt == AV_SAMPLE_FMT_FLTP) {
        std::copy_n(m_waiting.begin(), count, reinterpret_cast<float*>(block->data[0]));
    } else {
        auto* target = reinterpret_cast<std::int16_t*>(block->data[0]);
        std::transform(m_waiting.begin(), m_waiting.begin() + static_cast<std::ptrdiff_t>(count),
                       target, [](float sample) {
                           return static_cast<std::int16_t>(
                               std::lround(std::clamp(sample, -1.0F, 1.0F) * 32767.0F));
                       });
    }
    m_waiting.erase(m_waiting.begin(), m_waiting.begin() + static_cast<std::ptrdiff_t>(count));
    block->pts = m_samplesSent;
    m_samplesSent += static_cast<std::int64_t>(count);
    return send(block.get(), sink);
}

Result<void> SoundEncoder::flush(const PacketSink& sink) {
    if (!m_waiting.empty()) {
        BOOST_OUTCOME_TRY(sendBlock(m_waiting.size(), sink));
    }
    return send(nullptr, sink);
}

Result<void> SoundEncoder::send(const AVFrame* block, const PacketSink& sink) {
    if (const int sent = avcodec_send_frame(m_context.get(), block); sent < 0) {
        return writeFailed(said("Sound cannot be encoded"), sent);
    }
    for (;;) {
        const int received = avcodec_receive_packet(m_context.get(), m_packet.get());
        if (received == AVERROR(EAGAIN) || received == AVERROR_EOF) {
            return ok();
        }
        if (received < 0) {
            return writeFailed(said("Sound cannot be encoded"), received);
        }
        BOOST_OUTCOME_TRY(sink(*m_packet));
    }
}

}  // namespace core::media
