#pragma once

#include <stdexcept>
#include <string>

#include "core/base/result.h"
#include "core/base/text_encoding.h"

namespace tests::fuzz {

inline void promise(bool holds, const std::string& what) {
    if (!holds) {
        throw std::logic_error("a promise is broken: " + what);
    }
}

/// A failure says what is wrong, in text that can be shown.
inline void promiseWords(const core::Error& error) {
    promise(error.code != core::ErrorCode::Unexpected, "no exception: " + error.message);
    promise(error.message.size() > 10, "a failure is said in words: " + error.message);
}

}  // namespace tests::fuzz
