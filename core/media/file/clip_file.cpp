#include "core/media/file/clip_file.h"

#include <cmath>
#include <utility>

#include "core/base/neutral_locale.h"
#include "core/base/words.h"
#include "core/media/libav_log.h"

namespace core::media {
namespace {

/// What a packet takes of a file beside its data, at the least: its place in a table of the file.
constexpr std::int64_t kLeastOfTable = 4;

/// What all packets of a pass may have together: twice the file, for containers that leave out
/// what all packets begin with.
std::int64_t bytesAllowed(const std::filesystem::path& file) {
    std::error_code unknown;
    const auto size = std::filesystem::file_size(file, unknown);
    return (std::int64_t{1} << 20U) + (unknown ? 0 : 2 * static_cast<std::int64_t>(size));
}

/// Containers that hold time stamps and that we test or know to work. Play lists, captions and
/// other texts that FFmpeg would take for media (and may reach out to other files) stay out.
constexpr const char* kContainers = "mov,mp4,matroska,webm,avi,mpegts,asf,flv,ogg,mxf";

int wantsInterrupt(void* stop) {
    return static_cast<const std::stop_token*>(stop)->stop_requested() ? 1 : 0;
}

Result<void> checkRegularFile(const std::filesystem::path& file) {
    std::error_code error;
    const auto status = std::filesystem::status(file, error);
    if (status.type() == std::filesystem::file_type::not_found) {
        return fail(ErrorCode::NotFound, aboutFile(file, said("There is no such file.")));
    }
    if (!std::filesystem::is_regular_file(status)) {
        return fail(
            ErrorCode::Unreadable,
            aboutFile(file, said("This is not a file that can be read. Choose a video file.")));
    }
    const auto size = std::filesystem::file_size(file, error);
    if (!error && size == 0) {
        return fail(
            ErrorCode::Unreadable,
            aboutFile(file, said("The file is empty (0 bytes). Copy it from the camera again.")));
    }
    return ok();
}

Error openingError(const std::filesystem::path& file, int error) {
    if (error == AVERROR_EXIT) {
        return {ErrorCode::Cancelled, said("Opening the clip was cancelled.")};
    }
    if (error == AVERROR(ENOENT)) {
        return {ErrorCode::NotFound, aboutFile(file, said("There is no such file."))};
    }
    if (error == AVERROR(EINVAL) || error == AVERROR_INVALIDDATA) {
        const std::string detail = lastReaderError();
        return {ErrorCode::Unreadable,
                aboutFile(
                    file,
                    detail.empty()
                        ? said("This is not a video file that can be read, or its beginning or its "
                               "table of contents is missing. Copy it from the camera again.")
                        : said("This is not a video file that can be read, or its beginning or its "
                               "table of contents is missing ({}). Copy it from the camera again.",
                               detail))};
    }
    return {ErrorCode::Unreadable,
            aboutFile(file, said("The file cannot be opened: {}.", libavErrorText(error)))};
}

AVStream* videoStreamOf(AVFormatContext& format) {
    for (unsigned i = 0; i < format.nb_streams; ++i) {
        AVStream* stream = format.streams[i];
        if (stream->codecpar->codec_type == AVMEDIA_TYPE_VIDEO &&
            (stream->disposition & AV_DISPOSITION_ATTACHED_PIC) == 0) {
            return stream;
        }
    }
    return nullptr;
}

/// Whoever measures in pictures takes their pixels for squares, and holds dozens of them at a time.
Result<void> checkPictures(const std::filesystem::path& file, AVFormatContext& format,
                           AVStream& stream) {
    const std::int64_t width = stream.codecpar->width;
    const std::int64_t height = stream.codecpar->height;
    if (width <= 0 || height <= 0) {
        return fail(ErrorCode::Unreadable,
                    aboutFile(file, said("The video stream names no picture size; its beginning is "
                                         "damaged. Copy the file from the camera again.")));
    }
    if (width * height > kMostPixels) {
        return fail(ErrorCode::Unsupported,
                    aboutFile(file, said("Its pictures are said to have {} x {} pixels; "
                                         "at most {} million can be read. The file is "
                                         "damaged, or no film of a camera.",
                                         width, height, kMostPixels / 1'000'000)));
    }
    const AVRational shape = av_guess_sample_aspect_ratio(&format, &stream, nullptr);
    const double ratio = shape.num > 0 && shape.den > 0 ? av_q2d(shape) : 1.0;  // 0: not said
    constexpr double kSquareWithin =
        0.005;  // some writers round; the ball's own size is known worse
    if (std::abs(std::log(ratio)) > kSquareWithin) {
        return fail(ErrorCode::Unsupported,
                    aboutFile(file, said("Its pixels are not square: each is {:.3g} times as "
                                         "wide as high, and sizes, speeds and axes would be "
                                         "wrong by that. Use the camera's original, or "
                                         "export it with square pixels at the same frame "
                                         "rate.",
                                         ratio)));
    }
    return ok();
}

}  // namespace

std::string aboutFile(const std::filesystem::path& file, const std::string& text) {
    return file.string() + ": " + text;
}

Result<std::unique_ptr<ClipFile>> ClipFile::openHeader(const std::filesystem::path& file,
                                                       std::stop_token stop) {
    const NeutralLocale decimalPoint;  // FFmpeg prints tags that are numbers by printf
    routeLibavMessages();
    clearLastReaderError();
    BOOST_OUTCOME_TRY(checkRegularFile(file));
    std::unique_ptr<ClipFile> clip{new ClipFile};
    clip->m_path = file;
    clip->m_bytesLeft = clip->m_bytesAllowed = bytesAllowed(file);
    clip->setStop(std::move(stop));
    AVFormatContext* format = avformat_alloc_context();
    if (format == nullptr) {
        return fail(ErrorCode::Unreadable, aboutFile(file, said("There is not enough memory.")));
    }
    format->interrupt_callback = {&wantsInterrupt, &clip->m_interrupt->stop};
    format->format_whitelist = av_strdup(kContainers);
    format->protocol_whitelist = av_strdup("file");
    const std::string url = "file:" + file.string();
    const int opened = avformat_open_input(&format, url.c_str(), nullptr, nullptr);
    if (opened < 0) {
        return openingError(file, opened);
    }
    clip->m_format.reset(format);
    return clip;
}

Result<std::unique_ptr<ClipFile>> ClipFile::openContainer(const std::filesystem::path& file,
                                                          std::stop_token stop) {
    BOOST_OUTCOME_TRY(clip, openHeader(file, std::move(stop)));
    AVFormatContext* format = clip->m_format.get();
    const int found = avformat_find_stream_info(format, nullptr);
    if (clip->isStopRequested()) {
        return fail(ErrorCode::Cancelled, said("Opening the clip was cancelled."));
    }
    if (found < 0) {
        return openingError(file, found);
    }
    for (unsigned i = 0; i < format->nb_streams; ++i) {
        clip->m_hasSound |= format->streams[i]->codecpar->codec_type == AVMEDIA_TYPE_AUDIO;
    }
    return std::move(clip);
}

Result<std::unique_ptr<ClipFile>> ClipFile::open(const std::filesystem::path& file,
                                                 std::stop_token stop) {
    BOOST_OUTCOME_TRY(clip, openContainer(file, std::move(stop)));
    AVStream* stream = videoStreamOf(clip->format());
    if (stream == nullptr) {
        return fail(ErrorCode::Unreadable,
                    aboutFile(file, said("There is no video in this file. Choose a video file.")));
    }
    if (avcodec_find_decoder(stream->codecpar->codec_id) == nullptr) {
        return fail(ErrorCode::Unsupported,
                    aboutFile(file, said("There is no decoder for its video format, {}. Convert it "
                                         "to H.264 without changing the frame rate.",
                                         avcodec_get_name(stream->codecpar->codec_id))));
    }
    BOOST_OUTCOME_TRY(checkPictures(file, clip->format(), *stream));
    clip->choose(*stream);
    BOOST_OUTCOME_TRY(clip->prepareFilter());
    return std::move(clip);
}

Result<std::unique_ptr<ClipFile>> ClipFile::openSound(const std::filesystem::path& file,
                                                      std::stop_token stop) {
    BOOST_OUTCOME_TRY(clip, openContainer(file, std::move(stop)));
    for (unsigned i = 0; i < clip->m_format->nb_streams; ++i) {
        AVStream* stream = clip->m_format->streams[i];
        if (stream->codecpar->codec_type == AVMEDIA_TYPE_AUDIO) {
            clip->choose(*stream);
            return std::move(clip);
        }
    }
    return std::unique_ptr<ClipFile>{};
}

void ClipFile::choose(AVStream& stream) {
    m_stream = &stream;
    for (unsigned i = 0; i < m_format->nb_streams; ++i) {
        if (m_format->streams[i] != m_stream) {
            m_format->streams[i]->discard = AVDISCARD_ALL;
        }
    }
}

Result<void> ClipFile::prepareFilter() {
    // Old AVI files pack two pictures of MPEG-4 into one packet; taken apart, one packet is one
    // picture everywhere.
    if (m_stream->codecpar->codec_id != AV_CODEC_ID_MPEG4) {
        return ok();
    }
    AVBSFContext* filter = nullptr;
    const AVBitStreamFilter* unpack = av_bsf_get_by_name("mpeg4_unpack_bframes");
    if (unpack == nullptr || av_bsf_alloc(unpack, &filter) < 0) {
        return fail(ErrorCode::Unsupported,
                    aboutFile(m_path, said("MPEG-4 pictures cannot be split.")));
    }
    m_filter.reset(filter);
    if (avcodec_parameters_copy(filter->par_in, m_stream->codecpar) < 0) {
        return fail(ErrorCode::Unreadable, aboutFile(m_path, said("There is not enough memory.")));
    }
    filter->time_base_in = m_stream->time_base;
    if (av_bsf_init(filter) < 0) {
        return fail(ErrorCode::Unreadable,
                    aboutFile(m_path, said("Its MPEG-4 header is damaged.")));
    }
    return ok();
}

bool ClipFile::nextDemuxed(AVPacket& packet) {
    for (;;) {
        av_packet_unref(&packet);
        const int result = av_read_frame(m_format.get(), &packet);
        if (result < 0) {
            m_readError = result == AVERROR_EOF ? 0 : result;
            return false;
        }
        m_bytesLeft -= packet.size + kLeastOfTable;
        if (goesInCircles()) {
            m_readError = AVERROR_INVALIDDATA;
            return false;
        }
        if (packet.stream_index == m_stream->index) {
            return true;
        }
    }
}

bool ClipFile::nextPacket(AVPacket& packet) {
    if (m_filter == nullptr) {
        return nextDemuxed(packet);
    }
    for (;;) {
        const int received = av_bsf_receive_packet(m_filter.get(), &packet);
        if (received == 0) {
            return true;
        }
        if (received == AVERROR_EOF || m_filterDrained) {
            return false;
        }
        if (!nextDemuxed(packet)) {
            m_filterDrained = true;
            av_bsf_send_packet(m_filter.get(), nullptr);
        } else {
            av_bsf_send_packet(m_filter.get(), &packet);
        }
    }
}

bool ClipFile::seek(std::int64_t ticks) {
    m_readError = 0;
    m_bytesLeft = m_bytesAllowed;
    m_filterDrained = false;
    if (m_filter != nullptr) {
        av_bsf_flush(m_filter.get());
    }
    return avformat_seek_file(m_format.get(), m_stream->index, INT64_MIN, ticks, ticks, 0) >= 0;
}

Result<void> ClipFile::rewind() {
    // Demultiplexers disagree on what lies before the first stamp; opening anew cannot go wrong.
    const std::stop_token stop = m_interrupt->stop;
    BOOST_OUTCOME_TRY(fresh, open(m_path, stop));
    m_filter.reset();
    m_format.reset();  // before the stop token it asks
    *this = std::move(*fresh);
    return ok();
}

}  // namespace core::media
