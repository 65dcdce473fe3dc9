#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <variant>
#include <vector>

#include "core/findings/hitters.h"
#include "core/project/ids.h"
#include "core/spin/reading_by_marks.h"

/// Which shots and cells deserve a second look, and why; core/words says it.
namespace core::doubts {

/// Why something is doubtful.
enum class Reason {
    Marked,          ///< a reader says so
    ClockRefuted,    ///< the flight does not fall as it must at the clip's capture rate
    ClockUnchecked,  ///< nothing can check the clip's capture rate: the ball's diameter is missing
    ClockChanged,    ///< read with another clock than the clip has now, or the clock is unsettled
    Miscount,        ///< marks and pictures differ by half a turn or by whole turns
    MethodsDiffer,   ///< marks and pictures differ otherwise
    ReadingsDiffer,  ///< two readings of the same shot differ by more than their uncertainties
    FramesDropped,   ///< frames are missing inside the reading
    Outlier,         ///< beyond Grubbs' 1 % critical value in its cell (ISO 5725-2)
    Straggler,       ///< beyond the 5 % one
    NotConfirmed,    ///< marked by hand, and the pictures say nothing
    NotUnique,       ///< another rate explains the pictures nearly as well
    Curvature,       ///< angles or returns do not lie on a straight line over time
    Alias,           ///< few frames a turn: other rates look the same
    Stroboscope,     ///< a whole number of frames a turn
    Blur,            ///< the mark turns far while the shutter is open
    WideInterval,    ///< far less sure than the rest of the cell
    BallSpeed,       ///< the ball was much faster or slower than in the rest of the cell
    HittersDiffer,   ///< of a cell: one hitter got from the implement what the others did not
    ScatterDiffers,  ///< of a cell: its shots scatter more than those of the others
};
inline constexpr int kReasonCount = static_cast<int>(Reason::ScatterDiffers) + 1;

/// Stable name for storage, for example "wide_interval".
[[nodiscard]] std::string_view reasonName(Reason reason) noexcept;

/// How much a doubt weighs. Within a grade `strength` decides.
enum class Grade {
    Note = 1,      ///< worth knowing when the number looks odd
    Question = 2,  ///< the number may be wrong
    Grave = 3,     ///< the number is most likely wrong
};

/// The flight does not fall as it must at the capture rate.
struct FlightAgainstClock {
    std::string statement{};  ///< in kept words (core/base/kept_words.h)
    std::string overruled{};  ///< why the reader keeps the capture rate all the same; else empty
    bool isNoted{};           ///< in the project: the shots of the clip are in no summary
};

/// The clip has another clock than the shot was read with.
struct ClockSinceReading {
    bool isUnsettled{};  ///< it has none: the evidence conflicts
};

/// Pictures that give no reading.
struct SilentPictures {
    std::string why;  ///< in kept words
};

/// A shot that was read in two ways, without the clock's share.
struct MarksAgainstPictures {
    Rpm marks;
    Rpm pictures;
};

/// The marks are off by half a turn or by whole turns.
struct TurnsOff {
    MarksAgainstPictures rates;
    int counted{};
    double off{};  ///< turns by the pictures, less those counted
    timebase::FrameIndex last;
};

struct RepeatedReading {
    Rpm other;
    std::string reader;  ///< of the other one; may be empty
    Rpm counting;
};

struct MissingFrames {
    std::int64_t count{};
    timebase::FrameIndex after;  ///< the first hole
    bool isClockCounted{};       ///< the clock counts frames and misses them
};

struct NearRate {
    double standardErrors{};
    std::optional<Rpm> rate;  ///< absent: not known which
};

struct WideInCell {
    Rpm sigma;
    Rpm usual;
};

struct SpeedInCell {
    double metresPerSecond{};
    double usual{};
};

/// What a reason rests on; nothing where the reason says it all.
using Facts = std::variant<std::monostate, FlightAgainstClock, ClockSinceReading, SilentPictures,
                           MarksAgainstPictures, TurnsOff, RepeatedReading, MissingFrames, NearRate,
                           WideInCell, SpeedInCell, spin::MarksWarning, findings::OddShot,
                           findings::OddScatter, std::vector<findings::InteractionCell>>;

/// One reason; words::sentence() says it.
struct Doubt {
    Reason reason{};
    Grade grade{Grade::Note};
    double strength{};  ///< 0 and more; how far beyond what is usual, on a scale of the rule's own
    Facts facts;

    /// Grade and strength in one number, from 1 to below 4.
    [[nodiscard]] double severity() const noexcept;
};

/// A shot, or a cell as a whole, with everything that speaks against it.
struct Doubted {
    std::optional<project::ShotId> shot;  ///< absent: the cell as a whole
    std::optional<project::CellId> cell;
    std::vector<Doubt> doubts;  ///< worst first, at least one
    /// Somebody has looked at all these reasons and let the shot, or the cell, stand.
    bool isSettled{false};

    [[nodiscard]] double severity() const noexcept { return doubts.front().severity(); }
    [[nodiscard]] bool has(Reason reason) const noexcept;
    /// Names of all reasons, sorted, separated by blanks (FORMAT.md R29).
    [[nodiscard]] std::string reasonNames() const;
};

}  // namespace core::doubts
