#pragma once

#include "tests/support/process.h"

namespace tests {

/// While one is alive, the process has the German locale of glibc, as a window has it there: a
/// decimal comma for printf and strtod. Made from the system's own definition with localedef (of
/// the package locales). Throws std::runtime_error when that fails: a test must not go on without.
class CommaLocale {
public:
    CommaLocale();
    ~CommaLocale();
    CommaLocale(const CommaLocale&) = delete;
    CommaLocale& operator=(const CommaLocale&) = delete;

private:
    TemporaryFolder m_folder;
};

}  // namespace tests
