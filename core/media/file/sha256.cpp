#include "core/media/file/sha256.h"

extern "C" {
#include <libavutil/mem.h>
#include <libavutil/sha.h>
}

#include <array>
#include <cstdint>

#include "core/base/expects.h"

namespace core::media {
namespace {

constexpr int kBits = 256;

}  // namespace

struct Sha256::Sum {
    std::unique_ptr<AVSHA, void (*)(void*)> sha{av_sha_alloc(), av_free};
};

Sha256::Sha256() : m_sum{std::make_unique<Sum>()} {
    CORE_EXPECTS(m_sum->sha != nullptr && av_sha_init(m_sum->sha.get(), kBits) == 0);
}

Sha256::~Sha256() = default;

void Sha256::add(std::string_view bytes) {
    av_sha_update(m_sum->sha.get(), reinterpret_cast<const std::uint8_t*>(bytes.data()),
                  bytes.size());
}

std::string Sha256::hexadecimal() {
    std::array<std::uint8_t, kBits / 8> digest{};
    av_sha_final(m_sum->sha.get(), digest.data());
    constexpr std::string_view kSixteen = "0123456789abcdef";
    std::string text;
    for (const std::uint8_t byte : digest) {
        text += kSixteen[byte >> 4U];
        text += kSixteen[byte & 15U];
    }
    return text;
}

std::string sha256(std::string_view bytes) {
    Sha256 sum;
    sum.add(bytes);
    return sum.hexadecimal();
}

}  // namespace core::media
