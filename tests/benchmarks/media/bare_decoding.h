#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>

#include "core/media/libav.h"

namespace benchmarks {

/// The least that has to be done with FFmpeg's libraries for a job: what the engine is held
/// against. No checks of what is in the pictures; throws std::runtime_error when a call fails.
class BareClip {
public:
    /// Opens the file and reads about its streams.
    explicit BareClip(const std::filesystem::path& file, AVMediaType type = AVMEDIA_TYPE_VIDEO);

    /// Reads all packets of the stream; how many there were.
    int readPackets();
    /// Opens the decoder; 0 threads: it chooses.
    void openDecoder(int threads);
    /// Decodes from here to the end, keeping the last ones; how many pictures or blocks of sound
    /// came out.
    int decodeAll(std::size_t kept = 0);
    /// Seeks to the key frame at or before the stamp and decodes until the picture with it is out.
    void decodeAt(std::int64_t ticks);

private:
    /// The next decoded picture; false at the end.
    bool next();
    void check(int result, const char* what) const;

    core::media::FormatContextPtr m_format;
    core::media::CodecContextPtr m_decoder;
    core::media::PacketPtr m_packet{av_packet_alloc()};
    core::media::AvFramePtr m_frame{av_frame_alloc()};
    int m_stream{};
    std::string m_file;
};

}  // namespace benchmarks
