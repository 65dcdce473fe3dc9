#include "tests/support/process.h"

#include <fcntl.h>
#include <spawn.h>
#include <sys/wait.h>
#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <sstream>
#include <stdexcept>

namespace tests {
std::string bytesOf(const std::filesystem::path& file) {
    const std::ifstream stream{file, std::ios::binary};
    std::ostringstream content;
    content << stream.rdbuf();
    return content.str();
}

Finished runProgram(const std::vector<std::string>& commandLine) {
    const TemporaryFolder folder;
    const std::string output = folder.file("output");
    const std::string errors = folder.file("errors");
    std::vector<char*> arguments;
    for (const auto& argument : commandLine) {
        arguments.push_back(const_cast<char*>(argument.c_str()));
    }
    arguments.push_back(nullptr);
    posix_spawn_file_actions_t files;
    posix_spawn_file_actions_init(&files);
    posix_spawn_file_actions_addopen(&files, STDIN_FILENO, "/dev/null", O_RDONLY, 0);
    posix_spawn_file_actions_addopen(&files, STDOUT_FILENO, output.c_str(), O_WRONLY | O_CREAT,
                                     0600);
    posix_spawn_file_actions_addopen(&files, STDERR_FILENO, errors.c_str(), O_WRONLY | O_CREAT,
                                     0600);
    pid_t child = 0;
    const int problem =
        posix_spawnp(&child, arguments.front(), &files, nullptr, arguments.data(), environ);
    posix_spawn_file_actions_destroy(&files);
    if (problem != 0) {
        throw std::runtime_error("cannot start " + commandLine.front());
    }
    int raw = 0;
    while (waitpid(child, &raw, 0) < 0) {
    }
    const int status = WIFEXITED(raw) ? WEXITSTATUS(raw) : 128 + WTERMSIG(raw);
    return {status, bytesOf(output), bytesOf(errors)};
}

TemporaryFolder::TemporaryFolder(const std::filesystem::path& parent) {
    std::string pattern = (parent / "turnmark-test-XXXXXX").string();
    if (mkdtemp(pattern.data()) == nullptr) {
        throw std::runtime_error("cannot make the folder " + pattern);
    }
    m_path = pattern;
}

TemporaryFolder::~TemporaryFolder() {
    std::error_code ignored;
    std::filesystem::remove_all(m_path, ignored);
}

}  // namespace tests
