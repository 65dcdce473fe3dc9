#pragma once

#include <cstddef>
#include <deque>

#include "core/image/frame_source.h"
#include "core/jobs/memory_budget.h"

namespace core::shots {

/// Keeps the last small frames of a source, so that overlapping windows decode nothing twice;
/// counted in the program's memory budget. Confined.
class RecentFrames : public image::FrameSource {
public:
    RecentFrames(image::FrameSource& source, std::size_t capacity)
        : m_source{source}, m_capacity{capacity} {}

    Result<media::FramePtr> frame(timebase::FrameIndex index) override {
        return m_source.frame(index);
    }
    Result<image::SmallFramePtr> small(timebase::FrameIndex index) override;
    Result<PixelBuffer> region(timebase::FrameIndex index, const image::PixelBox& box) override {
        return m_source.region(index, box);
    }

private:
    image::FrameSource& m_source;
    std::size_t m_capacity;
    std::deque<image::SmallFramePtr> m_recent;
    jobs::MemoryBudget::Holding m_held{jobs::MemoryBudget::ofProgram(), jobs::MemoryUse::Readings};
};

}  // namespace core::shots
