#include "core/media/file/stamp_warnings.h"
#include "core/base/kept_words.h"

namespace core::media {
namespace {

using Kind = ClipWarning::Kind;

constexpr std::size_t kMostOfAKind = 12;
/// A step this many times the median is a hole; variable-rate phone footage stays well below.
constexpr double kGapSteps = 1.5;
/// One tick that is more than this part of a frame interval moves a reading noticeably.
constexpr double kCoarseTick = 0.1;

/// Lists warnings of one kind, the first ones in full.
class Listing {
public:
    explicit Listing(Kind kind) : m_kind{kind} {}
    void add(std::size_t frame, std::string message) {
        ++m_count;
        m_lastFrame = {static_cast<std::int64_t>(frame)};
        if (m_count <= kMostOfAKind) {
            m_warnings.push_back({m_kind, m_lastFrame, std::move(message)});
        }
    }
    void appendTo(std::vector<ClipWarning>& all) {
        if (m_count > kMostOfAKind) {
            m_warnings.push_back({m_kind, m_lastFrame, ofTheRest()});
        }
        all.insert(all.end(), m_warnings.begin(), m_warnings.end());
    }

private:
    [[nodiscard]] std::string ofTheRest() const {
        const std::size_t more = m_count - kMostOfAKind;
        switch (m_kind) {
            case Kind::Gap:
                return toKeep("There are {} more holes in the time stamps, the last at frame {}.",
                              more, m_lastFrame.value);
            case Kind::RepeatedStamp:
                return toKeep("There are {} more repeated time stamps, the last at frame {}.", more,
                              m_lastFrame.value);
            default:
                return toKeep(
                    "There are {} more time stamps that go backwards, the last at frame {}.", more,
                    m_lastFrame.value);
        }
    }

    Kind m_kind;
    std::size_t m_count{0};
    timebase::FrameIndex m_lastFrame;
    std::vector<ClipWarning> m_warnings;
};

std::string gapMessage(std::size_t frame, double intervals, double seconds) {
    const auto lost = static_cast<std::int64_t>(intervals + 0.5) - 1;
    return toKeep(
        "Between frames {} and {} the time stamps leave a hole of {:.2f} frame intervals "
        "({:.4f} s): about {} missing there.",
        frame, frame + 1, intervals, seconds, countToKeep(lost, "frame is", "frames are"));
}

std::optional<ClipWarning> coarseWarning(const timebase::FrameStamps& stamps,
                                         const StampSteps& steps) {
    const double ticksPerFrame = 1.0 / (steps.rate.fps * stamps.timeBase).toDouble();
    const bool isExact = steps.isSteady && ticksPerFrame == static_cast<double>(steps.medianTicks);
    if (ticksPerFrame * kCoarseTick > 1.0 || isExact) {
        return std::nullopt;
    }
    return ClipWarning{
        Kind::CoarseStamps, std::nullopt,
        toKeep("The file keeps time in steps of {:.3g} ms, which is {:.0f} % of a frame "
               "interval: single time stamps are rounded by up to half a step. If the camera "
               "ran at a constant rate, count frames instead of using the time stamps.",
               stamps.timeBase.toDouble() * 1e3, 100.0 / ticksPerFrame)};
}

}  // namespace

std::vector<ClipWarning> stampWarnings(const timebase::FrameStamps& stamps,
                                       const std::optional<StampSteps>& steps) {
    Listing gaps{Kind::Gap};
    Listing repeated{Kind::RepeatedStamp};
    Listing backward{Kind::BackwardStamp};
    const auto& ticks = stamps.ticks;
    for (std::size_t i = 0; i + 1 < ticks.size(); ++i) {
        const std::int64_t step = ticksBetween(ticks[i], ticks[i + 1]);
        if (step == 0) {
            repeated.add(i + 1, toKeep("Frames {} and {} have the same time stamp.", i, i + 1));
        } else if (step < 0) {
            backward.add(i + 1,
                         toKeep("The time stamp of frame {} is {:.4f} s before that "
                                "of frame {}.",
                                i + 1, static_cast<double>(-step) * stamps.timeBase.toDouble(), i));
        } else if (steps) {
            const double intervals =
                static_cast<double>(step) * (steps->rate.fps * stamps.timeBase).toDouble();
            if (intervals > kGapSteps && step > steps->medianTicks + 1) {
                gaps.add(i, gapMessage(i, intervals,
                                       static_cast<double>(step) * stamps.timeBase.toDouble()));
            }
        }
    }
    std::vector<ClipWarning> all;
    gaps.appendTo(all);
    repeated.appendTo(all);
    backward.appendTo(all);
    if (steps) {
        if (auto coarse = coarseWarning(stamps, *steps)) {
            all.push_back(std::move(*coarse));
        }
    }
    return all;
}

}  // namespace core::media
