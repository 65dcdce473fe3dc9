#include "core/publish/film/clip_footage.h"

#include <cmath>
#include <utility>

#include "core/media/file/clip_index.h"
#include "core/project/clip_location.h"
#include "core/publish/drawing/painter.h"

namespace core::publish {

ClipFootage::ClipFootage(std::filesystem::path projectFile, std::stop_token stop)
    : m_projectFile{std::move(projectFile)}, m_stop{std::move(stop)} {}

Result<media::FrameDecoder*> ClipFootage::open(const project::Clip& clip) {
    if (m_decoder != nullptr && m_open == clip.id) {
        return m_decoder.get();
    }
    m_decoder.reset();
    BOOST_OUTCOME_TRY(found, project::locateClip(m_projectFile, clip, media::fingerprint));
    BOOST_OUTCOME_TRY(index, media::readClipIndex(found.file, m_stop));
    index.fingerprint = clip.fingerprint;
    index.facts.width = clip.width;
    index.facts.height = clip.height;
    index.facts.rotationDegrees = clip.rotationDegrees;  // a person may have turned it
    BOOST_OUTCOME_TRY(decoder, media::FrameDecoder::open(found.file, std::move(index), 2));
    m_decoder = std::move(decoder);
    m_open = clip.id;
    return m_decoder.get();
}

PixelBuffer cutAround(const media::Frame& frame, const reading::BallPlace& place,
                      double halfWidthPx, int sidePx) {
    const int half = std::max(1, static_cast<int>(std::lround(halfWidthPx)));
    const PixelBuffer region =
        frame.rgbRegion(static_cast<int>(std::lround(place.xPx)) - half,
                        static_cast<int>(std::lround(place.yPx)) - half, 2 * half, 2 * half);
    PicturePainter painter{sidePx, sidePx};
    painter.picture(region.view(), {0.0, 0.0}, sidePx, sidePx);
    return painter.rgb();
}

}  // namespace core::publish
