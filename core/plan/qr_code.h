#pragma once

#include <string>
#include <vector>

#include "core/base/result.h"

namespace core::plan {

/// A QR code (ISO/IEC 18004) as a square of modules. Immutable value.
struct QrCode {
    /// Light modules that must surround the code on every side (ISO/IEC 18004).
    static constexpr int kQuietModules = 4;

    int size{};              ///< modules on a side, quiet zone left out
    std::vector<bool> dark;  ///< size × size, row by row from the top

    [[nodiscard]] bool isDark(int row, int column) const {
        return dark[static_cast<std::size_t>(row) * static_cast<std::size_t>(size) +
                    static_cast<std::size_t>(column)];
    }
};

/// The smallest code that holds the text, as bytes, and can still be read with about 15 % of it
/// destroyed (level M): the best size for a card that is small in the picture.
/// Errors: InvalidInput for an empty text and for one that is too long (2331 bytes).
Result<QrCode> qrCodeOf(const std::string& text);

}  // namespace core::plan
