#include "core/publish/sha256.h"

extern "C" {
#include <libavutil/mem.h>
#include <libavutil/sha.h>
}

#include <array>
#include <cstdint>
#include <memory>

#include "core/base/expects.h"

namespace core::publish {

std::string sha256(std::string_view bytes) {
    constexpr int kBits = 256;
    const std::unique_ptr<AVSHA, void (*)(void*)> sha{av_sha_alloc(), av_free};
    CORE_EXPECTS(sha != nullptr && av_sha_init(sha.get(), kBits) == 0);
    av_sha_update(sha.get(), reinterpret_cast<const std::uint8_t*>(bytes.data()), bytes.size());
    std::array<std::uint8_t, kBits / 8> digest{};
    av_sha_final(sha.get(), digest.data());
    constexpr std::string_view kDigits = "0123456789abcdef";
    std::string text;
    for (const std::uint8_t byte : digest) {
        text += kDigits[byte >> 4U];
        text += kDigits[byte & 15U];
    }
    return text;
}

}  // namespace core::publish
