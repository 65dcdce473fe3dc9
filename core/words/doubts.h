#pragma once

#include <string>

#include "core/doubts/doubt.h"

/// What is doubtful, in words.
namespace core::words {

/// In a few words, for lists: "interval wide for its cell".
[[nodiscard]] std::string reasonWords(doubts::Reason reason);

/// What speaks against the shot or the cell, and what to do: a sentence or two.
[[nodiscard]] std::string sentence(const doubts::Doubt& doubt);

}  // namespace core::words
