#include "core/media/film/film_writer.h"

#include <algorithm>
#include <cmath>
#include <string_view>
#include <utility>

#include "core/base/words.h"
#include "core/media/file/clip_file.h"
#include "core/media/film/film_encoder.h"
#include "core/media/libav_log.h"

namespace core::media {
namespace {

struct FreeOutput {
    void operator()(AVFormatContext* format) const noexcept {
        if (format->pb != nullptr) {
            avio_closep(&format->pb);
        }
        avformat_free_context(format);
    }
};

bool isNamed(const AVOutputFormat& format, std::string_view name) {
    return std::string_view{format.name} == name;
}

class LibavFilmWriter final : public FilmWriter {
public:
    LibavFilmWriter(std::filesystem::path file, Options options)
        : m_file{std::move(file)}, m_options{std::move(options)} {}
    LibavFilmWriter(const LibavFilmWriter&) = delete;
    LibavFilmWriter& operator=(const LibavFilmWriter&) = delete;
    ~LibavFilmWriter() override;

    Result<void> open();
    Result<void> add(PixelView picture, std::int64_t ticks, std::int64_t durationTicks) override;
    Result<void> addSound(const float* samples, std::size_t count) override;
    Result<void> finish() override;

private:
    Result<void> checkContainer(const AVCodec& encoder);
    Result<void> checkPicture(const PixelView& picture, std::int64_t ticks,
                              std::int64_t durationTicks) const;
    Result<void> begin(std::int64_t firstDurationTicks);
    Result<void> openSound();
    Result<void> writeHeader();
    Result<void> write(AVPacket& packet, AVStream& stream, AVRational timeBase);
    [[nodiscard]] PacketSink videoSink();
    [[nodiscard]] PacketSink soundSink();
    [[nodiscard]] bool isAvi() const { return isNamed(*m_format->oformat, "avi"); }
    [[nodiscard]] bool wantsGlobalHeader() const {
        return (m_format->oformat->flags & AVFMT_GLOBALHEADER) != 0;
    }

