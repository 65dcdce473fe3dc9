#include "core/media/file/sound_envelope.h"

#include <algorithm>
#include <cmath>
#include <utility>

#include "core/base/words.h"
#include "core/media/file/clip_file.h"
#include "core/media/libav_log.h"

namespace core::media {
namespace {

constexpr double kStepsPerSecond = 1000.0;
/// Containers round stamps of sound (Matroska to 1 ms); a larger jump is a real one.
constexpr double kStampSlackSeconds = 0.002;
/// A stamp that would make the envelope longer than this is not believed.
constexpr double kLongestSeconds = 12.0 * 3600.0;

/// Mean squares of sound in steps of a millisecond.
class Accumulator {
public:
    /// A block of interleaved samples; stampSeconds is where the file says it begins, if it does.
    void add(const float* samples, int count, int channels, double samplesPerSecond,
             std::optional<double> stampSeconds) {
        place(stampSeconds);
        const double begin = m_nextSeconds - m_startSeconds;
        int at = 0;
        while (at < count) {
            const double time = begin + at / samplesPerSecond;
            // Samples fall onto step borders; a hair of a step settles which side they are on.
            const auto step = static_cast<std::size_t>(time * kStepsPerSecond + 1e-6);
            const double end = static_cast<double>(step + 1) / kStepsPerSecond;
            const int stop =
                std::clamp(static_cast<int>(std::ceil((end - begin) * samplesPerSecond - 1e-6)),
                           at + 1, count);
            addTo(step, samples + std::ptrdiff_t{at} * channels,
                  static_cast<std::size_t>(stop - at), static_cast<std::size_t>(channels));
            at = stop;
        }
        m_nextSeconds += count / samplesPerSecond;
    }

    [[nodiscard]] SoundEnvelope envelope() const {
        SoundEnvelope envelope{.start = {m_startSeconds}, .level = {}};
        envelope.level.reserve(m_sums.size());
        envelope.sharpness.reserve(m_sums.size());
        for (const Sum& sum : m_sums) {
            const double count = std::max(static_cast<double>(sum.values), 1.0);
            envelope.level.push_back(static_cast<float>(std::sqrt(sum.squares / count)));
            envelope.sharpness.push_back(static_cast<float>(std::sqrt(sum.changes / count)));
        }
        return envelope;
    }

private:
    struct Sum {
        double squares{};
        double changes{};  ///< squares of the differences to the sample before
        std::size_t values{};
    };

    void place(std::optional<double> stampSeconds) {
        if (m_isFirst) {
            m_startSeconds = m_nextSeconds = stampSeconds.value_or(0.0);
            m_isFirst = false;
        } else if (stampSeconds && std::abs(*stampSeconds - m_nextSeconds) > kStampSlackSeconds &&
                   *stampSeconds >= m_startSeconds &&
                   *stampSeconds - m_startSeconds < kLongestSeconds) {
            m_nextSeconds = *stampSeconds;
            m_before.clear();  // a gap is no change of the sound
        }
    }

    void addTo(std::size_t step, const float* values, std::size_t count, std::size_t channels) {
        if (step >= m_sums.size()) {
            m_sums.resize(step + 1);
        }
        if (m_before.size() != channels) {
            m_before.assign(values, values + channels);
        }
        Sum& sum = m_sums[step];
        for (std::size_t i = 0; i < count * channels; ++i) {
            const double value = static_cast<double>(values[i]);
            const double change = value - static_cast<double>(m_before[i % channels]);
            sum.squares += std::isfinite(value) ? value * value : 0.0;
            sum.changes += std::isfinite(change) ? change * change : 0.0;
            m_before[i % channels] = values[i];
        }
        sum.values += count * channels;
    }

    std::vector<Sum> m_sums;
    std::vector<float> m_before;  ///< the last sample of each channel
    double m_startSeconds{};
    double m_nextSeconds{};
    bool m_isFirst{true};
};

/// Turns decoded sound of any layout into interleaved floats.
class FloatSamples {
public:
    const std::vector<float>& from(const AVFrame& block) {
        if (m_swr == nullptr || m_format != block.format || m_rate != block.sample_rate ||
            av_channel_layout_compare(&m_layout, &block.ch_layout) != 0) {
            configure(block);
        }
        const auto channels = static_cast<std::size_t>(block.ch_layout.nb_channels);
        m_samples.resize(static_cast<std::size_t>(block.nb_samples) * channels);
        auto* target = reinterpret_cast<std::uint8_t*>(m_samples.data());
        const int converted =
            m_swr == nullptr ? 0
                             : swr_convert(m_swr.get(), &target, block.nb_samples,
                                           const_cast<const std::uint8_t**>(block.extended_data),
                                           block.nb_samples);
        m_samples.resize(static_cast<std::size_t>(std::max(converted, 0)) * channels);
        return m_samples;
    }

