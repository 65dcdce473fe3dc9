#pragma once

#include <cstdint>
#include <functional>
#include <map>
#include <utility>

#include "core/media/frames/frame_service.h"

namespace core::media {

/// Decoded pictures of many clips, bounded in bytes and in number. Internal; not locked: the
/// service's lock guards it.
class FrameCache {
public:
    using Key = std::pair<FrameService::ClipId, std::int64_t>;
    /// The larger, the sooner a picture goes. Gets the picture's key and its time of last use.
    using Disposability = std::function<double(const Key&, std::uint64_t lastUse)>;

    explicit FrameCache(std::size_t maxBytes, std::size_t maxPictures = SIZE_MAX)
        : m_maxBytes{maxBytes}, m_maxPictures{maxPictures} {}

    /// Null when it is not there. Counts as a use.
    FramePtr find(const Key& key);
    [[nodiscard]] bool has(const Key& key) const { return m_pictures.contains(key); }
    /// The picture of the clip nearest to the key's frame.
    FramePtr nearest(const Key& key);
    /// Makes room by letting go what disposability says first; never the new picture itself unless
    /// it alone is larger than the bound.
    void insert(const Key& key, FramePtr picture, const Disposability& disposability);
    /// Bounds it anew, and lets go what is beyond.
    void setMaxBytes(std::size_t maxBytes, const Disposability& disposability);
    [[nodiscard]] bool hasRoomFor(std::size_t bytes) const noexcept {
        return m_bytesHeld + bytes <= m_maxBytes && m_pictures.size() < m_maxPictures;
    }
    /// True when a picture is held that is more disposable than the given measure.
    [[nodiscard]] bool hasWorseThan(double measure, const Disposability& disposability) const;
    void dropClip(FrameService::ClipId clip);

    [[nodiscard]] std::size_t bytesHeld() const noexcept { return m_bytesHeld; }
    [[nodiscard]] std::size_t maxBytes() const noexcept { return m_maxBytes; }
    [[nodiscard]] std::size_t maxPictures() const noexcept { return m_maxPictures; }

private:
    struct Entry {
        FramePtr picture;
        std::uint64_t lastUse{};
    };
    using Pictures = std::map<Key, Entry>;
    Pictures::iterator erase(Pictures::iterator at);
    void eraseMostDisposable(const Disposability& disposability);

    std::size_t m_maxBytes;
    std::size_t m_maxPictures;
    std::size_t m_bytesHeld{};
    std::uint64_t m_uses{};
    Pictures m_pictures;
};

}  // namespace core::media
