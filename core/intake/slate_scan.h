#pragma once

#include <memory>
#include <vector>

#include "core/base/pixels.h"
#include "core/plan/slate.h"

namespace core::intake {

/// Looks for slate cards in pictures. Confined.
class SlateScanner {
public:
    SlateScanner();
    ~SlateScanner();
    SlateScanner(const SlateScanner&) = delete;
    SlateScanner& operator=(const SlateScanner&) = delete;

    /// The different cards in a picture; other codes are passed over. A card is found when its code
    /// is at least about 15 % of the height of a full-HD picture, tilted by up to some 35 degrees.
    [[nodiscard]] std::vector<plan::SlateCard> cardsIn(PixelView picture);

private:
    struct Scanner;
    std::unique_ptr<Scanner> m_scanner;
};

}  // namespace core::intake
