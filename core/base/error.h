#pragma once

#include <string>

namespace core {

/// Kind of a failure, for code that must react to it. The message is for people.
enum class ErrorCode {
    Cancelled,      ///< the caller asked to stop; not a failure to report
    OutOfRange,     ///< a number outside its allowed range
    NotFinite,      ///< NaN or infinity where a number was needed
    InvalidInput,   ///< malformed or contradictory input
    Contradiction,  ///< inputs that are each valid and cannot hold together (marks, clock evidence)
    NotFound,       ///< no such file or entity
    Unreadable,     ///< the file exists and cannot be read as what it should be
    Damaged,        ///< a file of ours or a clip with broken content
    NewerVersion,   ///< written by a later version of the program
    ForeignFile,    ///< a file of another kind
    Busy,           ///< held by another program or writer
    WriteFailed,    ///< the disk refused
    Unsupported,    ///< valid, and not handled by this program
    Untrustworthy,  ///< a number could be computed and must not be trusted
    Unexpected,     ///< an exception that nothing was prepared for
};

/// What went wrong. The message says what, where, and what to do about it, in whole sentences.
struct Error {
    ErrorCode code;
    std::string message;
};

}  // namespace core
