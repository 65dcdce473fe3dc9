#include "core/reading/decoded_frames.h"

#include <algorithm>
#include <utility>

namespace core::reading {
namespace {

constexpr std::size_t kLeastBytes = std::size_t{128} << 20U;

}  // namespace

DecodedFrames::DecodedFrames(std::unique_ptr<media::FrameDecoder> decoder, std::stop_token stop,
                             std::size_t maxBytes, jobs::MemoryBudget& budget)
    : m_decoder{std::move(decoder)},
      m_stop{std::move(stop)},
      m_maxBytes{maxBytes},
      m_held{budget, jobs::MemoryUse::Readings} {}

Result<media::FramePtr> DecodedFrames::frame(timebase::FrameIndex index) {
    const auto found = m_places.find(index.value);
    if (found != m_places.end()) {
        m_latestFirst.splice(m_latestFirst.begin(), m_latestFirst, found->second);
        return m_latestFirst.front();
    }
    BOOST_OUTCOME_TRY(decoded, m_decoder->decode(index, m_stop));
    keep(decoded);
    return decoded;
}

void DecodedFrames::keep(const media::FramePtr& frame) {
    m_latestFirst.push_front(frame);
    m_places[frame->index().value] = m_latestFirst.begin();
    std::size_t bytes = m_held.bytes() + frame->bytesHeld();
    const std::size_t most = std::min(m_maxBytes, std::max(kLeastBytes, m_held.allowedBytes()));
    while (bytes > most && m_latestFirst.size() > 1) {
        bytes -= m_latestFirst.back()->bytesHeld();
        m_places.erase(m_latestFirst.back()->index().value);
        m_latestFirst.pop_back();
    }
    m_held.set(bytes);
}

}  // namespace core::reading
