#pragma once

#include <memory>

namespace core {

/// While one is alive, this thread has the locale C.UTF-8: a decimal point, and names in UTF-8. For
/// libraries that ask the locale how to write a number (libxlsxwriter, by printf) or what a file
/// name means (libarchive), wherever the program runs and whatever a window set for the process.
/// Confined. uselocale of POSIX.1-2008; C.UTF-8 is part of every glibc since 2.35 and of Debian.
class NeutralLocale {
public:
    NeutralLocale();
    ~NeutralLocale();
    NeutralLocale(const NeutralLocale&) = delete;
    NeutralLocale& operator=(const NeutralLocale&) = delete;

private:
    struct Before;
    std::unique_ptr<Before> m_before;
};

}  // namespace core
