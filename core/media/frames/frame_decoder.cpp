#include "core/media/frames/frame_decoder.h"

#include <algorithm>
#include <map>
#include <utility>

#include "core/base/words.h"
#include "core/media/frames/decode_run.h"
#include "core/media/frames/orientation.h"
#include "core/media/frames/picture.h"

namespace core::media {
namespace {

using timebase::FrameIndex;

/// A key frame from which pictures recover only gradually needs a run from an earlier one.
constexpr int kEarlierStarts = 2;
/// What is decoded on the way to one frame: minutes. Cameras write a key frame every second or so,
/// which is a thousandth of it.
constexpr std::int64_t kMostPixelsOnTheWay = 100'000'000'000;

class LibavFrameDecoder final : public FrameDecoder {
public:
    LibavFrameDecoder(std::filesystem::path file, ClipIndex index)
        : m_file{std::move(file)}, m_index{std::move(index)} {}

    Result<void> openRun(int threads) {
        BOOST_OUTCOME_TRY(run, DecodeRun::open(m_file, m_index, threads, {}));
        m_run = std::move(run);
        m_orientation = orientationOf(m_run->stream());
        m_orientation.rotationDegrees =
            m_index.facts.rotationDegrees;  // a person may say otherwise
        return ok();
    }

    [[nodiscard]] const ClipIndex& index() const noexcept override { return m_index; }
    [[nodiscard]] FrameIndex keyBefore(FrameIndex frame) const override;
    [[nodiscard]] bool goesOnTo(FrameIndex frame) const override { return canGoOnTo(frame.value); }
    Result<FramePtr> decode(FrameIndex frame, std::stop_token stop) override;
    Result<void> decodeRange(FrameIndex first, FrameIndex last, const Sink& sink,
                             std::stop_token stop) override;

private:
    [[nodiscard]] bool canGoOnTo(std::int64_t frame) const;
    [[nodiscard]] std::int64_t framesAtOnce() const;
    Result<void> begin(std::optional<std::int64_t> key);
    Result<void> moveTo(std::int64_t frame);
    Result<std::optional<DecodedFrame>> nextFrom(std::int64_t frame);
    Result<FramePtr> take(std::int64_t frame);
    Result<bool> startEarlier(std::int64_t frame);
    [[nodiscard]] Result<void> checkSize(const Picture& picture) const;
    void markMissing(std::int64_t first, std::int64_t end);
    [[nodiscard]] Error damagedError(std::int64_t frame, const std::string& reason) const;

