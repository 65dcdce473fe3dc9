#include <algorithm>
#include <array>
#include <fstream>
#include <memory>
#include <vector>

#include "core/base/words.h"
#include "core/media/file/clip_file.h"
#include "core/media/file/clip_index.h"

extern "C" {
#include <libavutil/mem.h>
#include <libavutil/sha.h>
}

namespace core::media {
namespace {

constexpr std::uint64_t kPieceBytes = 1U << 20U;
constexpr std::size_t kDigestBytes = 32;

struct FreeAv {
    void operator()(void* memory) const noexcept { av_free(memory); }
};

std::string hexadecimal(const std::array<std::uint8_t, kDigestBytes>& digest) {
    constexpr std::string_view kDigits = "0123456789abcdef";
    std::string text;
    for (const std::uint8_t byte : digest) {
        text.push_back(kDigits[byte >> 4U]);
        text.push_back(kDigits[byte & 15U]);
    }
    return text;
}

}  // namespace

Result<std::string> fingerprint(const std::filesystem::path& file) {
    std::error_code error;
    if (!std::filesystem::exists(file, error)) {
        return fail(ErrorCode::NotFound, aboutFile(file, said("There is no such file.")));
    }
    const std::uint64_t size = std::filesystem::file_size(file, error);
    std::ifstream stream{file, std::ios::binary};
    if (error || !stream) {
        return fail(ErrorCode::Unreadable, aboutFile(file, said("The file cannot be read.")));
    }
    const std::unique_ptr<AVSHA, FreeAv> sha{av_sha_alloc()};
    av_sha_init(sha.get(), 256);
    std::array<std::uint8_t, 8> sizeBytes{};
    for (std::size_t i = 0; i < sizeBytes.size(); ++i) {
        sizeBytes[i] = static_cast<std::uint8_t>(size >> (8U * i));
    }
    av_sha_update(sha.get(), sizeBytes.data(), sizeBytes.size());
    const std::uint64_t piece = std::min(size, kPieceBytes);
    std::vector<char> bytes(piece);
    for (const std::uint64_t begin : {std::uint64_t{0}, (size - piece) / 2, size - piece}) {
        stream.seekg(static_cast<std::streamoff>(begin));
        if (!stream.read(bytes.data(), static_cast<std::streamsize>(piece))) {
            return fail(ErrorCode::Unreadable,
                        aboutFile(file, said("The file cannot be read to its end.")));
        }
        av_sha_update(sha.get(), reinterpret_cast<const std::uint8_t*>(bytes.data()), piece);
    }
    std::array<std::uint8_t, kDigestBytes> digest{};
    av_sha_final(sha.get(), digest.data());
    return hexadecimal(digest);
}

}  // namespace core::media
