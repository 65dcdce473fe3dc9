#include "core/evidence/picture_codec.h"

#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "core/base/words.h"

namespace core::evidence {
namespace {

// Of 100; what it does to a picture: tests/core/evidence. Cut-outs of 100 px of rendered footage
// take 0.4 to 3.5 kB so, 1.1 to 4.5 kB as JPEG of the same quality, 4 to 20 kB as PNG.
constexpr int kQuality = 90;

auto notAPicture(const std::string& why) {
    return fail(ErrorCode::Damaged,
                said("A kept picture of this shot cannot be read ({}). Keep its pictures anew "
                     "while the clip is there: turnmark-cli evidence --gather.",
                     why));
}

}  // namespace

Result<std::string> encodePicture(PixelView picture) {
    CORE_EXPECTS(picture.format == PixelFormat::Rgb8 && !picture.isEmpty());
    try {
        // OpenCV takes a pointer to bytes that it will not change.
        const cv::Mat rgb{picture.height, picture.width, CV_8UC3,
                          const_cast<std::uint8_t*>(picture.data),
                          static_cast<std::size_t>(picture.strideBytes)};
        cv::Mat bgr;
        cv::cvtColor(rgb, bgr, cv::COLOR_RGB2BGR);
        std::vector<std::uint8_t> bytes;
        if (cv::imencode(".webp", bgr, bytes, {cv::IMWRITE_WEBP_QUALITY, kQuality})) {
            return std::string{bytes.begin(), bytes.end()};
        }
    } catch (const cv::Exception&) {  // said below
    }
    return fail(ErrorCode::WriteFailed, said("A picture could not be compressed: no memory is "
                                             "left, or OpenCV was built without WebP."));
}

Result<PixelBuffer> decodePicture(std::string_view codec, std::string_view bytes) {
    if (codec != kPictureCodec) {
        return fail(
            ErrorCode::Unsupported,
            said("The kept pictures are of the kind {}, which this program does not read.", codec));
    }
    try {
        const std::vector<std::uint8_t> copy{bytes.begin(), bytes.end()};
        const cv::Mat bgr = cv::imdecode(copy, cv::IMREAD_COLOR);
        if (bgr.empty()) {
            return notAPicture(said("it is no picture"));
        }
        PixelBuffer picture{bgr.cols, bgr.rows, PixelFormat::Rgb8};
        cv::Mat rgb{bgr.rows, bgr.cols, CV_8UC3, picture.row(0),
                    static_cast<std::size_t>(picture.strideBytes())};
        cv::cvtColor(bgr, rgb, cv::COLOR_BGR2RGB);
        return picture;
    } catch (const cv::Exception& problem) {
        return notAPicture(problem.what());
    }
}

}  // namespace core::evidence
