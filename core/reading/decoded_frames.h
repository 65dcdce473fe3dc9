#pragma once

#include <cstddef>
#include <filesystem>
#include <list>
#include <memory>
#include <stop_token>
#include <unordered_map>
#include <vector>

#include "core/image/frame_source.h"
#include "core/jobs/memory_budget.h"
#include "core/media/frames/frame_decoder.h"

namespace core::reading {

/// The frames of a clip for finding and following balls: decoded in runs, each once. Of the latest
/// ones what was asked for is kept, up to a number of bytes, or less when the memory budget leaves
/// less (at least 128 MiB, or runs would be decoded again and again). Whole frames are kept in the
/// decoder's own format and go first: small ones and the tiles about the ball, converted once, do
/// for the rest. Confined.
class DecodedFrames : public image::FrameSource {
public:
    static constexpr std::size_t kUsualMaxBytes = std::size_t{320} << 20U;

    explicit DecodedFrames(std::unique_ptr<media::FrameDecoder> decoder, std::stop_token stop = {},
                           std::size_t maxBytes = kUsualMaxBytes,
                           jobs::MemoryBudget& budget = jobs::MemoryBudget::ofProgram());

    /// Errors: as media::FrameDecoder::decode.
    Result<media::FramePtr> frame(timebase::FrameIndex index) override;
    Result<image::SmallFramePtr> small(timebase::FrameIndex index) override;
    Result<PixelBuffer> region(timebase::FrameIndex index, const image::PixelBox& box) override;

private:
    struct Kept {
        timebase::FrameIndex index;
        int width{}, height{};  ///< of the whole frame, once it was decoded
        media::FramePtr whole;
        image::SmallFramePtr small;
        std::vector<PixelBuffer> tiles;  ///< row by row; empty ones have not been asked for
        std::size_t bytes{};             ///< of the small frame and the tiles
    };
    Kept& keptFor(timebase::FrameIndex index);
    Result<media::FramePtr> wholeOf(Kept& kept);
    Result<const PixelBuffer*> tileOf(Kept& kept, int column, int row);
    void letGo();

    std::unique_ptr<media::FrameDecoder> m_decoder;
    std::stop_token m_stop;
    std::size_t m_maxBytes;
    jobs::MemoryBudget::Holding m_held;
    std::size_t m_bytes{};
    std::list<Kept> m_latestFirst;
    std::unordered_map<std::int64_t, std::list<Kept>::iterator> m_places;
};

}  // namespace core::reading
