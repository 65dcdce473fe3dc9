#pragma once

#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/base/result.h"
#include "core/timebase/clip_clock.h"
#include "core/timebase/clock_check.h"
#include "core/timebase/frame_time.h"

namespace core::timebase {

/// Two statements of a rate that differ by no more than this agree: a nominal rate against the
/// exact one (240 against 240000/1001 differs by 0.1 %), with room for rounded tags.
inline constexpr double kRateAgreement = 0.0015;
/// A file whose playback rate is this close to the capture rate plays at real speed,
/// and its time stamps count: a variable frame rate moves the median by less, and the smallest
/// change of speed in use is 25/24 (film shown on 25-frame television; common practice, no source).
inline constexpr double kPlaybackAgreement = 0.02;
/// Relative standard uncertainty of a rate that may be nominal: rectangular, half-width 0.1 %.
inline constexpr double kNominalRateSigma = 0.001 / 1.7320508075688772;
/// Relative standard uncertainty of an exact rate taken at its word: the quartz clock of a camera
/// (100 parts in a million; common practice, no source).
inline constexpr double kCameraClockSigma = 1e-4;
/// Relative standard uncertainty of time stamps that nothing supports: they may be nominal, and
/// nobody knows less of a clock than without any evidence.
inline constexpr double kUnprovenStampSigma = kNominalRateSigma;

/// A tag in the container that states the capture rate.
struct ContainerTag {
    std::string tag;
    CaptureRate rate;
    bool isSetAside{false};  ///< the reviewer says it is wrong: kept and not weighed
    bool operator==(const ContainerTag&) const = default;
};

/// The reviewer's word.
struct ReviewerEntry {
    CaptureRate rate;
    /// Relative standard uncertainty the reviewer states; absent: judged from the rate.
    std::optional<double> relativeSigma;
    bool operator==(const ReviewerEntry&) const = default;
};

/// Downward acceleration of the tracked ball in flight, computed with an assumed capture rate;
/// judged as in free_fall.h.
struct GravityCheck {
    CaptureRate assumed;
    double apparentGravity{};  ///< m/s², positive downwards
    bool operator==(const GravityCheck&) const = default;
};

using CaptureRateEvidence = std::variant<ContainerTag, ReviewerEntry, ClockCheck, GravityCheck>;

/// Stable name for storage and JSON: "container_tag", "reviewer_entry", "clock_check",
/// "gravity_check".
[[nodiscard]] std::string_view evidenceName(const CaptureRateEvidence& evidence) noexcept;
/// One sentence for people, for example "The tag com.android.capture.fps says 240 frames per
/// second."
[[nodiscard]] std::string describe(const CaptureRateEvidence& evidence);

/// Something to tell the reviewer about a settled clock.
struct ClockNote {
    enum class Kind {
        NoEvidence,           ///< nothing states the capture rate; the file is taken at its speed
        NominalAgainstExact,  ///< statements agree within kRateAgreement and are not equal
        NotWholeStretch,      ///< capture rate ÷ playback rate is close to a whole number, not one
        FasterThanCaptured,   ///< the file plays faster than it was captured
        CheckDecided,         ///< a clock check chose between rates that differ by 0.1 %
        StampsNotUsed,        ///< frames are counted because the time stamps are not trusted
    };
    Kind kind;
    std::string message;
    bool operator==(const ClockNote&) const = default;
};

/// Stable name of a note, for example "nominal_against_exact".
[[nodiscard]] std::string_view clockNoteName(ClockNote::Kind kind) noexcept;

/// How the frames of a clip are to be timed.
struct ClockDecision {
    ClockKind kind{ClockKind::Stamped};
    Rational stretch{1};                   ///< capture rate ÷ playback rate; 1 unless stretched
    std::optional<CaptureRate> rate;       ///< absent only when nothing is known
    double relativeSigma{};                ///< shared by all shots of the clip
    std::optional<std::size_t> decidedBy;  ///< position in the evidence; absent: nothing states one
    std::vector<ClockNote> notes;
    bool operator==(const ClockDecision&) const = default;
};

/// Whether the presentation time stamps of the clip are used.
enum class StampTrust { Trusted, NotTrusted };

/// Weighs all evidence but tags set aside. Rates are compared pairwise; two of them conflict when
/// they differ, relatively, by more than the larger of kRateAgreement and three joint standard
/// uncertainties.
///
/// Chosen is, in this order: the reviewer's entry, the first container tag, the clock check. A
/// clock check with a relative standard uncertainty of at most 0.03 % decides between a rate and
/// its neighbour a factor 1.001 away, and is itself taken when both are more than three of its
/// standard uncertainties off. A rate equal to the playback rate within kPlaybackAgreement gives a
/// stamped clock.
///
/// Relative standard uncertainty: the entry's own; else that of an agreeing clock check when it is
/// smaller; else kNominalRateSigma for a whole number of frames per second and kCameraClockSigma
/// for an exact fraction; kUnprovenStampSigma without evidence, and at most that for a stamped
/// clock. A stretch within kPlaybackAgreement of a whole number, and not equal to it, is uncertain
/// by that difference (rectangular).
///
/// playback: absent for a clip of one frame.
/// Errors: Contradiction (names both pieces of evidence and both rates); InvalidInput when stamps
/// are not trusted and no evidence states a rate; OutOfRange for a rate that is not positive;
/// errors of evaluateClockCheck().
Result<ClockDecision> settleCaptureRate(std::optional<PlaybackRate> playback,
                                        std::span<const CaptureRateEvidence> evidence,
                                        StampTrust trust = StampTrust::Trusted);

/// The evidence that decides on the capture rate in settleCaptureRate(); null when none states one
/// or it conflicts.
[[nodiscard]] const CaptureRateEvidence* decidingEvidence(
    std::span<const CaptureRateEvidence> evidence);

/// The clock that a decision describes, for the stamps of a clip. Errors as ClipClock's factories.
Result<ClipClock> makeClock(const ClockDecision& decision, FrameStamps stamps);

}  // namespace core::timebase
