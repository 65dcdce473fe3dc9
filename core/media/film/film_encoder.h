#pragma once

#include <cstdint>
#include <functional>
#include <memory>
#include <vector>

#include "core/base/pixels.h"
#include "core/base/result.h"
#include "core/media/film/film_writer.h"
#include "core/media/libav.h"

namespace core::media {

/// Takes an encoded packet, its stamps in units of the film's own time base.
using PacketSink = std::function<Result<void>(AVPacket&)>;

/// Encodes pictures. Internal; Confined.
///
/// The encoder is told of a constant rate and counts pictures; their real stamps are put onto the
/// packets afterwards, so that every encoder takes any stamps.
class PictureEncoder {
public:
    static Result<std::unique_ptr<PictureEncoder>> open(const FilmWriter::Options& options,
                                                        std::int64_t firstDurationTicks,
                                                        const AVOutputFormat& container);
    /// Pixel formats are checked here, before any file is made. Errors: Unsupported.
    static Result<const AVCodec*> findEncoder(const FilmWriter::Options& options);

    Result<void> encode(PixelView picture, std::int64_t ticks, std::int64_t durationTicks,
                        const PacketSink& sink);
    Result<void> flush(const PacketSink& sink);
    [[nodiscard]] const AVCodecContext& context() const noexcept { return *m_context; }

private:
    PictureEncoder() = default;
    Result<void> convert(PixelView picture);
    Result<void> send(const AVFrame* picture, const PacketSink& sink);
    [[nodiscard]] std::int64_t ticksOf(std::int64_t count) const;

    CodecContextPtr m_context;
    SwsContextPtr m_toEncoder;
    AvFramePtr m_picture{av_frame_alloc()};
    PacketPtr m_packet{av_packet_alloc()};
    std::vector<std::int64_t> m_ticks;
    std::vector<std::int64_t> m_durations;
};

/// Encodes one channel of sound: AAC, or 16-bit PCM. Internal; Confined.
class SoundEncoder {
public:
    static Result<std::unique_ptr<SoundEncoder>> open(AVCodecID codec, int samplesPerSecond,
                                                      bool wantsGlobalHeader);
    Result<void> encode(const float* samples, std::size_t count, const PacketSink& sink);
    Result<void> flush(const PacketSink& sink);
    [[nodiscard]] const AVCodecContext& context() const noexcept { return *m_context; }

private:
    SoundEncoder() = default;
    Result<void> sendBlock(std::size_t count, const PacketSink& sink);
    Result<void> send(const AVFrame* block, const PacketSink& sink);

    CodecContextPtr m_context;
    PacketPtr m_packet{av_packet_alloc()};
    std::vector<float> m_waiting;
    std::int64_t m_samplesSent{};
};

}  // namespace core::media
