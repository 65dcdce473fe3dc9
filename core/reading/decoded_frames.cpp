#include "core/reading/decoded_frames.h"

#include <algorithm>
#include <cstring>
#include <utility>

namespace core::reading {
namespace {

constexpr std::size_t kLeastBytes = std::size_t{128} << 20U;
constexpr int kTileWidth = 128;
constexpr int kTileHeight = 64;
constexpr std::size_t kMostRunReach = 24;  // frames before and after one that is asked for

int tilesAlong(int length, int tile) {
    return (length + tile - 1) / tile;
}

/// Copies what a tile whose corner is at (left, top) shows of the box.
void copyShared(const PixelBuffer& tile, int left, int top, const image::PixelBox& box,
                PixelBuffer& target) {
    const int from = std::max(left, box.left);
    const int to = std::min(left + tile.width(), box.left + box.width);
    const int end = std::min(top + tile.height(), box.top + box.height);
    for (int y = std::max(top, box.top); y < end && from < to; ++y) {
        std::memcpy(target.row(y - box.top) + std::ptrdiff_t{3} * (from - box.left),
                    tile.row(y - top) + std::ptrdiff_t{3} * (from - left),
                    static_cast<std::size_t>(to - from) * 3);
    }
}

}  // namespace

DecodedFrames::DecodedFrames(std::unique_ptr<media::FrameDecoder> decoder, std::stop_token stop,
                             std::size_t maxBytes, jobs::MemoryBudget& budget)
    : m_decoder{std::move(decoder)},
      m_stop{std::move(stop)},
      m_maxBytes{maxBytes},
      m_held{budget, jobs::MemoryUse::Readings} {}

DecodedFrames::Kept& DecodedFrames::keptFor(timebase::FrameIndex index) {
    const auto found = m_places.find(index.value);
    if (found != m_places.end()) {
        m_latestFirst.splice(m_latestFirst.begin(), m_latestFirst, found->second);
    } else {
        m_latestFirst.emplace_front().index = index;
        m_places[index.value] = m_latestFirst.begin();
    }
    return m_latestFirst.front();
}

Result<media::FramePtr> DecodedFrames::wholeOf(Kept& kept) {
    if (!kept.whole) {
        BOOST_OUTCOME_TRY(decoded, m_decoder->decode(kept.index, m_stop));
        kept.width = decoded->width();
        kept.height = decoded->height();
        kept.whole = std::move(decoded);
        m_bytes += kept.whole->bytesHeld();
    }
    return kept.whole;
}

Result<media::FramePtr> DecodedFrames::frame(timebase::FrameIndex index) {
    BOOST_OUTCOME_TRY(whole, wholeOf(keptFor(index)));
    letGo();
    return whole;
}

Result<image::SmallFramePtr> DecodedFrames::small(timebase::FrameIndex index) {
    Kept& kept = keptFor(index);
    if (!kept.small) {
        BOOST_OUTCOME_TRY(whole, wholeOf(kept));
        kept.small = image::smallFrameOf(*whole);
        kept.bytes += kept.small->picture.bytes().size();
        m_bytes += kept.small->picture.bytes().size();
    }
    const image::SmallFramePtr small = kept.small;
    letGo();
    return small;
}

Result<const PixelBuffer*> DecodedFrames::tileOf(Kept& kept, int column, int row) {
    const int columns = tilesAlong(kept.width, kTileWidth);
    kept.tiles.resize(static_cast<std::size_t>(columns * tilesAlong(kept.height, kTileHeight)));
    PixelBuffer& tile = kept.tiles[static_cast<std::size_t>(row * columns + column)];
    if (tile.width() == 0) {
        // Whoever asks for tiles asks for those of the neighbours next, to and fro: frame by frame
        // each would begin at a key frame.
        const std::size_t frameBytes =
            static_cast<std::size_t>(kept.width) * static_cast<std::size_t>(kept.height) * 2;
        const auto reach = static_cast<std::int64_t>(
            std::min(kMostRunReach, m_maxBytes / 4 / std::max(frameBytes, std::size_t{1})));
        const std::int64_t last =
            std::min(kept.index.value + reach, m_decoder->index().frameCount() - 1);
        const bool isMissing = !kept.whole;
        for (std::int64_t i = std::max<std::int64_t>(0, kept.index.value - reach);
             isMissing && i <= last; ++i) {
            // A damaged neighbour is told to whoever asks for it.
            static_cast<void>(wholeOf(keptFor({i})).has_value());
        }
        BOOST_OUTCOME_TRY(whole, wholeOf(keptFor(kept.index)));
        const int left = column * kTileWidth;
        const int top = row * kTileHeight;
        tile = whole->rgbRegion(left, top, std::min(kTileWidth, kept.width - left),
                                std::min(kTileHeight, kept.height - top));
        kept.bytes += tile.bytes().size();
        m_bytes += tile.bytes().size();
    }
    return &tile;
}

Result<PixelBuffer> DecodedFrames::region(timebase::FrameIndex index, const image::PixelBox& box) {
    CORE_EXPECTS(box.width >= 0 && box.height >= 0);
    Kept& kept = keptFor(index);
    if (kept.width == 0) {
        BOOST_OUTCOME_TRY(wholeOf(kept));
    }
    PixelBuffer region{box.width, box.height, PixelFormat::Rgb8};
    const int endX = std::min(box.left + box.width, kept.width);
    const int endY = std::min(box.top + box.height, kept.height);
    for (int row = std::max(box.top, 0) / kTileHeight; row * kTileHeight < endY; ++row) {
        for (int column = std::max(box.left, 0) / kTileWidth; column * kTileWidth < endX;
             ++column) {
            BOOST_OUTCOME_TRY(tile, tileOf(kept, column, row));
            copyShared(*tile, column * kTileWidth, row * kTileHeight, box, region);
        }
    }
    letGo();
    return region;
}

/// The latest frame stays whole: the next question is likely to be about it.
void DecodedFrames::letGo() {
    const std::size_t most = std::min(m_maxBytes, std::max(kLeastBytes, m_held.allowedBytes()));
    // Small frames of long ago must not take the place of whole ones of now.
    std::size_t small = 0;
    for (const Kept& kept : m_latestFirst) {
        small += m_bytes > most ? kept.bytes : 0;
    }
    while (small > most / 2 && m_latestFirst.size() > 1) {
        const Kept& oldest = m_latestFirst.back();
        small -= oldest.bytes;
        m_bytes -= oldest.bytes + (oldest.whole ? oldest.whole->bytesHeld() : 0);
        m_places.erase(oldest.index.value);
        m_latestFirst.pop_back();
    }
    for (auto at = m_latestFirst.rbegin();
         m_bytes > most && at != m_latestFirst.rend() && std::next(at) != m_latestFirst.rend();
         ++at) {
        if (at->whole) {
            m_bytes -= at->whole->bytesHeld();
            at->whole.reset();
        }
    }
    const auto isOfNoUse = [&](const Kept& kept) {
        return m_bytes > most || (kept.bytes == 0 && !kept.whole);
    };
    while (m_latestFirst.size() > 1 && isOfNoUse(m_latestFirst.back())) {
        m_bytes -= m_latestFirst.back().bytes;
        m_places.erase(m_latestFirst.back().index.value);
        m_latestFirst.pop_back();
    }
    m_held.set(m_bytes);
}

}  // namespace core::reading
