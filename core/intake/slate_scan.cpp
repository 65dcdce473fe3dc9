#include "core/intake/slate_scan.h"

#include <zbar.h>

#include <algorithm>

namespace core::intake {
namespace {

constexpr unsigned long kGrey = zbar_fourcc('Y', '8', '0', '0');

/// Luma of BT.601 in whole numbers; close enough for black on white.
std::vector<std::uint8_t> greyOf(PixelView picture) {
    std::vector<std::uint8_t> grey;
    grey.reserve(static_cast<std::size_t>(picture.width) *
                 static_cast<std::size_t>(picture.height));
    for (int y = 0; y < picture.height; ++y) {
        const std::uint8_t* row = picture.row(y);
        for (int x = 0; x < picture.width; ++x) {
            if (picture.format == PixelFormat::Gray8) {
                grey.push_back(row[x]);
            } else {
                const std::uint8_t* pixel = row + 3 * static_cast<std::ptrdiff_t>(x);
                grey.push_back(static_cast<std::uint8_t>(
                    (77U * pixel[0] + 150U * pixel[1] + 29U * pixel[2]) >> 8U));
            }
        }
    }
    return grey;
}

}  // namespace

struct SlateScanner::Scanner {
    zbar::zbar_image_scanner_t* scanner{zbar::zbar_image_scanner_create()};
    ~Scanner() { zbar::zbar_image_scanner_destroy(scanner); }
    Scanner() {
        zbar::zbar_image_scanner_set_config(scanner, zbar::ZBAR_NONE, zbar::ZBAR_CFG_ENABLE, 0);
        zbar::zbar_image_scanner_set_config(scanner, zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_ENABLE, 1);
        // The bytes as they are: guessing the encoding of a text goes wrong.
        zbar::zbar_image_scanner_set_config(scanner, zbar::ZBAR_QRCODE, zbar::ZBAR_CFG_BINARY, 1);
    }
    Scanner(const Scanner&) = delete;
    Scanner& operator=(const Scanner&) = delete;
};

SlateScanner::SlateScanner() : m_scanner{std::make_unique<Scanner>()} {}
SlateScanner::~SlateScanner() = default;

std::vector<plan::SlateCard> SlateScanner::cardsIn(PixelView picture) {
    std::vector<plan::SlateCard> cards;
    if (picture.isEmpty()) {
        return cards;
    }
    const auto grey = greyOf(picture);
    const std::unique_ptr<zbar::zbar_image_t, void (*)(zbar::zbar_image_t*)> image{
        zbar::zbar_image_create(), zbar::zbar_image_destroy};
    zbar::zbar_image_set_format(image.get(), kGrey);
    zbar::zbar_image_set_size(image.get(), static_cast<unsigned>(picture.width),
                              static_cast<unsigned>(picture.height));
    zbar::zbar_image_set_data(image.get(), grey.data(), grey.size(), nullptr);
    zbar::zbar_scan_image(m_scanner->scanner, image.get());
    for (const auto* symbol = zbar::zbar_image_first_symbol(image.get()); symbol != nullptr;
         symbol = zbar::zbar_symbol_next(symbol)) {
        const auto card = plan::slateFromText(
            {zbar::zbar_symbol_get_data(symbol), zbar::zbar_symbol_get_data_length(symbol)});
        if (card && std::find(cards.begin(), cards.end(), card.value()) == cards.end()) {
            cards.push_back(card.value());
        }
    }
    return cards;
}

}  // namespace core::intake
