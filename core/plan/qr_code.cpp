#include "core/plan/qr_code.h"

#include <qrencode.h>

#include <memory>

#include "core/base/words.h"

namespace core::plan {
namespace {

constexpr std::size_t kMostBytes = 2331;  // version 40, level M, ISO/IEC 18004 table of capacities

struct QrCodeDeleter {
    void operator()(QRcode* code) const { QRcode_free(code); }
};

}  // namespace

Result<QrCode> qrCodeOf(const std::string& text) {
    if (text.empty() || text.size() > kMostBytes) {
        return fail(ErrorCode::InvalidInput,
                    text.empty() ? said("There is nothing to put into the code.")
                                 : said("The text is too long for a code. Use shorter names."));
    }
    const std::unique_ptr<QRcode, QrCodeDeleter> made{
        QRcode_encodeData(static_cast<int>(text.size()),
                          reinterpret_cast<const unsigned char*>(text.data()), 0, QR_ECLEVEL_M)};
    if (made == nullptr) {
        return fail(ErrorCode::InvalidInput,
                    said("The code cannot be made: there is no memory for it."));
    }
    QrCode code;
    code.size = made->width;
    const auto count =
        static_cast<std::size_t>(made->width) * static_cast<std::size_t>(made->width);
    code.dark.reserve(count);
    for (std::size_t i = 0; i < count; ++i) {
        code.dark.push_back((made->data[i] & 1U) != 0U);  // lowest bit: 1 is dark
    }
    return code;
}

}  // namespace core::plan
