#include "core/base/version.h"

namespace core {

std::string_view version() noexcept {
    return TURNMARK_VERSION;
}

std::string programName() {
    return "Turnmark " TURNMARK_VERSION;
}

}  // namespace core
