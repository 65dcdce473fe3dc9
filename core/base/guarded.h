#pragma once

#include "core/base/result.h"

namespace core {

/// The exception that is being handled, as an Error of the kind Unexpected. Only inside a catch.
[[nodiscard]] Error errorOfException();

/// What `work` returns, a Result; when it throws, the error of that instead.
///
/// Stands once around every command, every background job and every edit of the store: a library
/// may throw where nobody expected it, and that must end neither the program nor what others do.
template <class Work>
auto guarded(const Work& work) -> decltype(work()) {
    try {
        return work();
    } catch (...) {
        return errorOfException();
    }
}

}  // namespace core
