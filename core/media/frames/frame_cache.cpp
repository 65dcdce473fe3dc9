#include "core/media/frames/frame_cache.h"

#include <algorithm>
#include <iterator>

namespace core::media {

FramePtr FrameCache::find(const Key& key) {
    const auto found = m_pictures.find(key);
    if (found == m_pictures.end()) {
        return nullptr;
    }
    found->second.lastUse = ++m_uses;
    return found->second.picture;
}

FramePtr FrameCache::nearest(const Key& key) {
    const auto above = m_pictures.lower_bound(key);
    auto best = m_pictures.end();
    if (above != m_pictures.end() && above->first.first == key.first) {
        best = above;
    }
    if (above != m_pictures.begin()) {
        const auto below = std::prev(above);
        const bool isOfClip = below->first.first == key.first;
        if (isOfClip && (best == m_pictures.end() ||
                         key.second - below->first.second <= best->first.second - key.second)) {
            best = below;
        }
    }
    return best == m_pictures.end() ? nullptr : best->second.picture;
}

void FrameCache::insert(const Key& key, FramePtr picture, const Disposability& disposability) {
    const std::size_t bytes = picture->bytesHeld();
    if (has(key) || bytes > m_maxBytes) {
        return;
    }
    while (!hasRoomFor(bytes)) {
        eraseMostDisposable(disposability);
    }
    m_bytesHeld += bytes;
    m_pictures.emplace(key, Entry{std::move(picture), ++m_uses});
}

void FrameCache::setMaxBytes(std::size_t maxBytes, const Disposability& disposability) {
    m_maxBytes = maxBytes;
    while (m_bytesHeld > m_maxBytes) {
        eraseMostDisposable(disposability);
    }
}

void FrameCache::eraseMostDisposable(const Disposability& disposability) {
    auto first = m_pictures.begin();
    double most = disposability(first->first, first->second.lastUse);
    for (auto at = std::next(first); at != m_pictures.end(); ++at) {
        const double one = disposability(at->first, at->second.lastUse);
        if (one > most) {
            most = one;
            first = at;
        }
    }
    erase(first);
}

FrameCache::Pictures::iterator FrameCache::erase(Pictures::iterator at) {
    m_bytesHeld -= at->second.picture->bytesHeld();
    return m_pictures.erase(at);
}

bool FrameCache::hasWorseThan(double measure, const Disposability& disposability) const {
    return std::any_of(m_pictures.begin(), m_pictures.end(), [&](const auto& one) {
        return disposability(one.first, one.second.lastUse) > measure;
    });
}

void FrameCache::dropClip(FrameService::ClipId clip) {
    auto at = m_pictures.lower_bound({clip, INT64_MIN});
    while (at != m_pictures.end() && at->first.first == clip) {
        at = erase(at);
    }
}

}  // namespace core::media