    std::filesystem::path m_file;
    Options m_options;
    std::unique_ptr<AVFormatContext, FreeOutput> m_format;
    std::unique_ptr<PictureEncoder> m_encoder;
    std::unique_ptr<SoundEncoder> m_sound;
    AVStream* m_videoStream{};
    AVStream* m_soundStream{};
    AVRational m_timeBase{};  // of the stamps given to add()
    std::int64_t m_lastTicks{};
    std::int64_t m_firstDuration{};
    std::vector<float> m_earlySound;  // came before the first picture
    bool m_madeFile{};
    bool m_isFinished{};
};

LibavFilmWriter::~LibavFilmWriter() {
    m_format.reset();
    if (m_madeFile && !m_isFinished) {
        std::error_code ignored;
        std::filesystem::remove(m_file, ignored);
    }
}

Result<void> LibavFilmWriter::checkContainer(const AVCodec& encoder) {
    if (avformat_query_codec(m_format->oformat, encoder.id, FF_COMPLIANCE_NORMAL) == 0) {
        return fail(
            ErrorCode::Unsupported,
            aboutFile(
                m_file,
                said("This kind of file does not take {:s} pictures. Use .mkv, or another encoder.",
                     avcodec_get_name(encoder.id))));
    }
    if (m_options.soundSamplesPerSecond > 0 && isNamed(*m_format->oformat, "webm")) {
        return fail(
            ErrorCode::Unsupported,
            aboutFile(m_file, said("WebM takes no AAC sound. Use .mkv, or leave sound out.")));
    }
    return ok();
}

Result<void> LibavFilmWriter::open() {
    routeLibavMessages();
    BOOST_OUTCOME_TRY(encoder, PictureEncoder::findEncoder(m_options));
    AVFormatContext* format = nullptr;
    const std::string url = "file:" + m_file.string();
    if (avformat_alloc_output_context2(&format, nullptr, nullptr, m_file.string().c_str()) < 0) {
        return fail(
            ErrorCode::Unsupported,
            aboutFile(m_file, said("The file name's ending names no kind of film. Use .mp4, "
                                   ".mov, .mkv, .webm or .avi.")));
    }
    m_format.reset(format);
    m_format->flags |= AVFMT_FLAG_BITEXACT;
    BOOST_OUTCOME_TRY(checkContainer(*encoder));
    if (const int opened = avio_open(&m_format->pb, url.c_str(), AVIO_FLAG_WRITE); opened < 0) {
        return fail(ErrorCode::WriteFailed, aboutFile(m_file, said("The file cannot be made: {}.",
                                                                   libavErrorText(opened))));
    }
    m_madeFile = true;
    m_timeBase = {static_cast<int>(m_options.timeBase.num()),
                  static_cast<int>(m_options.timeBase.den())};
    return ok();
}

Result<void> LibavFilmWriter::begin(std::int64_t firstDurationTicks) {
    m_firstDuration = firstDurationTicks;
    BOOST_OUTCOME_TRY(encoder,
                      PictureEncoder::open(m_options, firstDurationTicks, *m_format->oformat));
    m_encoder = std::move(encoder);
    m_videoStream = avformat_new_stream(m_format.get(), nullptr);
    avcodec_parameters_from_context(m_videoStream->codecpar, &m_encoder->context());
    m_videoStream->sample_aspect_ratio = {1, 1};
    m_videoStream->time_base = m_timeBase;
    if (isAvi()) {
        const auto step = m_options.timeBase * timebase::Rational{firstDurationTicks};
        m_videoStream->time_base = {static_cast<int>(step.num()), static_cast<int>(step.den())};
    }
    m_videoStream->avg_frame_rate = m_encoder->context().framerate;
    if (m_options.soundSamplesPerSecond > 0) {
        BOOST_OUTCOME_TRY(openSound());
    }
    BOOST_OUTCOME_TRY(writeHeader());
    const std::vector<float> early = std::exchange(m_earlySound, {});
    return early.empty() ? ok() : addSound(early.data(), early.size());
}

Result<void> LibavFilmWriter::openSound() {
    const AVCodecID codec = isAvi() ? AV_CODEC_ID_PCM_S16LE : AV_CODEC_ID_AAC;
    BOOST_OUTCOME_TRY(
        sound, SoundEncoder::open(codec, m_options.soundSamplesPerSecond, wantsGlobalHeader()));
    m_sound = std::move(sound);
    m_soundStream = avformat_new_stream(m_format.get(), nullptr);
    avcodec_parameters_from_context(m_soundStream->codecpar, &m_sound->context());
    m_soundStream->time_base = m_sound->context().time_base;
    return ok();
}

Result<void> LibavFilmWriter::writeHeader() {
    for (const auto& [key, value] : m_options.tags) {
        av_dict_set(&m_format->metadata, key.c_str(), value.c_str(), 0);
    }
    AVDictionary* muxerOptions = nullptr;
    if (isNamed(*m_format->oformat, "mp4") || isNamed(*m_format->oformat, "mov")) {
        if (!m_options.tags.empty()) {
            av_dict_set(&muxerOptions, "movflags", "use_metadata_tags", 0);
        }
        av_dict_set_int(&muxerOptions, "video_track_timescale", m_timeBase.den, 0);
    }
    const int written = avformat_write_header(m_format.get(), &muxerOptions);
    av_dict_free(&muxerOptions);
    if (written < 0) {
        return fail(ErrorCode::WriteFailed, aboutFile(m_file, said("The film cannot be begun: {}.",
                                                                   libavErrorText(written))));
    }
    return ok();
}

Result<void> LibavFilmWriter::checkPicture(const PixelView& picture, std::int64_t ticks,
                                           std::int64_t durationTicks) const {
    if (picture.format != PixelFormat::Rgb8 || picture.width != m_options.width ||
        picture.height != m_options.height || picture.data == nullptr) {
        return fail(ErrorCode::InvalidInput,
                    aboutFile(m_file, said("A picture is not RGB of the film's size, {} by {}.",
                                           m_options.width, m_options.height)));
    }
    if (durationTicks <= 0 || (m_encoder != nullptr && ticks <= m_lastTicks)) {
        return fail(ErrorCode::InvalidInput,
                    aboutFile(m_file, said("Time stamps must increase and durations be positive; "
                                           "this is not so at tick {}.",
                                           ticks)));
    }
    if (isAvi() && m_encoder != nullptr && ticks % m_firstDuration != 0) {
        return fail(ErrorCode::InvalidInput,
                    aboutFile(m_file, said("AVI keeps only multiples of the first picture's "
                                           "duration; tick {} is none. Use .mp4 or .mkv.",
                                           ticks)));
    }
    return ok();
}

Result<void> LibavFilmWriter::add(PixelView picture, std::int64_t ticks,
                                  std::int64_t durationTicks) {
    CORE_EXPECTS(!m_isFinished);
    BOOST_OUTCOME_TRY(checkPicture(picture, ticks, durationTicks));
    if (m_encoder == nullptr) {
        BOOST_OUTCOME_TRY(begin(durationTicks));
    }
    m_lastTicks = ticks;
    return m_encoder->encode(picture, ticks, durationTicks, videoSink());
}

Result<void> LibavFilmWriter::addSound(const float* samples, std::size_t count) {
    CORE_EXPECTS(!m_isFinished && m_options.soundSamplesPerSecond > 0);
    if (!std::all_of(samples, samples + count, [](float one) { return std::isfinite(one); })) {
        return fail(ErrorCode::InvalidInput,
                    aboutFile(m_file, said("A sound sample is not finite.")));
    }
    if (m_sound == nullptr) {
        m_earlySound.insert(m_earlySound.end(), samples, samples + count);
        return ok();
    }
    return m_sound->encode(samples, count, soundSink());
}

PacketSink LibavFilmWriter::videoSink() {
    return [this](AVPacket& packet) { return write(packet, *m_videoStream, m_timeBase); };
}

PacketSink LibavFilmWriter::soundSink() {
    return [this](AVPacket& packet) {
        return write(packet, *m_soundStream, m_sound->context().time_base);
    };
}

Result<void> LibavFilmWriter::write(AVPacket& packet, AVStream& stream, AVRational timeBase) {
    packet.stream_index = stream.index;
    av_packet_rescale_ts(&packet, timeBase, stream.time_base);
    if (const int written = av_interleaved_write_frame(m_format.get(), &packet); written < 0) {
        return fail(
            ErrorCode::WriteFailed,
            aboutFile(m_file, said("The film cannot be written on: {}.", libavErrorText(written))));
    }
    return ok();
}

Result<void> LibavFilmWriter::finish() {
    CORE_EXPECTS(!m_isFinished);
    if (m_encoder == nullptr) {
        return fail(
            ErrorCode::InvalidInput,
            aboutFile(m_file, said("The film has no picture; add one before finishing it.")));
    }
    BOOST_OUTCOME_TRY(m_encoder->flush(videoSink()));
    if (m_sound != nullptr) {
        BOOST_OUTCOME_TRY(m_sound->flush(soundSink()));
    }
    int result = av_write_trailer(m_format.get());
    const int closed = avio_closep(&m_format->pb);
    result = result < 0 ? result : closed;
    if (result < 0) {
        return fail(ErrorCode::WriteFailed,
                    aboutFile(m_file, said("The film cannot be completed: {}. Is the disk full?",
                                           libavErrorText(result))));
    }
    m_isFinished = true;
    return ok();
}

}  // namespace

Result<std::unique_ptr<FilmWriter>> FilmWriter::create(const std::filesystem::path& file,
                                                       Options options) {
    CORE_EXPECTS(options.width > 0 && options.height > 0 && options.timeBase > 0 &&
                 options.timeBase.num() <= INT32_MAX && options.timeBase.den() <= INT32_MAX);
    auto writer = std::make_unique<LibavFilmWriter>(file, std::move(options));
    BOOST_OUTCOME_TRY(writer->open());
    return std::unique_ptr<FilmWriter>{std::move(writer)};
}

}  // namespace core::media
