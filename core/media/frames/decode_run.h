#pragma once

#include <cstdint>
#include <memory>
#include <optional>
#include <stop_token>
#include <string>
#include <vector>

#include "core/media/file/clip_file.h"
#include "core/media/file/packet_map.h"
#include "core/media/libav_log.h"

namespace core::media {

/// A picture that left the decoder, as a frame of the index.
struct DecodedFrame {
    std::int64_t frame{};
    AvFramePtr picture;
    std::string damage;  ///< why it must not be shown; empty for a sound picture
};

/// One uninterrupted run of the decoder from a key packet on. Internal; Confined.
///
/// Every packet that goes in has a number; complaints of the decoder are filed under it. A picture
/// is sound when nobody complained about any packet it can depend on: those from its start packet
/// (the last key packet at or before it both in decoding and in presentation order) up to its own,
/// leaving out packets shown before the start packet.
class DecodeRun {
public:
    static Result<std::unique_ptr<DecodeRun>> open(const std::filesystem::path& file,
                                                   const ClipIndex& index, int threads,
                                                   std::stop_token stop);

    /// Begins at a key frame of the index, or at the first packet of the file.
    /// Errors: Damaged when the key packet cannot be found again; Cancelled; as readClipIndex.
    Result<void> beginAt(std::optional<std::int64_t> keyFrame);
    /// The next picture, in the decoder's order; absent at the end. Pictures of frames before
    /// wantedFrame may be left out. Errors: Cancelled.
    Result<std::optional<DecodedFrame>> next(std::int64_t wantedFrame);

    /// Why the frame did not come out; empty when no packet it depends on was complained about.
    [[nodiscard]] std::string damageOf(std::int64_t frame) const;
    [[nodiscard]] AVStream& stream() const noexcept { return m_clip->stream(); }
    /// Ends next() between two packets, so that the run can go on afterwards.
    void setStop(std::stop_token stop) { m_stop = std::move(stop); }
    [[nodiscard]] bool hasEnded() const noexcept { return m_ended; }
    /// Why it ended before the end of the file; else empty. Other frames may come out of a run from
    /// elsewhere.
    [[nodiscard]] std::string endedEarly() const { return m_ended ? m_whyEarly : std::string{}; }

private:
    struct RunPacket {
        std::int64_t pts{};
        PacketMap::Place place;
        bool isKey{};
    };
    explicit DecodeRun(const ClipIndex& index) : m_index{index} {}
    Result<void> openDecoder(int threads);
    Result<bool> landOn(std::int64_t keyFrame);
    void restart();
    bool feed(std::int64_t wantedFrame);
    bool countHidden(const PacketMap::Place& place);
    void complain(std::int64_t number, int error);
    std::optional<DecodedFrame> identify(AvFramePtr picture);
    [[nodiscard]] std::optional<std::size_t> placeInRun(const AVFrame& picture) const;
    [[nodiscard]] std::string damageAt(std::size_t placeInRun) const;
    [[nodiscard]] bool isKey(const AVPacket& packet, const PacketMap::Place& place) const;

    const ClipIndex& m_index;
    std::unique_ptr<ClipFile> m_clip;
    PacketMap m_map;
    DecodeComplaints m_complaints;  // outlives the decoder, whose threads write to it
    CodecContextPtr m_decoder;
    PacketPtr m_packet{av_packet_alloc()};
    std::int64_t m_hiddenPackets{};  // in a row, of no frame of the clip
    int m_fruitless{};               // answers of the decoder in a row, without a frame or packet
    bool m_hasPacket{};              // m_packet waits to go in
    std::vector<RunPacket> m_run;    // packets that went in
    std::int64_t m_firstNumber{};    // of m_run.front()
    bool m_isFresh{true};            // nothing was read since opening
    bool m_draining{};
    std::string m_whyEarly;
    bool m_ended{};
    std::stop_token m_stop;
};

}  // namespace core::media
