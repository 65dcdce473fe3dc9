#include "app/cli/progress_line.h"

#include <fmt/format.h>
#include <unistd.h>

#include <iostream>

namespace cli {

ProgressLine::ProgressLine() : m_isSeen{::isatty(STDERR_FILENO) == 1} {}

ProgressLine::~ProgressLine() {
    if (!m_shown.empty()) {
        std::cerr << "\r\033[K" << std::flush;
    }
}

void ProgressLine::show(double share, const std::string& doing) {
    std::string line = fmt::format("{} %  {}", static_cast<int>(100.0 * share), doing);
    if (m_isSeen && line != m_shown) {
        m_shown = std::move(line);
        std::cerr << '\r' << m_shown << "\033[K" << std::flush;
    }
}

}  // namespace cli
