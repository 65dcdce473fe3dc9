#pragma once

#include <filesystem>
#include <string>
#include <vector>

namespace benchmarks {

/// The clips that the benchmarks run on, made by the ffmpeg program when they are asked for first.
/// Moving test pictures with noise, coded as phones do: one key frame a second, no B-frames unless
/// the name says so.
class BenchClips {
public:
    /// Into a folder of its own that vanishes with this object; or into the given one, where clips
    /// stay and are used again.
    explicit BenchClips(std::filesystem::path keptFolder = {});
    BenchClips(const BenchClips&) = delete;
    BenchClips& operator=(const BenchClips&) = delete;
    ~BenchClips();

    /// Throws std::runtime_error with the command when ffmpeg fails.
    [[nodiscard]] std::filesystem::path h264At1080p() const;  ///< 240 a second, 720 frames
    [[nodiscard]] std::filesystem::path hevcAt1080p() const;  ///< 240 a second, 720 frames
    [[nodiscard]] std::filesystem::path h264At2160p() const;  ///< 120 a second, 600 frames
    [[nodiscard]] std::filesystem::path variableRateWithBFrames() const;  ///< 1080p, 480 frames
    [[nodiscard]] std::filesystem::path tenMinutesOfSound() const;        ///< stereo AAC
    /// Films of this folder one after the other, again and again, without coding them anew.
    [[nodiscard]] std::filesystem::path joined(const std::string& name,
                                               const std::vector<std::filesystem::path>& films,
                                               int times) const;
    [[nodiscard]] const std::filesystem::path& folder() const noexcept { return m_folder; }

private:
    [[nodiscard]] std::filesystem::path make(const std::string& name,
                                             const std::string& arguments) const;
    /// Repeats a clip of one group of pictures without coding it again.
    [[nodiscard]] std::filesystem::path repeated(const std::string& name, int times,
                                                 const std::string& arguments) const;

    std::filesystem::path m_folder;
    bool m_isKept{};
};

}  // namespace benchmarks
