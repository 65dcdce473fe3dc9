#include "core/reading/decoded_frames.h"

#include <utility>

namespace core::reading {

DecodedFrames::DecodedFrames(std::unique_ptr<media::FrameDecoder> decoder, std::stop_token stop,
                             std::size_t budgetBytes)
    : m_decoder{std::move(decoder)}, m_stop{std::move(stop)}, m_budgetBytes{budgetBytes} {}

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
    m_heldBytes += frame->bytesHeld();
    while (m_heldBytes > m_budgetBytes && m_latestFirst.size() > 1) {
        m_heldBytes -= m_latestFirst.back()->bytesHeld();
        m_places.erase(m_latestFirst.back()->index().value);
        m_latestFirst.pop_back();
    }
}

}  // namespace core::reading
