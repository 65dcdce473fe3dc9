#include "core/base/error.h"

namespace core {

std::string_view errorCodeName(ErrorCode code) noexcept {
    switch (code) {
        case ErrorCode::Cancelled:
            return "cancelled";
        case ErrorCode::OutOfRange:
            return "out_of_range";
        case ErrorCode::NotFinite:
            return "not_finite";
        case ErrorCode::InvalidInput:
            return "invalid_input";
        case ErrorCode::Contradiction:
            return "contradiction";
        case ErrorCode::NotFound:
            return "not_found";
        case ErrorCode::Unreadable:
            return "unreadable";
        case ErrorCode::Damaged:
            return "damaged";
        case ErrorCode::NewerVersion:
            return "newer_version";
        case ErrorCode::ForeignFile:
            return "foreign_file";
        case ErrorCode::Busy:
            return "busy";
        case ErrorCode::WriteFailed:
            return "write_failed";
        case ErrorCode::Unsupported:
            return "unsupported";
        case ErrorCode::Untrustworthy:
            return "untrustworthy";
        case ErrorCode::Unexpected:
            return "unexpected";
    }
    return "unknown";
}

}  // namespace core
