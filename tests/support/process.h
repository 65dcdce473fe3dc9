#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace tests {

/// What a finished program left behind.
struct Finished {
    int status{};  ///< exit status, or 128 + signal
    std::string output;
    std::string errors;
};

/// Runs a program found by path or in PATH and waits. Arguments are passed as they are, no shell.
Finished runProgram(const std::vector<std::string>& commandLine);

/// The bytes of a file; empty when it cannot be read.
std::string bytesOf(const std::filesystem::path& file);

/// An empty folder that is removed with everything in it.
class TemporaryFolder {
public:
    /// Inside `parent`, which exists.
    explicit TemporaryFolder(
        const std::filesystem::path& parent = std::filesystem::temp_directory_path());
    ~TemporaryFolder();
    TemporaryFolder(const TemporaryFolder&) = delete;
    TemporaryFolder& operator=(const TemporaryFolder&) = delete;
    [[nodiscard]] const std::filesystem::path& path() const noexcept { return m_path; }
    [[nodiscard]] std::string file(const std::string& name) const {
        return (m_path / name).string();
    }

private:
    std::filesystem::path m_path;
};

}  // namespace tests
