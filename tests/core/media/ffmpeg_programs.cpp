#include "tests/core/media/ffmpeg_programs.h"

#include <unistd.h>

#include <array>
#include <cstdio>
#include <fstream>
#include <memory>
#include <sstream>
#include <stdexcept>

namespace tests {
namespace {

class Folder {
public:
    Folder()
        : m_path{std::filesystem::temp_directory_path() /
                 ("turnmark_media_tests_" + std::to_string(getpid()))} {
        std::filesystem::create_directories(m_path);
    }
    Folder(const Folder&) = delete;
    Folder& operator=(const Folder&) = delete;
    ~Folder() {
        std::error_code ignored;
        std::filesystem::remove_all(m_path, ignored);
    }
    [[nodiscard]] const std::filesystem::path& path() const { return m_path; }

private:
    std::filesystem::path m_path;
};

std::string quoted(const std::filesystem::path& file) {
    return "'" + file.string() + "'";
}

}  // namespace

const std::filesystem::path& clipFolder() {
    static const Folder folder;
    return folder.path();
}

std::string outputOf(const std::string& command) {
    struct Close {
        int* status;
        void operator()(FILE* pipe) const { *status = pclose(pipe); }
    };
    int status = 0;
    std::string output;
    {
        const std::unique_ptr<FILE, Close> pipe{popen(command.c_str(), "r"), Close{&status}};
        std::array<char, 65536> piece{};
        std::size_t count = 0;
        while (pipe && (count = fread(piece.data(), 1, piece.size(), pipe.get())) > 0) {
            output.append(piece.data(), count);
        }
    }
    if (status != 0) {
        throw std::runtime_error("failed: " + command);
    }
    return output;
}

std::filesystem::path makeClip(const std::string& fileName, const std::string& arguments) {
    const auto folder =
        clipFolder() / std::to_string(std::hash<std::string>{}(fileName + ' ' + arguments));
    auto path = folder / fileName;
    if (std::filesystem::create_directories(folder)) {
        outputOf(std::string{FFMPEG_PROGRAM} + " -v error -nostdin -y " + arguments + " " +
                 quoted(path));
    }
    return path;
}

std::filesystem::path writeFile(const std::string& name, const std::string& bytes) {
    auto path = clipFolder() / name;
    std::ofstream{path, std::ios::binary} << bytes;
    return path;
}

std::vector<std::optional<std::int64_t>> probeFrames(const std::filesystem::path& clip,
                                                     const std::string& entry) {
    std::istringstream lines{outputOf(std::string{FFPROBE_PROGRAM} +
                                      " -v error -select_streams v:0 -show_entries frame=" + entry +
                                      " -of default=noprint_wrappers=1:nokey=1 " + quoted(clip))};
    std::vector<std::optional<std::int64_t>> values;
    for (std::string line; std::getline(lines, line);) {
        if (line == "N/A") {
            values.emplace_back();
        } else if (!line.empty()) {
            values.emplace_back(std::stoll(line));
        }
    }
    return values;
}

std::string probeStream(const std::filesystem::path& clip, const std::string& entry) {
    std::string line = outputOf(std::string{FFPROBE_PROGRAM} +
                                " -v error -select_streams v:0 -show_entries stream=" + entry +
                                " -of default=noprint_wrappers=1:nokey=1 " + quoted(clip));
    return line.substr(0, line.find('\n'));
}

std::vector<std::vector<std::uint8_t>> decodeByFfmpeg(const std::filesystem::path& clip,
                                                      std::size_t bytesPerPicture,
                                                      const std::string& beforeInput,
                                                      const std::string& afterInput) {
    const std::string raw = outputOf(
        std::string{FFMPEG_PROGRAM} + " -v error -nostdin " + beforeInput + " -i " + quoted(clip) +
        " -map 0:v:0 -vsync passthrough " + afterInput + " -f rawvideo - 2>/dev/null");
    if (raw.size() % bytesPerPicture != 0) {
        throw std::runtime_error("ffmpeg's pictures are of another size than ours");
    }
    std::vector<std::vector<std::uint8_t>> pictures;
    for (std::size_t at = 0; at < raw.size(); at += bytesPerPicture) {
        pictures.emplace_back(raw.begin() + static_cast<std::ptrdiff_t>(at),
                              raw.begin() + static_cast<std::ptrdiff_t>(at + bytesPerPicture));
    }
    return pictures;
}

}  // namespace tests
