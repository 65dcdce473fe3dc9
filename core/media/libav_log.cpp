#include "core/media/libav_log.h"

#include <array>
#include <cstdio>
#include <utility>

#include "core/media/libav.h"

namespace core::media {
namespace {

thread_local std::string readerError;

bool isDecoderContext(void* source) {
    return source != nullptr && *static_cast<const AVClass**>(source) == avcodec_get_class();
}

std::string trimmed(std::string text) {
    while (!text.empty() && (text.back() == '\n' || text.back() == '.' || text.back() == ' ')) {
        text.pop_back();
    }
    return text;
}

[[gnu::format(printf, 3, 0)]] void onLibavMessage(void* source, int level, const char* format,
                                                  va_list arguments) {
    if (level > AV_LOG_ERROR) {
        return;
    }
    std::array<char, 512> line{};
    std::vsnprintf(line.data(), line.size(), format, arguments);
    if (isDecoderContext(source)) {
        const auto* context = static_cast<const AVCodecContext*>(source);
        if (context->opaque != nullptr && av_codec_is_decoder(context->codec) != 0) {
            static_cast<DecodeComplaints*>(context->opaque)
                ->add(context->reordered_opaque, trimmed(line.data()));
        }
        return;
    }
    readerError = trimmed(line.data());
}

}  // namespace

void DecodeComplaints::add(std::int64_t packetNumber, std::string text) {
    const std::scoped_lock lock{m_mutex};
    m_complaints.try_emplace(packetNumber, std::move(text));
}

std::map<std::int64_t, std::string> DecodeComplaints::within(std::int64_t first,
                                                             std::int64_t last) const {
    const std::scoped_lock lock{m_mutex};
    return {m_complaints.lower_bound(first), m_complaints.upper_bound(last)};
}

void DecodeComplaints::clear() {
    const std::scoped_lock lock{m_mutex};
    m_complaints.clear();
}

void routeLibavMessages() {
    static const bool routed = [] {
        av_log_set_callback(onLibavMessage);
        return true;
    }();
    static_cast<void>(routed);
}

std::string lastReaderError() {
    return readerError;
}

void clearLastReaderError() {
    readerError.clear();
}

}  // namespace core::media
