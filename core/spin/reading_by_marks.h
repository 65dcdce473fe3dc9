#pragma once

#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/base/words.h"
#include "core/spin/aliases.h"
#include "core/spin/mark.h"
#include "core/spin/uncertainty_budget.h"
#include "core/timebase/clip_clock.h"

namespace core::spin {

/// Name of the line of sight's row in a budget.
inline constexpr std::string_view kLineOfSightRow = toSay("line of sight");

/// Row of the ball's centre in a frame: 0 at the top edge of the sensor, 1 at the bottom.
struct BallRow {
    FrameIndex frame;
    double row{};
    bool operator==(const BallRow&) const = default;
};

/// A sensor that reads its rows one after the other during `readout` takes a ball at row y at
/// y·readout after the frame's time.
struct RollingShutter {
    enum class Kind {
        NotAssessed,  ///< nothing is known; the budget says so
        Absent,       ///< all rows at once
        Known,        ///< corrected; needs `readout`, and the row of every marked frame
        Unknown,      ///< rectangular from 0 to `readout` (absent: one frame interval); needs the
                      ///< rows of the start and the last return
        Estimated,    ///< as Known, with `readoutSigma` as its standard uncertainty (normal)
    };
    Kind kind{Kind::NotAssessed};
    std::optional<Seconds> readout;
    std::vector<BallRow> rows;
    Seconds readoutSigma{};
    bool operator==(const RollingShutter&) const = default;
};

/// While the ball crosses the view the direction from the camera to it turns, and the mark seems to
/// have turned by that much less about the same axis. `angle` is the turn from the first to the
/// last mark.
struct LineOfSight {
    enum class Kind {
        NotAssessed,  ///< the budget says so
        Corrected,    ///< angle about the spin axis, positive in the sense of the spin, is added to
                      ///< the turns; `sigma` is its standard uncertainty
        Contribution,  ///< the axis is not known: rectangular within ± angle. For axes equally
                       ///< probable in all directions the part of a turn about any one of them is
                       ///< exactly rectangular (Archimedes, On the Sphere and Cylinder)
    };
    Kind kind{Kind::NotAssessed};
    Radians angle;
    Radians sigma;
    bool operator==(const LineOfSight&) const = default;
};

/// What is known of a shot besides its marks and its clock.
struct ReadingContext {
    int symmetryOrder{1};             ///< the marking looks the same after 1/m of a turn
    std::optional<Seconds> exposure;  ///< for the blur
    RollingShutter rollingShutter;
    LineOfSight lineOfSight;
    Radians dialStep{fromDegrees(1.0)};  ///< smallest step of an angle reading
    bool operator==(const ReadingContext&) const = default;
};

/// Something that may fool a reader, or widens the answer.
struct MarksWarning {
    enum class Kind {
        FewFramesPerTurn,  ///< fewer than three frames per turn of the marking
        TurnsInferred,  ///< numbers of turns were not given and others than 1, 2, 3 … were found
        Stroboscope,    ///< a whole number of frames per turn
        Blur,           ///< the mark turns by more than 45° during an exposure
        Curvature,      ///< angles do not lie on a straight line: changing axis or wrong unwrapping
        Scatter,        ///< angles scatter more than their stated spread
        AssumedNeighbour,  ///< a mark on the first or last frame: the missing neighbour was
                           ///< mirrored
        MethodsDiffer,     ///< returns and angles both read; the narrower one is reported
        UnknownReadout,    ///< and it matters: a twentieth of the variance or more
    };
    Kind kind;
    std::string message;
    bool operator==(const MarksWarning&) const = default;
};

/// Stable name for storage and JSON, for example "few_frames_per_turn".
[[nodiscard]] std::string_view marksWarningName(MarksWarning::Kind kind) noexcept;

/// Turns of one return, as given or as found.
struct ReturnTurns {
    FrameIndex frame;
    int turns{};
    bool wasGiven{};
    Interval<Rpm> bounds;  ///< what this return alone allows
    bool operator==(const ReturnTurns&) const = default;
};

/// A spin rate read from marks. Plain data; recomputable from marks, clock and context.
struct MarksReading {
    enum class Method { Returns, Angles };
    Method method{Method::Returns};
    Rpm marked;    ///< turns ÷ time from the start to the last return; or the line's slope
    Rpm estimate;  ///< expectation, corrections applied
    Rpm standardUncertainty;  ///< u_c
    Interval<Rpm>
        interval95;  ///< probabilistically symmetric (JCGM 101:2008, 3.15), all contributions
    std::optional<Interval<Rpm>> bounds;        ///< hard limits from the returns alone, clock exact
    Seconds period;                             ///< expectation of the time of one turn
    double framesPerTurn{};                     ///< frames from start to last return ÷ turns
    std::optional<bool> turnsCounterClockwise;  ///< from angles only
    std::vector<ReturnTurns> returns;           ///< in order of time
    UncertaintyBudget budget;                   ///< in rpm
    std::vector<LookAlike> lookAlikes;          ///< aliases, other turn counts, symmetry
    std::optional<Radians> blurPerExposure;     ///< 2π·f·exposure
    std::vector<MarksWarning> warnings;
};

/// Reads a spin rate from marks.
///
/// Returns. Return j after n_j turns says t_s + n_j·T lies in [low_j, high_j]: for a nearest frame
/// the midpoints to its actual neighbours, for a bracket its two frames or the stated fraction.
/// T has the density of timebase::SlopeDensity; with an exact start this is rectangular on the
/// intersection [a, b] of the period bounds, and for the rate f = 60/T
///   mean      60·ln(b/a)/(b-a)
///   variance  3600/(a·b) - mean²
///   95 %      [60/(b - 0.025·(b-a)), 60/(a + 0.025·(b-a))]
/// (change of variable in a rectangular density, JCGM 101:2008, 5.3 and 6.4.2). A start with spread
/// or a fraction gives a trapezoidal or other piecewise linear density, treated in closed form too.
///
/// Turns that are not given: the first return is turn 1 unless no consistent count allows it; the
/// others follow. Several consistent counts are refused, never guessed.
///
/// Angles. Unwrapped angle against time, weighted straight line (JCGM 100:2008, H.3); the standard
/// uncertainty of the slope is the larger of that from the stated spreads and that from the
/// residuals (Student t, n-2), and at least dialStep/(√6·span). A whole number of frames per turn
/// repeats the same attitudes, and with them the same reading errors: the uncertainty is widened by
/// √(readings ÷ distinct attitudes). Returns need no such widening: their bounds do not average.
///
/// Combination: rate·(1 + sum of relative effects) with clock (normal), rolling shutter and line of
/// sight; u_c² is the sum of squares, the interval comes from the numerical convolution of all
/// densities. A rolling shutter that is known or estimated shifts the instants before all this.
/// The budget's row "rolling shutter" has the readout time as its input and the sensitivity
/// d f / d T = - f (row of the last mark - row of the first) / (time between them) with its sign:
/// the error is shared by all shots of the camera in this mode, and falling and rising balls err in
/// opposite senses.
///
/// Errors: InvalidInput (no start, nothing marked, a return not after the start, missing rows);
/// OutOfRange (a frame outside the clip, spreads, symmetry order); NotFinite; Contradiction (names
/// the returns that disagree, or says what returns and angles each allow); Untrustworthy (fewer
/// than two frames per turn of the marking, or several turn counts or unwrappings fit: the message
/// lists the candidates; or angles that follow no steady turning).
Result<MarksReading> readMarks(const MarkSet& marks, const timebase::ClipClock& clock,
                               const ReadingContext& context = {});

/// What readMarks() says besides numbers.
struct MarksRemarks {
    std::vector<ReturnTurns> returns;
    std::vector<MarksWarning> warnings;
};
/// Without the interval, which is most of the cost of a reading. Errors: as readMarks().
Result<MarksRemarks> remarksOnMarks(const MarkSet& marks, const timebase::ClipClock& clock,
                                    const ReadingContext& context);

}  // namespace core::spin
