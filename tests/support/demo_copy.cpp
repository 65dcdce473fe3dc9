#include "tests/support/demo_copy.h"

namespace tests {

DemoCopy::DemoCopy() {
    for (const auto& entry : std::filesystem::directory_iterator{TESTS_DEMO_FOLDER}) {
        std::filesystem::copy_file(entry.path(), folder() / entry.path().filename());
    }
}

}  // namespace tests
