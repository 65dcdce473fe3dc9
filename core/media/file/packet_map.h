#pragma once

#include <cstdint>
#include <map>
#include <optional>

#include "core/media/file/clip_file.h"
#include "core/media/file/clip_index.h"
#include "core/media/file/packet_scan.h"

namespace core::media {

/// Says which frame of a clip's index a packet or a decoded picture is. Immutable once made.
///
/// As a rule the presentation stamp alone says it. Where stamps repeat, go backwards or are not in
/// the file, the packet's place in the file says it, known from a pass over all packets.
class PacketMap {
public:
    struct Place {
        std::int64_t order{};               ///< grows in presentation order
        std::optional<std::int64_t> frame;  ///< absent for packets that give no frame
    };
    /// Reads all packets of the clip, if it must, and rewinds it. Errors: Cancelled, Unreadable.
    static Result<PacketMap> make(ClipFile& clip, const ClipIndex& index);

    [[nodiscard]] Place placeOf(const AVPacket& packet, const ClipIndex& index) const;
    /// True when stamps tell the frames apart.
    [[nodiscard]] bool goesByStamps() const noexcept { return m_goesByStamps; }
    /// Where to seek to reach the packet of a key frame, in ticks.
    [[nodiscard]] std::int64_t seekTicks(std::int64_t frame, const ClipIndex& index) const;

private:
    AVCodecID m_codec{AV_CODEC_ID_NONE};
    bool m_goesByStamps{true};
    std::multimap<std::int64_t, PacketRecord> m_byPosition;
    std::map<std::int64_t, std::int64_t> m_seekTicks;
};

}  // namespace core::media
