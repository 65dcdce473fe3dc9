#include "tests/benchmarks/media/bare_decoding.h"

#include <deque>
#include <stdexcept>

namespace benchmarks {

BareClip::BareClip(const std::filesystem::path& file, AVMediaType type) : m_file{file.string()} {
    AVFormatContext* format = nullptr;
    check(avformat_open_input(&format, m_file.c_str(), nullptr, nullptr), "open");
    m_format.reset(format);
    check(avformat_find_stream_info(format, nullptr), "read about the streams");
    m_stream = av_find_best_stream(format, type, -1, -1, nullptr, 0);
    check(m_stream, "find the stream");
    for (unsigned i = 0; i < format->nb_streams; ++i) {
        if (static_cast<int>(i) != m_stream) {
            format->streams[i]->discard = AVDISCARD_ALL;
        }
    }
}

void BareClip::check(int result, const char* what) const {
    if (result < 0) {
        throw std::runtime_error(m_file + ": cannot " + what + ": " +
                                 core::media::libavErrorText(result));
    }
}

int BareClip::readPackets() {
    int count = 0;
    while (av_read_frame(m_format.get(), m_packet.get()) >= 0) {
        count += m_packet->stream_index == m_stream ? 1 : 0;
        av_packet_unref(m_packet.get());
    }
    return count;
}

void BareClip::openDecoder(int threads) {
    const AVCodecParameters* parameters = m_format->streams[m_stream]->codecpar;
    const AVCodec* codec = avcodec_find_decoder(parameters->codec_id);
    m_decoder.reset(avcodec_alloc_context3(codec));
    check(avcodec_parameters_to_context(m_decoder.get(), parameters), "set the decoder up");
    m_decoder->thread_count = threads;
    check(avcodec_open2(m_decoder.get(), codec, nullptr), "open the decoder");
}

bool BareClip::next() {
    for (;;) {
        const int received = avcodec_receive_frame(m_decoder.get(), m_frame.get());
        if (received == 0) {
            return true;
        }
        if (received == AVERROR_EOF) {
            return false;
        }
        do {
            av_packet_unref(m_packet.get());
            if (av_read_frame(m_format.get(), m_packet.get()) < 0) {
                avcodec_send_packet(m_decoder.get(), nullptr);
                break;
            }
        } while (m_packet->stream_index != m_stream);
        if (m_packet->size > 0) {
            check(avcodec_send_packet(m_decoder.get(), m_packet.get()), "decode");
        }
    }
}

int BareClip::decodeAll(std::size_t kept) {
    int count = 0;
    std::deque<core::media::AvFramePtr> pictures;
    while (next()) {
        ++count;
        if (kept > 0) {
            pictures.emplace_back(av_frame_clone(m_frame.get()));
        }
        if (pictures.size() > kept) {
            pictures.pop_front();
        }
    }
    return count;
}

void BareClip::decodeAt(std::int64_t ticks) {
    avcodec_flush_buffers(m_decoder.get());
    check(avformat_seek_file(m_format.get(), m_stream, INT64_MIN, ticks, ticks, 0), "seek");
    while (next()) {
        if (m_frame->pts == ticks) {
            return;
        }
    }
    throw std::runtime_error(m_file + ": the picture did not come");
}

}  // namespace benchmarks
