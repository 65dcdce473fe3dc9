#include "tests/benchmarks/support/bench_clips.h"

#include <unistd.h>

#include <cstdlib>
#include <fstream>
#include <stdexcept>
#include <string>

namespace benchmarks {
namespace {

std::string quoted(const std::filesystem::path& file) {
    return "'" + file.string() + "'";
}

std::string movingPictures(const std::string& size, int rate, int frames) {
    return "-f lavfi -i testsrc2=size=" + size + ":rate=" + std::to_string(rate) +
           ",noise=alls=5:allf=t -frames:v " + std::to_string(frames) + " -pix_fmt yuv420p ";
}

}  // namespace

BenchClips::BenchClips(std::filesystem::path keptFolder)
    : m_folder{std::move(keptFolder)}, m_isKept{!m_folder.empty()} {
    if (!m_isKept) {
        m_folder = std::filesystem::temp_directory_path() /
                   ("turnmark_benchmarks_" + std::to_string(getpid()));
    }
    std::filesystem::create_directories(m_folder);
}

BenchClips::~BenchClips() {
    if (!m_isKept) {
        std::error_code ignored;
        std::filesystem::remove_all(m_folder, ignored);
    }
}

std::filesystem::path BenchClips::make(const std::string& name,
                                       const std::string& arguments) const {
    const auto file = m_folder / name;
    if (!std::filesystem::exists(file)) {
        // Under another name first: an interrupted run leaves no half clip to be used again.
        const auto unfinished = m_folder / ("unfinished_" + name);
        const std::string command = std::string{FFMPEG_PROGRAM} + " -v error -nostdin -y " +
                                    arguments + " " + quoted(unfinished);
        if (std::system(command.c_str()) != 0) {
            throw std::runtime_error("failed: " + command);
        }
        std::filesystem::rename(unfinished, file);
    }
    return file;
}

std::filesystem::path BenchClips::repeated(const std::string& name, int times,
                                           const std::string& arguments) const {
    const auto once = make("once_" + name, arguments);
    return make(name,
                "-stream_loop " + std::to_string(times - 1) + " -i " + quoted(once) + " -c copy");
}

std::filesystem::path BenchClips::joined(const std::string& name,
                                         const std::vector<std::filesystem::path>& films,
                                         int times) const {
    const auto list = m_folder / (name + ".txt");
    std::ofstream lines{list};
    for (int i = 0; i < times; ++i) {
        for (const auto& film : films) {
            lines << "file " << quoted(std::filesystem::absolute(film)) << '\n';
        }
    }
    lines.close();
    return make(name, "-f concat -safe 0 -i " + quoted(list) + " -map 0 -c copy");
}

std::filesystem::path BenchClips::h264At1080p() const {
    return repeated("h264_1080p.mp4", 3,
                    movingPictures("1920x1080", 240, 240) +
                        "-c:v libx264 -preset veryfast -bf 0 -g 240 -keyint_min 240 "
                        "-sc_threshold 0 -b:v 60M");
}

std::filesystem::path BenchClips::hevcAt1080p() const {
    return repeated("hevc_1080p.mp4", 3,
                    movingPictures("1920x1080", 240, 240) +
                        "-c:v libx265 -preset ultrafast -b:v 40M -tag:v hvc1 -x265-params "
                        "log-level=none:bframes=0:keyint=240:min-keyint=240:scenecut=0");
}

std::filesystem::path BenchClips::h264At2160p() const {
    return repeated("h264_2160p.mp4", 5,
                    movingPictures("3840x2160", 120, 120) +
                        "-c:v libx264 -preset veryfast -bf 0 -g 120 -keyint_min 120 "
                        "-sc_threshold 0 -b:v 100M");
}

std::filesystem::path BenchClips::variableRateWithBFrames() const {
    return make("variable_rate.mp4",
                movingPictures("1920x1080", 60, 480) +
                    "-vf setpts='(N+0.3*mod(N\\,3))/60/TB' -vsync vfr -video_track_timescale 90000 "
                    "-c:v libx264 -preset veryfast -bf 3 -g 240 -b:v 30M");
}

std::filesystem::path BenchClips::tenMinutesOfSound() const {
    return make("sound.mp4",
                "-f lavfi -i color=size=64x64:rate=1:duration=600 "
                "-f lavfi -i anoisesrc=duration=600:color=pink:sample_rate=48000:amplitude=0.3 "
                "-ac 2 -c:v libx264 -preset ultrafast -pix_fmt yuv420p -c:a aac -b:a 128k");
}

}  // namespace benchmarks
