#include "core/media/file/stretches.h"

#include <algorithm>

#include "core/base/words.h"
#include "core/media/file/clip_file.h"
#include "core/media/file/packet_map.h"

namespace core::media {
namespace {

constexpr std::int64_t kFramesBefore = 32;
constexpr std::int64_t kFramesAfter = 32;
/// A decoder gives a picture out when so many more went in: 16 for the order (H.264, A.3.1,
/// MaxDpbFrames) and one for each of its threads.
constexpr std::size_t kPacketsAfter = 48;
constexpr std::int64_t kSmallestHole = 4096;  // a block of most file systems
constexpr std::int64_t kFingerprintPiece = std::int64_t{1} << 20U;

struct PacketPlace {
    ByteRange bytes;
    std::optional<std::int64_t> frame;
    bool isPicture{};
    bool isNeeded{};
};

bool meet(const ByteRange& a, const ByteRange& b) {
    return a.begin < b.end && b.begin < a.end;
}

bool canLeaveOut(const ClipFile& clip, const PacketMap& map) {
    const std::string container = clip.format().iformat->name;
    return container.starts_with("mov,") && map.goesByStamps() &&
           canBeLeftOut(*clip.stream().codecpar);
}

/// All packets of pictures and sound in the order of the file's reading. Absent when one of them
/// does not say where it lies.
Result<std::optional<std::vector<PacketPlace>>> placesOf(ClipFile& clip, const PacketMap& map,
                                                         const ClipIndex& index) {
    AVFormatContext& format = clip.format();
    for (unsigned i = 0; i < format.nb_streams; ++i) {
        format.streams[i]->discard = AVDISCARD_DEFAULT;
    }
    std::vector<PacketPlace> places;
    const PacketPtr packet{av_packet_alloc()};
    for (; av_read_frame(&format, packet.get()) >= 0; av_packet_unref(packet.get())) {
        const AVStream& stream = *format.streams[packet->stream_index];
        const bool isPicture = &stream == &clip.stream();
        if (!isPicture && stream.codecpar->codec_type != AVMEDIA_TYPE_AUDIO) {
            continue;  // small, and not always in the packet as in the file
        }
        if (packet->pos < 0) {
            return std::optional<std::vector<PacketPlace>>{};
        }
        PacketPlace place{{packet->pos, packet->pos + packet->size}, std::nullopt, isPicture};
        if (isPicture) {
            place.frame = map.placeOf(*packet, index).frame;
        }
        places.push_back(place);
    }
    if (clip.isStopRequested()) {
        return fail(ErrorCode::Cancelled, said("Reading the clip was cancelled."));
    }
    return std::optional{std::move(places)};
}

/// Marks the pictures from the key frame before the stretch on, in the order of decoding, and the
/// sound that lies between them.
void need(std::vector<PacketPlace>& places, const ClipIndex& index, const FrameStretch& stretch) {
    const std::int64_t last = std::min(stretch.last.value + kFramesAfter, index.frameCount() - 1);
    const std::int64_t key =
        index.keyAtOrBefore(std::max<std::int64_t>(stretch.first.value - kFramesBefore, 0))
            .value_or(0);
    std::vector<std::size_t> pictures;
    for (std::size_t i = 0; i < places.size(); ++i) {
        if (places[i].isPicture) {
            pictures.push_back(i);
        }
    }
    const auto isInside = [&](std::size_t at) {
        const auto frame = places[at].frame;
        return frame && *frame >= key && *frame <= last;
    };
    const auto begin = std::find_if(pictures.begin(), pictures.end(), isInside);
    const auto end = std::find_if(pictures.rbegin(), pictures.rend(), isInside).base();
    if (begin == pictures.end()) {
        return;
    }
    const auto after = static_cast<std::size_t>(pictures.end() - end);
    const auto stop = end + static_cast<std::ptrdiff_t>(std::min(after, kPacketsAfter));
    ByteRange around = places[*begin].bytes;
    for (auto at = begin; at != stop; ++at) {
        PacketPlace& place = places[*at];
        place.isNeeded = true;
        around = {std::min(around.begin, place.bytes.begin), std::max(around.end, place.bytes.end)};
    }
    for (PacketPlace& place : places) {
        place.isNeeded |= !place.isPicture && meet(place.bytes, around);
    }
}

/// What lies between the packets that are not needed; absent when packets lie over each other.
std::optional<std::vector<ByteRange>> partsBetween(std::vector<PacketPlace> places,
                                                   std::int64_t size) {
    std::sort(places.begin(), places.end(), [](const PacketPlace& a, const PacketPlace& b) {
        return a.bytes.begin < b.bytes.begin;
    });
    std::vector<ByteRange> parts;
    std::int64_t partBegin = 0;
    std::int64_t holeBegin = 0;
    std::int64_t holeEnd = 0;
    std::int64_t end = 0;
    const auto closeHole = [&] {
        if (holeEnd - holeBegin >= kSmallestHole) {
            if (holeBegin > partBegin) {
                parts.push_back({partBegin, holeBegin});
            }
            partBegin = holeEnd;
        }
    };
    for (const PacketPlace& place : places) {
        if (place.bytes.begin < end || place.bytes.end > size) {
            return std::nullopt;
        }
        end = place.bytes.end;
        if (place.isNeeded) {
            continue;
        }
        if (place.bytes.begin != holeEnd) {
            closeHole();
            holeBegin = place.bytes.begin;
        }
        holeEnd = place.bytes.end;
    }
    closeHole();
    if (partBegin < size) {
        parts.push_back({partBegin, size});
    }
    return parts;
}

}  // namespace

bool canBeLeftOut(const AVCodecParameters& pictures) noexcept {
    return pictures.codec_id == AV_CODEC_ID_H264 || pictures.codec_id == AV_CODEC_ID_HEVC;
}

bool isLeftOut(const AVPacket& packet) noexcept {
    return packet.size > 0 && std::all_of(packet.data, packet.data + packet.size,
                                          [](std::uint8_t byte) { return byte == 0; });
}

Result<std::optional<std::vector<ByteRange>>> bytesOfStretches(
    const std::filesystem::path& file, const ClipIndex& index,
    std::span<const FrameStretch> stretches, std::stop_token stop) {
    for (const FrameStretch& stretch : stretches) {
        if (stretch.first.value < 0 || stretch.last < stretch.first ||
            stretch.last.value >= index.frameCount()) {
            return fail(ErrorCode::OutOfRange,
                        said("{}: Frames {} to {} were asked for; the clip has frames 0 to {}.",
                             file.string(), stretch.first.value, stretch.last.value,
                             index.frameCount() - 1));
        }
    }
    BOOST_OUTCOME_TRY(clip, ClipFile::open(file, std::move(stop)));
    BOOST_OUTCOME_TRY(map, PacketMap::make(*clip, index));
    if (!canLeaveOut(*clip, map)) {
        return std::optional<std::vector<ByteRange>>{};
    }
    BOOST_OUTCOME_TRY(places, placesOf(*clip, map, index));
    if (!places) {
        return std::optional<std::vector<ByteRange>>{};
    }
    need(*places, index, {});  // who opens the film looks at its first pictures
    for (const FrameStretch& stretch : stretches) {
        need(*places, index, stretch);
    }
    const auto size = static_cast<std::int64_t>(std::filesystem::file_size(file));
    const std::int64_t piece = std::min(size, kFingerprintPiece);
    for (const std::int64_t begin : {std::int64_t{0}, (size - piece) / 2, size - piece}) {
        for (PacketPlace& place : *places) {
            place.isNeeded |= meet(place.bytes, {begin, begin + piece});
        }
    }
    return partsBetween(std::move(*places), size);
}

}  // namespace core::media
