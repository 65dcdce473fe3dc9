#include "core/media/frames/decode_run.h"

#include <algorithm>
#include <utility>

#include "core/base/words.h"
#include "core/media/file/stretches.h"
#include "core/media/frames/picture_memory.h"

namespace core::media {
namespace {

/// Pictures in a row that are decoded and never shown. VP8 and VP9 have one for some shown ones.
constexpr std::int64_t kMostHidden = 1000;
/// Of the decoder, to one packet: pictures of no packet, and complaints. It holds 64 at most.
constexpr int kMostFruitless = 1000;

}  // namespace

Result<std::unique_ptr<DecodeRun>> DecodeRun::open(const std::filesystem::path& file,
                                                   const ClipIndex& index, int threads,
                                                   std::stop_token stop) {
    std::unique_ptr<DecodeRun> run{new DecodeRun{index}};
    BOOST_OUTCOME_TRY(clip, ClipFile::open(file, std::move(stop)));
    run->m_clip = std::move(clip);
    BOOST_OUTCOME_TRY(map, PacketMap::make(*run->m_clip, index));
    run->m_map = std::move(map);
    BOOST_OUTCOME_TRY(run->openDecoder(threads));
    return run;
}

Result<void> DecodeRun::openDecoder(int threads) {
    const AVCodecParameters& parameters = *stream().codecpar;
    const AVCodec* codec = avcodec_find_decoder(parameters.codec_id);
    m_decoder.reset(avcodec_alloc_context3(codec));
    if (m_decoder == nullptr || avcodec_parameters_to_context(m_decoder.get(), &parameters) < 0) {
        return fail(ErrorCode::Unreadable,
                    aboutFile(m_clip->path(), said("There is not enough memory.")));
    }
    m_decoder->opaque = &m_complaints;
    m_decoder->thread_count = decodingThreads(threads, parameters);
    m_decoder->max_pixels = kMostPixels;  // also of pictures whose size changes on the way
    if (codec->id == AV_CODEC_ID_FFV1) {
        // Its frame threads complain in the name of another thread's packet.
        m_decoder->thread_type = FF_THREAD_SLICE;
    }
    decodeIntoRecycledMemory(*m_decoder);
    m_decoder->pkt_timebase = stream().time_base;
    m_decoder->err_recognition |= AV_EF_CRCCHECK;
    const int opened = avcodec_open2(m_decoder.get(), codec, nullptr);
    if (opened < 0) {
        return fail(ErrorCode::Unreadable,
                    aboutFile(m_clip->path(),
                              said("Its pictures cannot be decoded: {}.", libavErrorText(opened))));
    }
    return ok();
}

void DecodeRun::restart() {
    avcodec_flush_buffers(m_decoder.get());
    m_complaints.clear();
    m_firstNumber += static_cast<std::int64_t>(m_run.size());
    m_run.clear();
    m_hiddenPackets = m_fruitless = 0;
    m_hasPacket = m_draining = m_ended = false;
    m_whyEarly.clear();
}

Result<void> DecodeRun::beginAt(std::optional<std::int64_t> keyFrame) {
    restart();
    // The demultiplexer may land behind the key packet (some index by decoding time): then try
    // from earlier key frames, and last from the beginning.
    constexpr int kTries = 3;
    const bool isFresh = std::exchange(m_isFresh, false);
    std::optional<std::int64_t> from = keyFrame;
    for (int tries = 0; from && !(isFresh && keyFrame == 0) && tries < kTries; ++tries) {
        if (m_clip->seek(m_map.seekTicks(*from, m_index))) {
            BOOST_OUTCOME_TRY(landed, landOn(*keyFrame));
            if (landed) {
                return ok();
            }
        }
        from = m_index.keyAtOrBefore(*from - 1);
    }
    if (!isFresh || keyFrame.value_or(0) > 0) {
        BOOST_OUTCOME_TRY(m_clip->rewind());
    }
    if (!keyFrame) {
        return ok();
    }
    BOOST_OUTCOME_TRY(landed, landOn(*keyFrame));
    if (!landed) {
        return fail(ErrorCode::Damaged,
                    aboutFile(m_clip->path(),
                              said("Key frame {} cannot be found again in the file.", *keyFrame)));
    }
    return ok();
}

Result<bool> DecodeRun::landOn(std::int64_t keyFrame) {
    while (m_clip->nextPacket(*m_packet)) {
        if (m_stop.stop_requested()) {
            m_ended = true;
            return fail(ErrorCode::Cancelled, said("Decoding was cancelled."));
        }
        const PacketMap::Place place = m_map.placeOf(*m_packet, m_index);
        if (place.frame == keyFrame) {
            m_hasPacket = true;
            return true;
        }
        if (place.frame && *place.frame > keyFrame && isKey(*m_packet, place)) {
            return false;
        }
    }
    return false;
}

bool DecodeRun::isKey(const AVPacket& packet, const PacketMap::Place& place) const {
    return place.frame ? m_index.isKey[static_cast<std::size_t>(*place.frame)]
                       : (packet.flags & AV_PKT_FLAG_KEY) != 0;
}

bool DecodeRun::feed(std::int64_t wantedFrame) {
    while (m_hasPacket || m_clip->nextPacket(*m_packet)) {
        m_hasPacket = false;
        if (m_packet->size == 0) {
            continue;  // AVI's filler for a step without a new picture; an end mark to the decoder
        }
        if (canBeLeftOut(*stream().codecpar) && isLeftOut(*m_packet)) {
            m_whyEarly = said(
                "the file has zeros in its place: it was left out of a pack of stretches, or "
                "lost on a disk");
            break;
        }
        const PacketMap::Place place = m_map.placeOf(*m_packet, m_index);
        const std::int64_t number = m_firstNumber + static_cast<std::int64_t>(m_run.size());
        if (!countHidden(place)) {
            break;
        }
        m_run.push_back({m_packet->pts, place, isKey(*m_packet, place)});
        m_decoder->reordered_opaque = number;
        m_decoder->skip_frame =
            place.frame && *place.frame < wantedFrame ? AVDISCARD_NONREF : AVDISCARD_DEFAULT;
        if ((m_packet->flags & AV_PKT_FLAG_CORRUPT) != 0) {
            m_complaints.add(number,
                             said("a part of it was lost before it was written to the file"));
        }
        const int sent = avcodec_send_packet(m_decoder.get(), m_packet.get());
        if (sent < 0) {
            complain(number, sent);
        }
        return true;
    }
    avcodec_send_packet(m_decoder.get(), nullptr);
    return false;
}

/// False when there were too many in a row: the next frame is a long way off, if there is one.
bool DecodeRun::countHidden(const PacketMap::Place& place) {
    m_hiddenPackets = place.frame ? 0 : m_hiddenPackets + 1;
    if (m_hiddenPackets <= kMostHidden) {
        return true;
    }
    m_whyEarly = said(
        "too many pictures that are never shown lie before it, as in no film of a camera; "
        "convert the clip without changing its frame rate");
    return false;
}

void DecodeRun::complain(std::int64_t number, int error) {
    // With frame threads an error is told some packets late, and as a rule was logged under the
    // right packet already. Where it was not, suspect all packets under way.
    const bool isLate = (m_decoder->active_thread_type & FF_THREAD_FRAME) != 0;
    const std::int64_t earliest = isLate ? number - m_decoder->thread_count : number;
    if (m_complaints.within(earliest, number).empty()) {
        m_complaints.add(std::max(earliest, m_firstNumber), libavErrorText(error));
    }
}

Result<std::optional<DecodedFrame>> DecodeRun::next(std::int64_t wantedFrame) {
    while (!m_ended) {
        if (m_stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, said("Decoding was cancelled."));
        }
        AvFramePtr picture{av_frame_alloc()};
        const int received = avcodec_receive_frame(m_decoder.get(), picture.get());
        if (received == 0) {
            if (auto decoded = identify(std::move(picture))) {
                m_fruitless = 0;
                return decoded;
            }
        } else if (received == AVERROR(EAGAIN) && !m_draining) {
            m_draining = !feed(wantedFrame);
            m_fruitless = 0;
        } else if (received == AVERROR_EOF || received == AVERROR(EAGAIN)) {
            m_ended = true;
        } else if (!m_run.empty()) {
            complain(m_firstNumber + static_cast<std::int64_t>(m_run.size()) - 1, received);
        }
        m_ended = m_ended || ++m_fruitless > kMostFruitless;
    }
    return std::optional<DecodedFrame>{};
}

