#include "core/evidence/picture_codec.h"

#include <webp/decode.h>
#include <webp/encode.h>

#include <memory>

#include "core/base/words.h"

namespace core::evidence {
namespace {

// Of 100; what it does to a picture: tests/core/evidence. Cut-outs of 100 px of rendered footage
// take 0.4 to 3.5 kB so, 1.1 to 4.5 kB as JPEG of the same quality, 4 to 20 kB as PNG.
constexpr float kQuality = 90.0F;
// A cut-out is a ball with its surroundings: what claims more was not made here.
constexpr int kMostPixelsAcross = 4096;

auto notAPicture() {
    return fail(ErrorCode::Damaged,
                said("A kept picture of this shot cannot be read. Keep its pictures anew while "
                     "the clip is there: turnmark-cli evidence --gather."));
}

}  // namespace

Result<std::string> encodePicture(PixelView picture) {
    CORE_EXPECTS(picture.format == PixelFormat::Rgb8 && !picture.isEmpty());
    std::uint8_t* bytes = nullptr;
    const std::size_t size = WebPEncodeRGB(picture.data, picture.width, picture.height,
                                           static_cast<int>(picture.strideBytes), kQuality, &bytes);
    const std::unique_ptr<std::uint8_t, decltype(&WebPFree)> held{bytes, &WebPFree};
    if (size == 0) {
        return fail(ErrorCode::WriteFailed,
                    said("A picture could not be compressed: no memory is left."));
    }
    return std::string{reinterpret_cast<const char*>(bytes), size};
}

Result<PixelBuffer> decodePicture(std::string_view codec, std::string_view bytes) {
    if (codec != kPictureCodec) {
        return fail(
            ErrorCode::Unsupported,
            said("The kept pictures are of the kind {}, which this program does not read.", codec));
    }
    const auto* data = reinterpret_cast<const std::uint8_t*>(bytes.data());
    int width = 0;
    int height = 0;
    if (WebPGetInfo(data, bytes.size(), &width, &height) == 0 || width > kMostPixelsAcross ||
        height > kMostPixelsAcross) {
        return notAPicture();
    }
    PixelBuffer picture{width, height, PixelFormat::Rgb8};
    const auto stride = picture.strideBytes();
    if (WebPDecodeRGBInto(data, bytes.size(), picture.row(0),
                          static_cast<std::size_t>(stride) * static_cast<std::size_t>(height),
                          static_cast<int>(stride)) == nullptr) {
        return notAPicture();
    }
    return picture;
}

}  // namespace core::evidence
