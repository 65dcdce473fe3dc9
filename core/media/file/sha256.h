#pragma once

#include <cstddef>
#include <memory>
#include <string>
#include <string_view>

namespace core::media {

/// SHA-256 (FIPS 180-4) of bytes that come piece by piece. Confined.
class Sha256 {
public:
    Sha256();
    ~Sha256();
    Sha256(const Sha256&) = delete;
    Sha256& operator=(const Sha256&) = delete;

    void add(std::string_view bytes);
    /// In lower-case hexadecimal. Ends the sum: nothing may be added afterwards.
    [[nodiscard]] std::string hexadecimal();

private:
    struct Sum;
    std::unique_ptr<Sum> m_sum;
};

/// The sum of bytes that are all there, in lower-case hexadecimal.
[[nodiscard]] std::string sha256(std::string_view bytes);

}  // namespace core::media
