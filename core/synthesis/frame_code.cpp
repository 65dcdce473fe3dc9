#include "core/synthesis/frame_code.h"

#include <algorithm>

#include "core/base/expects.h"

namespace core::synthesis {
namespace {

constexpr int kNumberBits = 20;
constexpr int kCheckBits = 4;
constexpr double kLeastContrast = 60.0;
constexpr std::uint8_t kWhite = 235;
constexpr std::uint8_t kBlack = 16;

std::uint32_t checkOf(std::uint32_t number) noexcept {
    std::uint32_t check = 0x9U;
    for (int shift = 0; shift < kNumberBits; shift += kCheckBits) {
        check ^= (number >> static_cast<unsigned>(shift)) & 0xFU;
    }
    return check;
}

/// Mean over the inner part of a block, where an encoder's ringing is weakest.
double blockLevel(const PixelView& picture, int block) {
    constexpr int kEdge = 2;
    const int perPixel = bytesPerPixel(picture.format);
    double sum = 0.0;
    for (int y = kEdge; y < kFrameCodeBlockPx - kEdge; ++y) {
        const std::uint8_t* row = picture.row(y);
        for (int x = kEdge; x < kFrameCodeBlockPx - kEdge; ++x) {
            // The middle channel of three is green, which carries most of the brightness.
            sum += row[(block * kFrameCodeBlockPx + x) * perPixel + perPixel / 2];
        }
    }
    constexpr int kInner = kFrameCodeBlockPx - 2 * kEdge;
    return sum / (kInner * kInner);
}

bool hasRoom(int width, int height) {
    return width >= kFrameCodeBlocks * kFrameCodeBlockPx && height >= kFrameCodeBlockPx;
}

}  // namespace

void drawFrameCode(PixelBuffer& picture, std::int64_t number) {
    CORE_EXPECTS(picture.format() == PixelFormat::Rgb8);
    CORE_EXPECTS(hasRoom(picture.width(), picture.height()));
    CORE_EXPECTS(number >= 0 && number < kFrameCodeLimit);
    const auto value = static_cast<std::uint32_t>(number);
    const std::uint32_t bits = (1U << (kNumberBits + kCheckBits + 1)) |
                               (value << static_cast<unsigned>(kCheckBits)) | checkOf(value);
    for (int y = 0; y < kFrameCodeBlockPx; ++y) {
        for (int block = 0; block < kFrameCodeBlocks; ++block) {
            const auto shift = static_cast<unsigned>(kFrameCodeBlocks - 1 - block);
            const std::uint8_t level = ((bits >> shift) & 1U) != 0 ? kWhite : kBlack;
            std::uint8_t* first = picture.row(y) + block * kFrameCodeBlockPx * 3;
            std::fill_n(first, kFrameCodeBlockPx * 3, level);
        }
    }
}

std::optional<std::int64_t> readFrameCode(const PixelView& picture) {
    if (!hasRoom(picture.width, picture.height)) {
        return std::nullopt;
    }
    const double white = blockLevel(picture, 0);
    const double black = blockLevel(picture, 1);
    if (white - black < kLeastContrast) {
        return std::nullopt;
    }
    std::uint32_t bits = 0;
    for (int block = 2; block < kFrameCodeBlocks; ++block) {
        const bool isWhite = blockLevel(picture, block) > 0.5 * (white + black);
        bits = (bits << 1U) | (isWhite ? 1U : 0U);
    }
    const std::uint32_t number = bits >> static_cast<unsigned>(kCheckBits);
    if ((bits & 0xFU) != checkOf(number)) {
        return std::nullopt;
    }
    return number;
}

}  // namespace core::synthesis