std::optional<std::size_t> DecodeRun::placeInRun(const AVFrame& picture) const {
    if (!m_map.goesByStamps()) {
        const std::int64_t place = picture.reordered_opaque - m_firstNumber;
        const bool isOfRun = place >= 0 && place < static_cast<std::int64_t>(m_run.size());
        return isOfRun ? std::optional{static_cast<std::size_t>(place)} : std::nullopt;
    }
    for (std::size_t i = m_run.size(); i > 0; --i) {
        if (m_run[i - 1].pts == picture.pts) {
            return i - 1;
        }
    }
    return std::nullopt;
}

std::optional<DecodedFrame> DecodeRun::identify(AvFramePtr picture) {
    const auto place = placeInRun(*picture);
    if (!place || !m_run[*place].place.frame) {
        return std::nullopt;
    }
    if ((picture->flags & AV_FRAME_FLAG_CORRUPT) != 0 || picture->decode_error_flags != 0) {
        m_complaints.add(m_firstNumber + static_cast<std::int64_t>(*place),
                         said("the picture's data are incomplete"));
    }
    DecodedFrame decoded{*m_run[*place].place.frame, std::move(picture), damageAt(*place)};
    return decoded;
}

std::string DecodeRun::damageAt(std::size_t placeInRun) const {
    const std::int64_t order = m_run[placeInRun].place.order;
    std::size_t start = placeInRun;
    while (start > 0 && !(m_run[start].isKey && m_run[start].place.order <= order)) {
        --start;
    }
    const std::int64_t startOrder = m_run[start].place.order;
    const auto complaints =
        m_complaints.within(m_firstNumber + static_cast<std::int64_t>(start),
                            m_firstNumber + static_cast<std::int64_t>(placeInRun));
    for (const auto& [number, text] : complaints) {
        const auto& suspect = m_run[static_cast<std::size_t>(number - m_firstNumber)];
        if (suspect.place.order >= startOrder) {
            return text;
        }
    }
    return {};
}

std::string DecodeRun::damageOf(std::int64_t frame) const {
    for (std::size_t i = m_run.size(); i > 0; --i) {
        if (m_run[i - 1].place.frame == frame) {
            return damageAt(i - 1);
        }
    }
    return {};
}

}  // namespace core::media
