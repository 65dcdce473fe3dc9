#pragma once

#include <cstddef>
#include <filesystem>
#include <list>
#include <memory>
#include <stop_token>
#include <unordered_map>

#include "core/image/frame_source.h"
#include "core/media/frame_decoder.h"

namespace core::reading {

/// The frames of a clip for the ball track: decoded in runs, as the search for shots reads on, and
/// the latest ones kept in the decoder's own format up to a budget of bytes. Confined.
class DecodedFrames : public image::FrameSource {
public:
    static constexpr std::size_t kDefaultBudgetBytes = std::size_t{768} << 20U;

    explicit DecodedFrames(std::unique_ptr<media::FrameDecoder> decoder, std::stop_token stop = {},
                           std::size_t budgetBytes = kDefaultBudgetBytes);

    /// Errors: as media::FrameDecoder::decode.
    Result<media::FramePtr> frame(timebase::FrameIndex index) override;

private:
    void keep(const media::FramePtr& frame);

    std::unique_ptr<media::FrameDecoder> m_decoder;
    std::stop_token m_stop;
    std::size_t m_budgetBytes;
    std::size_t m_heldBytes{0};
    std::list<media::FramePtr> m_latestFirst;
    std::unordered_map<std::int64_t, std::list<media::FramePtr>::iterator> m_places;
};

}  // namespace core::reading
