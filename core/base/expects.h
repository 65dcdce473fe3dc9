#pragma once

#include <cstdio>
#include <cstdlib>

/// Stops the program when a caller breaks a documented precondition, in every build.
///
/// For bugs of the calling code only. Bad input from a person or a file is an Error, never this.
/// The project store commits each edit as it is made, so stopping here loses no work.
#define CORE_EXPECTS(condition)                                                          \
    do {                                                                                 \
        if (!(condition)) {                                                              \
            std::fprintf(stderr, "%s:%d: precondition broken: %s\n", __FILE__, __LINE__, \
                         #condition);                                                    \
            std::abort();                                                                \
        }                                                                                \
    } while (false)
