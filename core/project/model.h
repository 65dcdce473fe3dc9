#pragma once

#include <cstdint>
#include <map>
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/units.h"
#include "core/plan/plan.h"
#include "core/project/ids.h"
#include "core/spin/counting_habit.h"
#include "core/spin/mark.h"
#include "core/timebase/capture_rate_evidence.h"
#include "core/timebase/clip_clock.h"

/// The things a project keeps, as plain values. Words as in the glossary of resources/guide.
namespace core::project {

using plan::BallMarking;
using plan::symmetryOrder;

/// Which way a stroke turns the ball, as the tester states it: over the top (its upper side runs
/// forward) or under it.
enum class Stroke { NotKnown, Topspin, Backspin };

/// One filming day with one set-up.
struct Session {
    SessionId id;
    std::string name;
    std::string date;  ///< ISO 8601 calendar date, may be empty
    BallMarking marking{BallMarking::ThreeQuarterDark};
    std::optional<double> ballDiameterMm;
    std::optional<double> fieldOfViewDeg;  ///< horizontal, of the camera
    std::optional<double> exposureSeconds;
    std::optional<double> readoutSeconds;  ///< of a rolling shutter, top row to bottom row
    std::string note;
    Stroke stroke{Stroke::NotKnown};  ///< of the day's shots, where a shot does not say otherwise
    bool operator==(const Session&) const = default;
};

/// What strikes the ball.
struct Implement {
    ImplementId id;
    std::string name;
    std::string condition;                          ///< "new", "worn", or the tester's own word
    std::map<std::string, std::string> attributes;  ///< free columns
    bool operator==(const Implement&) const = default;
};

/// Who swings it.
struct Hitter {
    HitterId id;
    std::string name;
    bool operator==(const Hitter&) const = default;
};

/// One implement with one hitter in one session. Unique in the three.
struct Cell {
    CellId id;
    SessionId session;
    ImplementId implement;
    HitterId hitter;
    bool operator==(const Cell&) const = default;
};

/// How frame numbers of a clip become capture times, as settled from the evidence.
struct ClockSetting {
    timebase::ClockKind kind{timebase::ClockKind::Stamped};
    timebase::Rational stretch{1};                 ///< for Stretched
    std::optional<timebase::CaptureRate> counted;  ///< for Counted
    double relativeSigma{};
    bool operator==(const ClockSetting&) const = default;
};

/// A remark about a clip or its clock, in words that are kept (core/base/kept_words.h).
struct ClipRemark {
    std::string kind;  ///< stable name, for example "gap"
    std::optional<timebase::FrameIndex> frame;
    std::string message;
    bool operator==(const ClipRemark&) const = default;
};

/// The container of a clip that is a table of frame counts.
inline constexpr std::string_view kTallyContainer = "tally";

/// One video file.
struct Clip {
    ClipId id;
    SessionId session;
    std::string path;  ///< relative to the project's folder, '/' as separator; absolute only when
                       ///< the file lies on another volume
    std::int64_t sizeBytes{};
    std::string fingerprint;  ///< see core/media/file/clip_index.h
    std::int64_t frameCount{};
    int width{};  ///< as shown
    int height{};
    int rotationDegrees{};  ///< clockwise, from the stored picture to the one shown
    int turnedDegrees{};    ///< the part of it that a person added to what the file says
    std::string codec;
    std::string container;
    bool hasSound{};
    std::optional<timebase::PlaybackRate> playbackRate;
    std::vector<timebase::CaptureRateEvidence> evidence;
    std::optional<ClockSetting> clock;     ///< absent while evidence conflicts or is missing
    std::vector<ClipRemark> clockRemarks;  ///< what was said when the clock was settled
    std::vector<ClipRemark> remarks;       ///< on the file, as it was taken in
    /// Of the lens, as the file gives it, in mm for a frame of 36 mm x 24 mm.
    std::optional<double> lensFocalLengthMm;
    bool wasSearchedForShots{};  ///< by sound and movement; it may have none all the same
};

/// Whether the clip is no film but a table of frame counts (FORMAT.md R24): there are no pictures.
[[nodiscard]] bool isTally(const Clip& clip) noexcept;

/// The remarks on the file, then those on its clock, in the language of the person.
[[nodiscard]] std::vector<ClipRemark> allRemarks(const Clip& clip);

/// Time stamps of a clip, loaded on demand.
struct ClipFrames {
    timebase::FrameStamps stamps;
    std::vector<bool> isKey;
};

/// Where the ball is in a frame, as pointed at by a person. Picture coordinates as shown, px.
struct BallClick {
    timebase::FrameIndex frame;
    double xPx{};
    double yPx{};
    double radiusPx{};
    bool operator==(const BallClick&) const = default;
};

enum class ShotStanding {
    Open,      ///< not decided
    Kept,      ///< its counting reading enters the summary
    SetAside,  ///< stays in the project, left out of the summary, with a reason
};

/// One strike of the ball and the flight after it.
struct Shot {
    ShotId id;
    ClipId clip;
    std::optional<CellId> cell;
    std::int64_t ordinal{};  ///< position within its clip, from 1, by strike
    timebase::FrameIndex firstFrame;
    timebase::FrameIndex lastFrame;
    std::optional<timebase::FrameIndex> strikeFrame;
    std::vector<BallClick> clicks;
    spin::MarkSet marks;  ///< the marks as they stand now
    ShotStanding standing{ShotStanding::Open};
    std::string reason;  ///< why it was set aside
    bool doubtful{};
    std::optional<ReadingId> counting;  ///< the reading that enters the summary
    std::string note;                   ///< in a person's words
    std::optional<Stroke> stroke;       ///< absent: as on the filming day
};

/// The stroke that holds for a shot. The session is that of its clip.
[[nodiscard]] Stroke strokeOf(const Session& session, const Shot& shot) noexcept;

/// What a person did about a shot of a clip, so that finding shots again respects it
/// (FORMAT.md R28).
enum class CorrectionKind {
    ByHand,   ///< the shot was made by hand
    Moved,    ///< it was found at these frames, and a person changed its range
    Dropped,  ///< it was found at these frames, and a person dropped it
};

struct ShotCorrection {
    CorrectionId id;
    ClipId clip;
    ShotId shot;  ///< may be gone
    CorrectionKind kind{CorrectionKind::ByHand};
    timebase::FrameIndex firstFrame;  ///< as made or as found, before the correction
    timebase::FrameIndex lastFrame;
    bool operator==(const ShotCorrection&) const = default;
};

enum class ReadingMethod { Marks, RotationFit };

/// One determination of the spin of one shot, by one reader, by one method. Never changed once
/// made.
struct Reading {
    ReadingId id;
    ShotId shot;
    ReadingMethod method{ReadingMethod::Marks};
    std::string methodVersion;
    std::string reader;
    std::string madeAt;  ///< ISO 8601, UTC, to the second
    Measured<Rpm> rate;
    Interval<Rpm> interval95;
    std::optional<Interval<Rpm>> bounds;  ///< hard limits, for marks
    double clockRelativeSigma{};          ///< the part of the uncertainty that a clip's shots share
    /// How whole frames were counted; absent for a reading that is no whole-frame count.
    std::optional<spin::CountingHabit> habit;
    /// The part of the uncertainty that the shots of a session share because of where the camera
    /// stood: line of sight or field of view, relative to the rate; absent where it is not known.
    std::optional<double> viewRelativeSigma;
    std::string inputsJson;  ///< everything needed to compute it again (marks, clock, context)
};

/// What was doubtful about a shot when it was looked at again and nothing had to be changed.
struct SecondLook {
    SecondLookId id;
    ShotId shot;
    std::string reasons;  ///< stable names, separated by blanks (core/doubts)
    bool operator==(const SecondLook&) const = default;
};

/// A shot that is to be read once more without the numbers and names that are known of it.
struct SecondReading {
    SecondReadingId id;
    ShotId shot;
    std::int64_t position{};           ///< in the order of reading, from 1; the sample is shuffled
    spin::MarkSet marks;               ///< as they stand now, of this reading alone
    std::optional<ReadingId> reading;  ///< when it is done
    bool operator==(const SecondReading&) const = default;
};

/// The plan of the filming day, of which a project has at most one.
struct PlanRecord {
    PlanId id;
    plan::Plan plan;
    bool operator==(const PlanRecord&) const = default;
};

/// What was read from the pictures of a shot, kept so that it need not be read again. A cache: what
/// counts is in the readings.
struct PictureArchive {
    std::string key;    ///< names everything it rests on
    std::string bytes;  ///< of the module that reads pictures
    bool operator==(const PictureArchive&) const = default;
};

/// One line of the history. Appended, never changed.
struct HistoryEntry {
    HistoryId id;
    std::string at;  ///< ISO 8601, UTC, to the second
    std::string reader;
    std::string what;  ///< a sentence in kept words: "Set aside shot 3 of clip b.mp4: mishit."
    std::optional<ShotId> shot;
};

}  // namespace core::project
