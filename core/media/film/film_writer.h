#pragma once

#include <cstdint>
#include <filesystem>
#include <map>
#include <memory>
#include <string>

#include "core/base/pixels.h"
#include "core/base/result.h"
#include "core/timebase/rational.h"

namespace core::media {

/// Writes pictures (and optionally one channel of sound) as a film. Confined.
///
/// Colours are written as BT.709, limited range (MJPEG: BT.601, full range; AVI: BT.601), and
/// labelled so. The
/// same input gives the same bytes with the same libraries. Stamps are kept exactly in MP4 and
/// MOV; Matroska and WebM round to milliseconds; AVI takes whole multiples of the first picture's
/// duration only.
class FilmWriter {
public:
    struct Options {
        std::string encoder{"libx264"};  ///< any video encoder of FFmpeg that the container takes
        int width{};                     ///< even numbers for 4:2:0 encoders
        int height{};
        timebase::Rational timeBase{1, 90000};  ///< seconds per tick of the stamps given to add()
        std::int64_t bitsPerSecond{0};          ///< 0: constant quality instead
        /// Smaller is better: crf of x264, x265 and VP9; a fifth of it, at least 1, is the
        /// quantiser of MPEG-4 and MJPEG. Encoders of fixed quality (ProRes, FFV1) ignore it.
        int constantQuality{20};
        int keyFrameInterval{60};
        int bFrames{0};
        /// Passed on as they are, but for "pix_fmt": the pixel format, by FFmpeg's name, in place
        /// of our choice (4:2:0 with 8 bits where the encoder has it; FFV1 keeps RGB as it is).
        std::map<std::string, std::string> encoderOptions;
        std::map<std::string, std::string>
            tags;                      ///< container metadata, custom keys kept in mp4/mov
        int soundSamplesPerSecond{0};  ///< 0: no sound track; else AAC, or PCM in AVI
        int threads{0};                ///< 0: four; with the same number the bytes are the same
    };
    /// The container follows from the file's extension. Errors: Unsupported (encoder or container),
    /// WriteFailed.
    static Result<std::unique_ptr<FilmWriter>> create(const std::filesystem::path& file,
                                                      Options options);
    virtual ~FilmWriter() = default;
    /// Pictures in presentation order, Rgb8, of the given size; ticks strictly increasing; the
    /// picture lasts durationTicks. Errors: InvalidInput, WriteFailed.
    virtual Result<void> add(PixelView picture, std::int64_t ticks, std::int64_t durationTicks) = 0;
    /// Mono samples in [-1, 1], appended to the sound track. There must be one.
    /// Errors: InvalidInput for a sample that is not finite; WriteFailed.
    virtual Result<void> addSound(const float* samples, std::size_t count) = 0;
    /// Flushes and closes; without it the file is removed by the destructor.
    /// Errors: InvalidInput when no picture was added; WriteFailed.
    virtual Result<void> finish() = 0;
};

}  // namespace core::media
