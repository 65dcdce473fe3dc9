#pragma once

#include <string>

namespace cli {

/// One line on standard error that says how far long work is; nothing where nobody looks at a
/// terminal. Taken away by the destructor.
class ProgressLine {
public:
    ProgressLine();
    ~ProgressLine();
    ProgressLine(const ProgressLine&) = delete;
    ProgressLine& operator=(const ProgressLine&) = delete;

    /// share from 0 to 1; doing in plain words. Written when the words or the whole percents are
    /// others than before.
    void show(double share, const std::string& doing);

private:
    bool m_isSeen{};
    std::string m_shown;
};

}  // namespace cli
