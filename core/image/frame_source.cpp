#include "core/image/frame_source.h"

#include <algorithm>
#include <opencv2/imgproc.hpp>

namespace core::image {

namespace {

constexpr int kSmallWidth = 640;

// Wide pictures keep more pixels: a ball of 20 px in 4K must not vanish.
int smallWidth(int fullWidth) {
    return std::max(kSmallWidth, fullWidth * 2 / 5);
}

}  // namespace

SmallFramePtr smallFrameOf(const media::Frame& frame) {
    const int width = smallWidth(frame.width());
    PixelBuffer picture = frame.rgbScaledToFit(width, width);
    cv::Mat pixels{picture.height(), picture.width(), CV_8UC3, picture.row(0),
                   static_cast<std::size_t>(picture.strideBytes())};
    cv::blur(pixels, pixels, {3, 3});
    return std::make_shared<const SmallFrame>(
        SmallFrame{frame.index(), frame.width(), frame.height(), std::move(picture)});
}

Result<SmallFramePtr> FrameSource::small(timebase::FrameIndex index) {
    BOOST_OUTCOME_TRY(whole, frame(index));
    return smallFrameOf(*whole);
}

Result<PixelBuffer> FrameSource::region(timebase::FrameIndex index, const PixelBox& box) {
    BOOST_OUTCOME_TRY(whole, frame(index));
    return whole->rgbRegion(box.left, box.top, box.width, box.height);
}

}  // namespace core::image
