#include "core/shots/recent_frames.h"

#include <algorithm>

namespace core::shots {

Result<image::SmallFramePtr> RecentFrames::small(timebase::FrameIndex index) {
    const auto found = std::find_if(m_recent.begin(), m_recent.end(),
                                    [index](const auto& kept) { return kept->index == index; });
    if (found != m_recent.end()) {
        return *found;
    }
    BOOST_OUTCOME_TRY(frame, m_source.small(index));
    std::size_t bytes = m_held.bytes() + frame->picture.bytes().size();
    m_recent.push_back(frame);
    if (m_recent.size() > m_capacity) {
        bytes -= m_recent.front()->picture.bytes().size();
        m_recent.pop_front();
    }
    m_held.set(bytes);
    return frame;
}

}  // namespace core::shots
