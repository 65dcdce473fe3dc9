#pragma once

#include <algorithm>
#include <string>

#include "tests/fuzz/targets.h"

namespace tests::fuzz {

/// Numbers and texts taken from the front of some bytes; zeros and empty texts once they are used
/// up.
class Taken {
public:
    explicit Taken(Bytes bytes) : m_rest{bytes} {}

    [[nodiscard]] bool isEmpty() const noexcept { return m_rest.empty(); }
    [[nodiscard]] Bytes rest() const noexcept { return m_rest; }

    std::uint8_t byte() {
        if (m_rest.empty()) {
            return 0;
        }
        const std::uint8_t first = m_rest.front();
        m_rest = m_rest.subspan(1);
        return first;
    }
    /// Little-endian.
    std::uint64_t number(int bytes) {
        std::uint64_t value = 0;
        for (int i = 0; i < bytes; ++i) {
            value |= std::uint64_t{byte()} << (8 * i);
        }
        return value;
    }
    /// As many bytes as the next two say, or as are left.
    std::string text() {
        const std::uint64_t said = number(2);
        const std::size_t size = std::min<std::size_t>(said, m_rest.size());
        std::string text{m_rest.begin(), m_rest.begin() + static_cast<std::ptrdiff_t>(size)};
        m_rest = m_rest.subspan(size);
        return text;
    }

private:
    Bytes m_rest;
};

inline std::string asText(Bytes bytes) {
    return {bytes.begin(), bytes.end()};
}

}  // namespace tests::fuzz
