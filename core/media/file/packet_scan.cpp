#include "core/media/file/packet_scan.h"

#include <algorithm>
#include <cmath>
#include <memory>
#include <span>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/media/file/presentation_order.h"
#include "core/media/libav_log.h"

namespace core::media {
namespace {

bool isShownVp9(std::span<const std::uint8_t> data) {
    const bool isSuperframe = (data.back() & 0xE0U) == 0xC0U;
    const std::uint8_t header = data.front();
    const unsigned profile = ((header >> 5U) & 1U) | ((header >> 3U) & 2U);
    if (isSuperframe || (header >> 6U) != 2U || profile == 3U) {
        return true;  // a superframe ends with a shown picture; of profile 3 we know no hidden ones
    }
    const bool showsExisting = (header & 8U) != 0;
    const bool showsThis = (header & 2U) != 0;
    return showsExisting || showsThis;
}

/// Picture order count of H.264 and HEVC packets, by FFmpeg's parser.
class OrderCounter {
public:
    explicit OrderCounter(const AVCodecParameters& parameters)
        : m_parser{av_parser_init(parameters.codec_id)},
          m_context{avcodec_alloc_context3(nullptr)} {
        if (m_parser != nullptr && m_context != nullptr) {
            m_parser->flags |= PARSER_FLAG_COMPLETE_FRAMES;
            avcodec_parameters_to_context(m_context.get(), &parameters);
        }
    }
    std::int64_t orderOf(const AVPacket& packet) {
        if (m_parser == nullptr || m_context == nullptr) {
            return 0;
        }
        std::uint8_t* data = nullptr;
        int size = 0;
        av_parser_parse2(m_parser.get(), m_context.get(), &data, &size, packet.data, packet.size,
                         packet.pts, packet.dts, packet.pos);
        return m_parser->output_picture_number;
    }

private:
    struct CloseParser {
        void operator()(AVCodecParserContext* parser) const noexcept { av_parser_close(parser); }
    };
    std::unique_ptr<AVCodecParserContext, CloseParser> m_parser;
    CodecContextPtr m_context;
};

/// Reads vop_coding_type behind the first vop_start_code (ISO/IEC 14496-2, 6.2.5).
VopType vopTypeOf(const AVPacket& packet) {
    for (int i = 0; i + 4 < packet.size; ++i) {
        const std::uint8_t* at = packet.data + i;
        if (at[0] == 0 && at[1] == 0 && at[2] == 1 && at[3] == 0xB6) {
            switch (at[4] >> 6U) {
                case 0:
                    return VopType::Intra;
                case 1:
                    return VopType::Predicted;
                case 2:
                    return VopType::Bidirectional;
                default:
                    return VopType::Other;
            }
        }
    }
    return VopType::Other;
}

/// What the pass over the packets collects beside the records.
struct Collected {
    PacketScan scan;
    std::vector<std::int64_t> orderCounts;  ///< only for files without presentation stamps
    std::vector<VopType> vopTypes;          ///< only for MPEG-4 part 2
};

bool hasReordering(const AVStream& stream) {
    const AVCodecDescriptor* codec = avcodec_descriptor_get(stream.codecpar->codec_id);
    return codec != nullptr && (codec->props & AV_CODEC_PROP_REORDER) != 0;
}

std::vector<std::size_t> orderOf(const Collected& collected, const AVStream& stream) {
    const auto& packets = collected.scan.packets;
    if (!collected.scan.hasStamps && stream.codecpar->codec_id == AV_CODEC_ID_MPEG4) {
        return presentationOrder(collected.vopTypes);
    }
    std::vector<OrderedPacket> ordered;
    ordered.reserve(packets.size());
    for (std::size_t i = 0; i < packets.size(); ++i) {
        ordered.push_back({collected.scan.hasStamps ? packets[i].pts : collected.orderCounts[i],
                           packets[i].isKey});
    }
    return presentationOrder(ordered, hasReordering(stream));
}

/// Stamps of a file that has decoding stamps only: a picture leaves the decoder when the packet
/// `delay` places later goes in, and takes that packet's stamp; at the end the file's steady step
/// goes on. This is what ffprobe shows as best_effort_timestamp, where it shows one.
std::int64_t stampByDecoding(const PacketScan& scan, std::size_t rank, int delay) {
    const std::size_t shifted = rank + static_cast<std::size_t>(std::max(delay, 0));
    const std::size_t from = std::min(shifted, scan.packets.size() - 1);
    return scan.packets[from].dts + static_cast<std::int64_t>(shifted - from);
}

/// Stamps that no clip has; arithmetic on them would leave 64 bits.
bool isBeyondUse(std::int64_t ticks, const ClipFile& clip) {
    constexpr double kMostTicks = 9007199254740992.0;  // 2^53
    constexpr double kMostSeconds = 1e7;               // four months
    const double size = ticks == AV_NOPTS_VALUE ? 0.0 : std::abs(static_cast<double>(ticks));
    return size > kMostTicks || size * av_q2d(clip.stream().time_base) > kMostSeconds;
}

/// A file that ends early ends within a picture.
void dropCutEnd(Collected& collected) {
    auto& packets = collected.scan.packets;
    if (packets.empty() || !packets.back().isCut) {
        return;
    }
    packets.pop_back();
    collected.vopTypes.resize(std::min(collected.vopTypes.size(), packets.size()));
    collected.orderCounts.resize(std::min(collected.orderCounts.size(), packets.size()));
    collected.scan.endedEarly = toKeep("the last picture is cut off");
}

Result<Collected> collect(ClipFile& clip) {
    Collected collected;
    const AVCodecParameters& parameters = *clip.stream().codecpar;
    const bool isMpeg4 = parameters.codec_id == AV_CODEC_ID_MPEG4;
    OrderCounter counter{parameters};
    bool countsOrder = false;
    const PacketPtr packet{av_packet_alloc()};
    while (clip.nextPacket(*packet)) {
        const bool isCut = (packet->flags & AV_PKT_FLAG_CORRUPT) != 0;
        const bool isWithoutItsTime = isCut && packet->pts == AV_NOPTS_VALUE &&
                                      !collected.scan.packets.empty() &&
                                      collected.scan.packets.back().pts != AV_NOPTS_VALUE;
        if (packet->size == 0 || isWithoutItsTime) {  // the latter is a gap
            continue;
        }
        if (isBeyondUse(packet->pts, clip) || isBeyondUse(packet->dts, clip)) {
            collected.scan.endedEarly = toKeep("a time stamp is beyond all measure");
            break;
        }
        PacketRecord record;
        record.pts = packet->pts;
        record.dts = packet->dts;
        record.bytePosition = packet->pos;
        record.isKey = (packet->flags & AV_PKT_FLAG_KEY) != 0;
        record.isCut = isCut;
        record.isShown = isShownPacket(parameters.codec_id, *packet);
        collected.scan.packets.push_back(record);
        if (isMpeg4) {
            collected.vopTypes.push_back(vopTypeOf(*packet));
            // Some AVI files flag packets as key pictures that are none.
            collected.scan.packets.back().isKey &= collected.vopTypes.back() == VopType::Intra;
            continue;
        }
        countsOrder |= record.pts == AV_NOPTS_VALUE;
        collected.orderCounts.push_back(countsOrder ? counter.orderOf(*packet) : 0);
    }
    if (clip.isStopRequested()) {
        return fail(ErrorCode::Cancelled, said("Reading the clip was cancelled."));
    }
    if (clip.goesInCircles()) {
        return fail(ErrorCode::Unreadable,
                    aboutFile(clip.path(),
                              said("Its table of contents names the same bytes as pictures again "
                                   "and again, more of them than the file has. It is damaged: copy "
                                   "the file from the camera again.")));
    }
    dropCutEnd(collected);
    if (clip.stoppedEarly()) {
        const std::string detail = lastReaderError();
        collected.scan.endedEarly = detail.empty() ? libavErrorText(clip.readError()) : detail;
    }
    return collected;
}

}  // namespace

bool isShownPacket(AVCodecID codec, const AVPacket& packet) {
    if ((packet.flags & AV_PKT_FLAG_DISCARD) != 0) {
        return false;
    }
    if (packet.size == 0 || packet.data == nullptr) {
        return true;
    }
    const std::span data{packet.data, static_cast<std::size_t>(packet.size)};
    if (codec == AV_CODEC_ID_VP8) {
        return (data.front() & 0x10U) != 0;
    }
    return codec != AV_CODEC_ID_VP9 || isShownVp9(data);
}

Result<PacketScan> scanPackets(ClipFile& clip) {
    BOOST_OUTCOME_TRY(collected, collect(clip));
    PacketScan& scan = collected.scan;
    const AVStream& stream = clip.stream();
    for (const PacketRecord& packet : scan.packets) {
        scan.hasStamps &= packet.pts != AV_NOPTS_VALUE;
    }
    const std::vector<std::size_t> order = orderOf(collected, stream);
    for (std::size_t rank = 0; rank < order.size(); ++rank) {
        PacketRecord& packet = scan.packets[order[rank]];
        packet.order = static_cast<std::int64_t>(rank);
        if (packet.isShown) {
            packet.frame = static_cast<std::int64_t>(scan.stamps.size());
            scan.stamps.push_back(scan.hasStamps
                                      ? packet.pts
                                      : stampByDecoding(scan, rank, stream.codecpar->video_delay));
            scan.isKey.push_back(packet.isKey);
        }
    }
    return std::move(scan);
}

}  // namespace core::media
