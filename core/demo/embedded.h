#pragma once

#include <cstddef>
#include <span>

namespace core::demo {

/// The bytes of samples/stringing_bench.tar.xz, within the program. Private to core/demo.
[[nodiscard]] std::span<const std::byte> embeddedDemo() noexcept;

}  // namespace core::demo