    FloatSamples() = default;
    FloatSamples(const FloatSamples&) = delete;
    FloatSamples& operator=(const FloatSamples&) = delete;
    ~FloatSamples() { av_channel_layout_uninit(&m_layout); }

private:
    void configure(const AVFrame& block) {
        m_format = block.format;
        m_rate = block.sample_rate;
        av_channel_layout_copy(&m_layout, &block.ch_layout);
        SwrContext* swr = nullptr;
        swr_alloc_set_opts2(&swr, &m_layout, AV_SAMPLE_FMT_FLT, m_rate, &m_layout,
                            static_cast<AVSampleFormat>(m_format), m_rate, 0, nullptr);
        m_swr.reset(swr);
        if (swr != nullptr && swr_init(swr) < 0) {
            m_swr.reset();
        }
    }

    SwrContextPtr m_swr;
    AVChannelLayout m_layout{};
    int m_format{-1};
    int m_rate{};
    std::vector<float> m_samples;
};

Result<CodecContextPtr> openSoundDecoder(const ClipFile& clip) {
    const AVCodecParameters& parameters = *clip.stream().codecpar;
    const AVCodec* codec = avcodec_find_decoder(parameters.codec_id);
    CodecContextPtr decoder{codec != nullptr ? avcodec_alloc_context3(codec) : nullptr};
    if (decoder == nullptr) {
        return fail(ErrorCode::Unsupported,
                    aboutFile(clip.path(), said("There is no decoder for its sound, {}.",
                                                avcodec_get_name(parameters.codec_id))));
    }
    avcodec_parameters_to_context(decoder.get(), &parameters);
    decoder->pkt_timebase = clip.stream().time_base;
    if (avcodec_open2(decoder.get(), codec, nullptr) < 0) {
        return fail(
            ErrorCode::Unreadable,
            aboutFile(clip.path(), said("Its sound cannot be decoded; the header of the sound "
                                        "track is damaged.")));
    }
    return decoder;
}

void drain(AVCodecContext& decoder, const ClipFile& clip, FloatSamples& toFloat, Accumulator& sum) {
    const AvFramePtr block{av_frame_alloc()};
    while (avcodec_receive_frame(&decoder, block.get()) == 0) {
        if (block->sample_rate <= 0 || block->ch_layout.nb_channels <= 0) {
            continue;
        }
        std::optional<double> stamp;
        if (block->pts != AV_NOPTS_VALUE) {
            stamp = static_cast<double>(block->pts) * av_q2d(clip.stream().time_base);
        }
        const auto& samples = toFloat.from(*block);
        const int channels = block->ch_layout.nb_channels;
        sum.add(samples.data(), static_cast<int>(samples.size()) / channels, channels,
                block->sample_rate, stamp);
    }
}

}  // namespace

Result<std::optional<SoundEnvelope>> readSoundEnvelope(const std::filesystem::path& file,
                                                       std::stop_token stop) {
    BOOST_OUTCOME_TRY(clip, ClipFile::openSound(file, stop));
    if (clip == nullptr) {
        return std::optional<SoundEnvelope>{};
    }
    BOOST_OUTCOME_TRY(decoder, openSoundDecoder(*clip));
    Accumulator sum;
    FloatSamples toFloat;
    const PacketPtr packet{av_packet_alloc()};
    while (clip->nextPacket(*packet)) {
        if (packet->size > 0 && avcodec_send_packet(decoder.get(), packet.get()) >= 0) {
            drain(*decoder, *clip, toFloat, sum);
        }
        if (clip->isStopRequested()) {
            break;
        }
    }
    if (clip->isStopRequested()) {
        return fail(ErrorCode::Cancelled, said("Reading the sound was cancelled."));
    }
    avcodec_send_packet(decoder.get(), nullptr);
    drain(*decoder, *clip, toFloat, sum);
    return std::optional{sum.envelope()};
}

}  // namespace core::media
