#pragma once

#include <cstdint>
#include <filesystem>
#include <memory>
#include <stop_token>

#include "core/base/result.h"
#include "core/media/libav.h"

namespace core::media {

/// Most pixels of a picture: 8192 x 4320, the largest size of cameras.
inline constexpr std::int64_t kMostPixels = 8192LL * 4320LL;

/// A media file opened for demultiplexing. Internal; Confined.
class ClipFile {
public:
    /// Opens the file and its first video stream that is not a cover picture. The other streams
    /// are skipped. Errors: NotFound, Unreadable, Unsupported (more than kMostPixels, pixels that
    /// are not square), Cancelled: as readClipIndex.
    static Result<std::unique_ptr<ClipFile>> open(const std::filesystem::path& file,
                                                  std::stop_token stop);
    /// The same for the first sound stream; null when there is none.
    static Result<std::unique_ptr<ClipFile>> openSound(const std::filesystem::path& file,
                                                       std::stop_token stop);

    /// Only what the container says before its packets: no stream is chosen.
    static Result<std::unique_ptr<ClipFile>> openHeader(const std::filesystem::path& file,
                                                        std::stop_token stop);

    [[nodiscard]] AVFormatContext& format() const noexcept { return *m_format; }
    [[nodiscard]] AVStream& stream() const noexcept { return *m_stream; }
    [[nodiscard]] bool hasSound() const noexcept { return m_hasSound; }
    [[nodiscard]] const std::filesystem::path& path() const noexcept { return m_path; }
    /// The stop token that ends reading; it can be changed for each operation.
    void setStop(std::stop_token stop) { m_interrupt->stop = std::move(stop); }
    [[nodiscard]] bool isStopRequested() const { return m_interrupt->stop.stop_requested(); }

    /// The next packet of the chosen stream, its shape as the decoder wants it. False at the end.
    /// A file that ends early or cannot be read on gives false with stoppedEarly() set.
    bool nextPacket(AVPacket& packet);
    [[nodiscard]] bool stoppedEarly() const noexcept { return m_readError < 0; }
    [[nodiscard]] int readError() const noexcept { return m_readError; }
    /// The file gave more bytes as packets, since it was opened or sought, than it has twice over:
    /// its tables name the same ones again and again. It gives no more of them.
    [[nodiscard]] bool goesInCircles() const noexcept { return m_bytesLeft < 0; }
    /// Moves to a key packet at or before the time in ticks of the chosen stream.
    bool seek(std::int64_t ticks);
    /// Moves to the very first packet.
    Result<void> rewind();

private:
    struct Interrupt {
        std::stop_token stop;
    };
    ClipFile() = default;
    static Result<std::unique_ptr<ClipFile>> openContainer(const std::filesystem::path& file,
                                                           std::stop_token stop);
    void choose(AVStream& stream);
    Result<void> prepareFilter();
    bool nextDemuxed(AVPacket& packet);

    std::filesystem::path m_path;
    std::unique_ptr<Interrupt> m_interrupt = std::make_unique<Interrupt>();
    FormatContextPtr m_format;
    BitstreamFilterPtr m_filter;
    AVStream* m_stream{};
    bool m_hasSound{};
    bool m_filterDrained{};
    int m_readError{};
    std::int64_t m_bytesAllowed{};
    std::int64_t m_bytesLeft{};
};

/// Error texts start alike: the file, then what is wrong.
std::string aboutFile(const std::filesystem::path& file, const std::string& text);

}  // namespace core::media
