#pragma once

#include <cstddef>
#include <filesystem>
#include <list>
#include <memory>
#include <stop_token>
#include <unordered_map>

#include "core/image/frame_source.h"
#include "core/jobs/memory_budget.h"
#include "core/media/frames/frame_decoder.h"

namespace core::reading {

/// The frames of a clip for the ball track: decoded in runs, as the search for shots reads on, and
/// the latest ones kept in the decoder's own format up to a number of bytes, or less when the
/// memory budget leaves less (at least 128 MiB, or runs would be decoded again and again).
/// Confined.
class DecodedFrames : public image::FrameSource {
public:
    static constexpr std::size_t kUsualMaxBytes = std::size_t{768} << 20U;

    explicit DecodedFrames(std::unique_ptr<media::FrameDecoder> decoder, std::stop_token stop = {},
                           std::size_t maxBytes = kUsualMaxBytes,
                           jobs::MemoryBudget& budget = jobs::MemoryBudget::ofProgram());

    /// Errors: as media::FrameDecoder::decode.
    Result<media::FramePtr> frame(timebase::FrameIndex index) override;

private:
    void keep(const media::FramePtr& frame);

    std::unique_ptr<media::FrameDecoder> m_decoder;
    std::stop_token m_stop;
    std::size_t m_maxBytes;
    jobs::MemoryBudget::Holding m_held;
    std::list<media::FramePtr> m_latestFirst;
    std::unordered_map<std::int64_t, std::list<media::FramePtr>::iterator> m_places;
};

}  // namespace core::reading