    std::filesystem::path m_file;
    ClipIndex m_index;
    std::unique_ptr<DecodeRun> m_run;
    Orientation m_orientation;
    bool m_hasBegun{};
    std::optional<std::int64_t> m_startKey;  // where the run began
    std::int64_t m_nextFrame{};              // frames before it will not come any more
    std::int64_t m_skippedBefore{};          // of frames before it, some may have been left out
    std::optional<DecodedFrame> m_held;      // came out, not asked for yet
    std::map<std::int64_t, std::string> m_damaged;
};

FrameIndex LibavFrameDecoder::keyBefore(FrameIndex frame) const {
    CORE_EXPECTS(frame.value >= 0 && frame.value < m_index.frameCount());
    return {m_index.keyAtOrBefore(frame.value).value_or(0)};
}

bool LibavFrameDecoder::canGoOnTo(std::int64_t frame) const {
    if (!m_hasBegun || frame < m_nextFrame || frame < m_skippedBefore ||
        (m_run->hasEnded() && !m_held)) {
        return false;
    }
    return m_index.keyAtOrBefore(frame).value_or(0) <= m_nextFrame + kCheapToGoOn;
}

Result<void> LibavFrameDecoder::begin(std::optional<std::int64_t> key) {
    m_startKey = key;
    m_hasBegun = false;
    m_held.reset();
    BOOST_OUTCOME_TRY(m_run->beginAt(key));
    m_hasBegun = true;
    m_nextFrame = m_skippedBefore = key.value_or(0);
    return ok();
}

/// So many may lie on the way to one frame.
std::int64_t LibavFrameDecoder::framesAtOnce() const {
    const std::int64_t pixels =
        std::int64_t{m_index.facts.width} * std::int64_t{m_index.facts.height};
    return kMostPixelsOnTheWay / std::max<std::int64_t>(pixels, 1);
}

Result<void> LibavFrameDecoder::moveTo(std::int64_t frame) {
    const auto key = m_index.keyAtOrBefore(frame);
    const bool goesOn = canGoOnTo(frame);
    const std::int64_t onTheWay = frame - (goesOn ? m_nextFrame : key.value_or(0));
    if (onTheWay > framesAtOnce()) {
        return fail(ErrorCode::Damaged,
                    said("{}: Frame {} is {} of {} × {} pixels behind the key frame before "
                         "it, and none of them can be left out: decoding them would hardly come "
                         "to an end. Convert the clip with a key frame every second, without "
                         "changing its frame rate.",
                         m_file.string(), frame, counted(onTheWay, "frame", "frames"),
                         m_index.facts.width, m_index.facts.height));
    }
    return goesOn ? ok() : begin(key);
}

/// Begins the run again, one key frame earlier, for a frame that did not come out though no packet
/// was complained about. False when that has been tried or cannot help.
Result<bool> LibavFrameDecoder::startEarlier(std::int64_t frame) {
    if (!m_startKey || *m_startKey == 0 || !m_run->damageOf(frame).empty()) {
        return false;
    }
    int startsTried = 0;
    for (std::int64_t at = *m_startKey; at <= frame; ++at) {
        startsTried += m_index.isKey[static_cast<std::size_t>(at)] ? 1 : 0;
    }
    const auto earlier = m_index.keyAtOrBefore(*m_startKey - 1);
    if (startsTried > kEarlierStarts || frame - earlier.value_or(0) > framesAtOnce()) {
        return false;
    }
    BOOST_OUTCOME_TRY(begin(earlier));
    return true;
}

Error LibavFrameDecoder::damagedError(std::int64_t frame, const std::string& reason) const {
    return {ErrorCode::Damaged,
            said("{}: Frame {} cannot be decoded ({}). Other frames of the clip may still be read.",
                 m_file.string(), frame,
                 reason.empty() ? said("its data are missing or broken") : reason)};
}

/// Whoever works on the pictures of a clip relies on their having one size.
Result<void> LibavFrameDecoder::checkSize(const Picture& picture) const {
    const StreamFacts& clip = m_index.facts;
    if (picture.width() == clip.width && picture.height() == clip.height) {
        return ok();
    }
    return fail(ErrorCode::Damaged,
                said("{}: Frame {} is {} × {} pixels large and the clip {} × {}: the "
                     "picture size changes inside the clip, and frames of another size are "
                     "not used. Cut the clip where the size changes, without changing the "
                     "frame rate, and add the parts.",
                     m_file.string(), picture.index().value, picture.width(), picture.height(),
                     clip.width, clip.height));
}

void LibavFrameDecoder::markMissing(std::int64_t first, std::int64_t end) {
    for (std::int64_t frame = first; frame < end; ++frame) {
        m_damaged.try_emplace(frame, m_run->damageOf(frame));
    }
}

Result<std::optional<DecodedFrame>> LibavFrameDecoder::nextFrom(std::int64_t frame) {
    if (m_held) {
        return std::exchange(m_held, std::nullopt);
    }
    return m_run->next(frame);
}

/// Runs on until the frame comes out or must be taken for lost.
Result<FramePtr> LibavFrameDecoder::take(std::int64_t frame) {
    m_skippedBefore = frame;
    for (;;) {
        if (const auto known = m_damaged.find(frame); known != m_damaged.end()) {
            return damagedError(frame, known->second);
        }
        BOOST_OUTCOME_TRY(decoded, nextFrom(frame));
        if (decoded && decoded->frame < frame) {
            m_nextFrame = std::max(m_nextFrame, decoded->frame + 1);
            continue;
        }
        if (const std::string why = decoded ? std::string{} : m_run->endedEarly(); !why.empty()) {
            m_damaged[frame] = why;
            continue;
        }
        if (!decoded || decoded->frame > frame) {
            BOOST_OUTCOME_TRY(startsEarlier, startEarlier(frame));
            if (startsEarlier) {
                m_skippedBefore = frame;
                continue;
            }
            markMissing(frame, decoded ? decoded->frame : m_index.frameCount());
            m_nextFrame = frame + 1;
            m_held = std::move(decoded);
            continue;
        }
        m_nextFrame = frame + 1;
        if (!decoded->damage.empty()) {
            m_damaged[frame] = decoded->damage;
            continue;
        }
        auto picture = std::make_shared<const Picture>(std::move(decoded->picture),
                                                       FrameIndex{frame}, m_orientation);
        BOOST_OUTCOME_TRY(checkSize(*picture));
        return picture;
    }
}

Result<void> LibavFrameDecoder::decodeRange(FrameIndex first, FrameIndex last, const Sink& sink,
                                            std::stop_token stop) {
    if (first.value < 0 || last.value < first.value || last.value >= m_index.frameCount()) {
        return fail(ErrorCode::OutOfRange,
                    said("{}: Frames {} to {} were asked for; the clip has frames 0 to {}.",
                         m_file.string(), first.value, last.value, m_index.frameCount() - 1));
    }
    m_run->setStop(stop);
    for (std::int64_t frame = first.value; frame <= last.value; ++frame) {
        if (stop.stop_requested()) {
            return fail(ErrorCode::Cancelled, said("Decoding was cancelled."));
        }
        Result<FramePtr> taken = FramePtr{};
        if (const auto known = m_damaged.find(frame); known != m_damaged.end()) {
            taken = damagedError(frame, known->second);
        } else if (auto moved = moveTo(frame); moved.has_error()) {
            taken = std::move(moved).error();
        } else {
            taken = take(frame);
        }
        if (taken.has_error() && taken.error().code == ErrorCode::Cancelled) {
            return std::move(taken).error();
        }
        if (!sink(FrameIndex{frame}, std::move(taken))) {
            break;
        }
    }
    return ok();
}

Result<FramePtr> LibavFrameDecoder::decode(FrameIndex frame, std::stop_token stop) {
    Result<FramePtr> result = FramePtr{};
    BOOST_OUTCOME_TRY(decodeRange(
        frame, frame,
        [&](FrameIndex, Result<FramePtr> decoded) {
            result = std::move(decoded);
            return true;
        },
        std::move(stop)));
    return result;
}

}  // namespace

Result<std::unique_ptr<FrameDecoder>> FrameDecoder::open(const std::filesystem::path& file,
                                                         ClipIndex index, int threads) {
    CORE_EXPECTS(index.isKey.size() == index.stamps.ticks.size());
    auto decoder = std::make_unique<LibavFrameDecoder>(file, std::move(index));
    BOOST_OUTCOME_TRY(decoder->openRun(threads));
    return std::unique_ptr<FrameDecoder>{std::move(decoder)};
}

}  // namespace core::media
