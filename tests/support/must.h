#pragma once

#include <stdexcept>
#include <utility>

#include "core/base/result.h"

namespace tests {

/// The value of a result that a test or a benchmark relies on.
template <class T>
T must(core::Result<T> result) {
    if (!result) {
        throw std::runtime_error(result.error().message);
    }
    return std::move(result).value();
}

inline void must(const core::Result<void>& result) {
    if (!result) {
        throw std::runtime_error(result.error().message);
    }
}

}  // namespace tests
