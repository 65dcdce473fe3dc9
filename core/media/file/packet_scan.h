#pragma once

#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "core/base/result.h"
#include "core/media/file/clip_file.h"

namespace core::media {

/// One packet of the video stream.
struct PacketRecord {
    std::int64_t pts{};  ///< as read; AV_NOPTS_VALUE where the container has none
    std::int64_t dts{};
    std::int64_t bytePosition{};
    bool isKey{};
    bool isCut{};                       ///< part of it was lost on the way; its picture is damaged
    bool isShown{};                     ///< gives a frame: not cut by an edit list, not hidden
    std::int64_t order{};               ///< rank in presentation among all packets
    std::optional<std::int64_t> frame;  ///< position in presentation among the shown ones
};

/// All packets of the video stream, in decoding order, with their place in presentation.
struct PacketScan {
    std::vector<PacketRecord> packets;
    std::vector<std::int64_t> stamps;  ///< one a frame, presentation order
    std::vector<bool> isKey;           ///< one a frame, presentation order
    bool hasStamps{true};              ///< presentation stamps stand in the file
    std::string endedEarly;            ///< why reading stopped before the end; empty: it did not
};

/// Reads every packet once. A file that cannot be read to its end gives what came before.
/// Errors: Cancelled.
Result<PacketScan> scanPackets(ClipFile& clip);

/// False for packets whose picture is never shown: cut off by an edit list, or the hidden
/// reference pictures of VP8 (RFC 6386, 9.1) and VP9 (bitstream specification, 6.2 and annex B).
bool isShownPacket(AVCodecID codec, const AVPacket& packet);

}  // namespace core::media
