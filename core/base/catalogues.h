#pragma once

#include <span>
#include <string_view>

namespace core::words {

/// A catalogue that the program carries: the MO file of GNU gettext made from resources/words.
struct CarriedCatalogue {
    std::string_view language;  ///< "de"
    std::span<const char> bytes;
};

std::span<const CarriedCatalogue> carriedCatalogues();

}  // namespace core::words
