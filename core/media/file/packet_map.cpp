#include "core/media/file/packet_map.h"

#include <algorithm>
#include <functional>

namespace core::media {
namespace {

bool stampsTellFrames(const ClipIndex& index) {
    const auto& ticks = index.stamps.ticks;
    const bool increase =
        std::adjacent_find(ticks.begin(), ticks.end(), std::greater_equal<>{}) == ticks.end();
    return increase && index.facts.container != "avi";  // AVI stores no presentation stamps
}

}  // namespace

Result<PacketMap> PacketMap::make(ClipFile& clip, const ClipIndex& index) {
    PacketMap map;
    map.m_codec = clip.stream().codecpar->codec_id;
    map.m_goesByStamps = stampsTellFrames(index);
    if (map.m_goesByStamps) {
        return map;
    }
    BOOST_OUTCOME_TRY(scan, scanPackets(clip));
    for (const PacketRecord& packet : scan.packets) {
        map.m_byPosition.emplace(packet.bytePosition, packet);
        if (packet.frame && packet.isKey) {
            map.m_seekTicks[*packet.frame] = packet.dts != AV_NOPTS_VALUE ? packet.dts : packet.pts;
        }
    }
    BOOST_OUTCOME_TRY(clip.rewind());
    return map;
}

PacketMap::Place PacketMap::placeOf(const AVPacket& packet, const ClipIndex& index) const {
    if (m_goesByStamps) {
        const auto& ticks = index.stamps.ticks;
        Place place{.order = packet.pts, .frame = std::nullopt};
        const auto found = std::lower_bound(ticks.begin(), ticks.end(), packet.pts);
        if (found != ticks.end() && *found == packet.pts && isShownPacket(m_codec, packet)) {
            place.frame = found - ticks.begin();
        }
        return place;
    }
    const auto [begin, end] = m_byPosition.equal_range(packet.pos);
    for (auto at = begin; at != end; ++at) {
        if (std::next(begin) == end || at->second.pts == packet.pts) {
            return {.order = at->second.order, .frame = at->second.frame};
        }
    }
    return {};
}

std::int64_t PacketMap::seekTicks(std::int64_t frame, const ClipIndex& index) const {
    const auto known = m_seekTicks.find(frame);
    return known != m_seekTicks.end() ? known->second
                                      : index.stamps.ticks[static_cast<std::size_t>(frame)];
}

}  // namespace core::media
