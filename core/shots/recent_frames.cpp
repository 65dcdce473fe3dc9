#include "core/shots/recent_frames.h"

#include <algorithm>

namespace core::shots {

Result<media::FramePtr> RecentFrames::frame(timebase::FrameIndex index) {
    const auto found = std::find_if(m_recent.begin(), m_recent.end(),
                                    [index](const auto& kept) { return kept->index() == index; });
    if (found != m_recent.end()) {
        return *found;
    }
    BOOST_OUTCOME_TRY(frame, m_source.frame(index));
    m_recent.push_back(frame);
    if (m_recent.size() > m_capacity) {
        m_recent.pop_front();
    }
    return frame;
}

}  // namespace core::shots
