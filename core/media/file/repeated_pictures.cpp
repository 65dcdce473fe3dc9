#include "core/media/file/repeated_pictures.h"

#include <algorithm>
#include <cstdlib>
#include <optional>

#include "core/base/kept_words.h"
#include "core/media/frames/frame_decoder.h"
#include "core/media/frames/picture.h"

namespace core::media {
namespace {

using timebase::FrameIndex;

/// An editor that turns 30 frames into 240 repeats each seven times.
constexpr std::size_t kLongestRun = 7;
/// Recompressing a duplicate changes it far less than noise changes the next picture of a sensor.
constexpr double kRepeatPart = 0.1;
/// Below this mean difference, in parts of full scale (an eighth of an 8-bit level on average), a
/// scene is taken as still.
constexpr double kStill = 0.125 / 255.0;

/// Mean absolute difference of the first component of two pictures in parts of full scale; absent
/// when their shapes differ.
std::optional<double> difference(const AVFrame& a, const AVFrame& b) {
    const AVPixFmtDescriptor* pixels = av_pix_fmt_desc_get(static_cast<AVPixelFormat>(a.format));
    if (a.format != b.format || a.width != b.width || a.height != b.height || pixels == nullptr) {
        return std::nullopt;
    }
    const AVComponentDescriptor& luma = pixels->comp[0];
    const bool isWide = luma.depth > 8;
    std::uint64_t sum = 0;
    for (int y = 0; y < a.height; ++y) {
        const auto plane = static_cast<std::size_t>(luma.plane);
        const std::uint8_t* rowA = a.data[plane] + std::ptrdiff_t{y} * a.linesize[plane];
        const std::uint8_t* rowB = b.data[plane] + std::ptrdiff_t{y} * b.linesize[plane];
        for (int x = 0; x < a.width; ++x) {
            const std::ptrdiff_t at = luma.offset + std::ptrdiff_t{x} * luma.step;
            const int valueA = isWide ? rowA[at] | (rowA[at + 1] << 8) : rowA[at];
            const int valueB = isWide ? rowB[at] | (rowB[at + 1] << 8) : rowB[at];
            sum += static_cast<std::uint64_t>(std::abs(valueA - valueB));
        }
    }
    const double fullScale = static_cast<double>((1U << static_cast<unsigned>(luma.depth)) - 1U);
    return static_cast<double>(sum) / fullScale / static_cast<double>(a.width) / a.height;
}

/// Steps between neighbouring frames; absent where one of them cannot be decoded.
Result<std::vector<std::optional<double>>> stepsOf(FrameDecoder& decoder, FrameIndex first,
                                                   FrameIndex last, std::stop_token stop) {
    std::vector<std::optional<double>> steps;
    FramePtr before;
    const auto sink = [&](FrameIndex frame, Result<FramePtr> result) {
        FramePtr now = result.has_value() ? result.value() : nullptr;
        if (frame.value > first.value) {
            const bool areThere = before != nullptr && now != nullptr;
            steps.push_back(areThere ? difference(dynamic_cast<const Picture&>(*before).stored(),
                                                  dynamic_cast<const Picture&>(*now).stored())
                                     : std::nullopt);
        }
        before = std::move(now);
        return true;
    };
    BOOST_OUTCOME_TRY(decoder.decodeRange(first, last, sink, std::move(stop)));
    return steps;
}

/// The largest step of [begin, end).
double largestStep(const std::vector<std::optional<double>>& steps, std::size_t begin,
                   std::size_t end) {
    double largest = 0.0;
    for (std::size_t i = begin; i < std::min(end, steps.size()); ++i) {
        largest = std::max(largest, steps[i].value_or(0.0));
    }
    return largest;
}

bool isRepeat(const std::vector<std::optional<double>>& steps, std::size_t i) {
    const double before = largestStep(steps, i < kLongestRun ? 0 : i - kLongestRun, i);
    const double after = largestStep(steps, i + 1, i + 1 + kLongestRun);
    const double movement = std::min(before, after);
    return steps[i] && movement >= kStill && *steps[i] < kRepeatPart * movement;
}

}  // namespace

Result<std::vector<ClipWarning>> findRepeatedPictures(const std::filesystem::path& file,
                                                      const ClipIndex& index, FrameIndex first,
                                                      FrameIndex last, std::stop_token stop) {
    BOOST_OUTCOME_TRY(decoder, FrameDecoder::open(file, index));
    BOOST_OUTCOME_TRY(steps, stepsOf(*decoder, first, last, std::move(stop)));
    std::vector<ClipWarning> warnings;
    for (std::size_t i = 0; i < steps.size(); ++i) {
        if (!isRepeat(steps, i)) {
            continue;
        }
        const std::int64_t frame = first.value + static_cast<std::int64_t>(i) + 1;
        warnings.push_back(
            {ClipWarning::Kind::RepeatedPicture, FrameIndex{frame},
             toKeep("Frame {} looks like a repeat of frame {} while the frames around them "
                    "differ: an editor may have added it. Use the camera's original "
                    "file, or do not rely on the time stamps here.",
                    frame, frame - 1)});
    }
    return warnings;
}

}  // namespace core::media
