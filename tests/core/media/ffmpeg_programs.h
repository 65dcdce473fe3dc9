#pragma once

#include <cstdint>
#include <filesystem>
#include <optional>
#include <string>
#include <vector>

namespace tests {

/// A folder of this process, emptied when it ends.
const std::filesystem::path& clipFolder();

/// A clip of that name made by the ffmpeg program with the arguments (shell syntax), once in a
/// process: tests share it and leave it as it is. Throws std::runtime_error with the command when
/// ffmpeg fails: a test must not go on without its clip.
std::filesystem::path makeClip(const std::string& fileName, const std::string& arguments);

/// A file made of bytes in clipFolder().
std::filesystem::path writeFile(const std::string& name, const std::string& bytes);

/// What a shell command prints. Throws std::runtime_error when it fails.
std::string outputOf(const std::string& command);

/// One value a frame as `ffprobe -show_entries frame=<entry>` prints it; empty where it says N/A.
std::vector<std::optional<std::int64_t>> probeFrames(const std::filesystem::path& clip,
                                                     const std::string& entry);
/// A single fact of the first video stream, `stream=<entry>`.
std::string probeStream(const std::filesystem::path& clip, const std::string& entry);

/// All pictures of the clip as the ffmpeg program decodes them; options before and after its input.
std::vector<std::vector<std::uint8_t>> decodeByFfmpeg(const std::filesystem::path& clip,
                                                      std::size_t bytesPerPicture,
                                                      const std::string& beforeInput,
                                                      const std::string& afterInput);

}  // namespace tests
