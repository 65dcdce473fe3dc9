#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "core/intake/read_film.h"

/// A clip of a few strikes, judged before the filming day: is it filmed well enough to be read?
namespace core::intake {

/// One thing that a test clip tells of how it was filmed.
struct TestPoint {
    enum class Kind {
        Shots,         ///< found, and read
        BallSize,      ///< px across
        FramesInView,  ///< frames that measure the ball, a shot
        TurnsInView,
        SpinLimit,   ///< fastest spin that the capture rate tells apart, against the spin seen
        Blur,        ///< degrees of turn while the shutter is open
        Light,       ///< how far the marking stands out of the noise
        Squareness,  ///< how much the ball grows or shrinks while it is in view
        CaptureRate,
        Readout,      ///< of a rolling shutter
        Sound,        ///< whether there is any; never held against a clip
        Uncertainty,  ///< standard uncertainty of a reading, relative
    };
    enum class Verdict {
        Good,
        Check,   ///< works, and would be better otherwise; or cannot be told
        Change,  ///< to be changed before anything is filmed
    };
    Kind kind{};
    Verdict verdict{};
    std::string value;   ///< what was seen, with its unit
    std::string advice;  ///< what to do; empty for Good
};

/// Stable name for JSON, for example "ball_size".
[[nodiscard]] std::string_view nameOf(TestPoint::Kind kind) noexcept;
/// "good", "check" or "change", for JSON; for people by saidText().

[[nodiscard]] std::string_view nameOf(TestPoint::Verdict verdict) noexcept;
/// What people call the point, for example "Ball across".
[[nodiscard]] std::string_view titleOf(TestPoint::Kind kind);

/// What the clip says of the filming. Immutable value.
struct TestClip {
    std::vector<TestPoint> points;  ///< in the order of Kind

    /// The worst of its points.
    [[nodiscard]] TestPoint::Verdict verdict() const noexcept;
};

/// One sentence for the whole clip, for example "Good to film like this."
[[nodiscard]] std::string verdictSentence(const TestClip& clip);

/// The same on paper (plan::sheetPdf()). film: its name. Errors: WriteFailed.
Result<std::string> testClipPdf(const std::string& film, const TestClip& clip);

/// Judges what readFilm() saw. Of several shots the median counts.
///
/// Good is what the table of accuracy counts as its target
/// (tests/benchmarks/FIGURES.md): a ball of 30 px or
/// more, 8 frames or more, at most 30 degrees of turn in an exposure. Change is where readings are
/// refused often: under 25 px, under 6 frames, above 45 degrees. Spins are told apart below half a
/// turn a frame (Shannon 1949, Proc. IRE 37:10, two samples a period). The other limits are common
/// practice, no source.
/// session: what readFilm() was told of camera and ball.
[[nodiscard]] TestClip judgeTestClip(const FilmReading& film, const project::Session& session);

}  // namespace core::intake
