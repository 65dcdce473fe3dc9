#pragma once

#include <atomic>
#include <cstddef>
#include <cstdint>
#include <map>
#include <memory>
#include <mutex>
#include <string>

namespace core::media {

/// Collects what FFmpeg's decoders complain about, packet by packet. Shared.
///
/// Many decoders hide damage: they log an error, patch the picture and report success. The number
/// of the packet at fault is the reordered_opaque value of the decoder context, which FFmpeg copies
/// into each of its worker threads with the packet.
class DecodeComplaints {
public:
    /// The first text about a packet is kept.
    void add(std::int64_t packetNumber, std::string text);
    /// The packets of [first, last] that have one, and the texts.
    [[nodiscard]] std::map<std::int64_t, std::string> within(std::int64_t first,
                                                             std::int64_t last) const;
    void clear();

    /// Bytes of the decoder's pictures that nobody has let go of yet. They may outlive it.
    [[nodiscard]] const std::shared_ptr<std::atomic<std::size_t>>& pictureBytes() const noexcept {
        return m_pictureBytes;
    }

private:
    mutable std::mutex m_mutex;
    std::map<std::int64_t, std::string> m_complaints;
    std::shared_ptr<std::atomic<std::size_t>> m_pictureBytes{
        std::make_shared<std::atomic<std::size_t>>()};
};

/// Routes FFmpeg's messages, of the whole process, to us: a decoder whose context's opaque pointer
/// is a DecodeComplaints reports there; everything else is kept quiet. Called before any use.
void routeLibavMessages();

/// The last error FFmpeg's readers logged on this thread since clearLastReaderError(); often the
/// only place where the reason of a failure is told.
std::string lastReaderError();
void clearLastReaderError();

}  // namespace core::media
