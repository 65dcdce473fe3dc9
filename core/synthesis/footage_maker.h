#pragma once

#include <filesystem>
#include <functional>
#include <stop_token>
#include <string>

#include "core/synthesis/truth.h"

namespace core::synthesis {

enum class FilmCodec { H264, Hevc };

/// How a scene is stored as a file. The container follows from the file's extension.
struct FilmEncoding {
    FilmCodec codec{FilmCodec::H264};
    std::int64_t bitsPerSecond{0};  ///< 0: constant quality
    int constantQuality{20};        ///< smaller is better
    int bFrames{0};
    int keyFrameInterval{60};
    std::string preset{"veryfast"};  ///< speed of x264 and x265
    bool tagCaptureRate{false};      ///< writes com.android.capture.fps
};

/// Frames done and frames in all.
using FilmProgress = std::function<void(std::int64_t done, std::int64_t total)>;

/// Renders a scene, writes the film and, beside it with the extension .json, its truth.
///
/// The same scene and encoding give the same bytes with the same encoder library. Errors: as
/// checkScene(); Cancelled (nothing is left behind); Unsupported, WriteFailed from the film writer.
Result<ClipTruth> makeFootage(const Scene& scene, const FilmEncoding& encoding,
                              const std::filesystem::path& file, const FilmProgress& progress = {},
                              std::stop_token stop = {});

}  // namespace core::synthesis
