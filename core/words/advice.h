#pragma once

namespace core::words {

/// Whether it is also said what the tester could do (film again, set a step), what more filming
/// would settle and what cannot be said yet; without it only what was found, for readers who cannot
/// film. Numbers are the same.
enum class Advice { With, Without };

}  // namespace core::words
