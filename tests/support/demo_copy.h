#pragma once

#include "tests/support/process.h"

namespace tests {

/// A copy of the demo project, with its clips and the truth beside each, in a folder of its own.
/// For test programs that NEED demo (cmake/testing.cmake).
class DemoCopy {
public:
    DemoCopy();
    [[nodiscard]] const std::filesystem::path& folder() const noexcept { return m_folder.path(); }
    [[nodiscard]] std::filesystem::path project() const {
        return folder() / "stringing bench (invented).turnmark";
    }

private:
    TemporaryFolder m_folder;
};

}  // namespace tests
