#pragma once

#include <limits>
#include <optional>
#include <vector>

#include "core/synthesis/footage_maker.h"

namespace core::synthesis {

/// Ranges from which randomShot() draws. Rates, exposures, ball sizes and noise are drawn evenly in
/// their logarithm, everything else evenly.
struct ShotRanges {
    Interval<Rpm> spin{{600.0}, {4500.0}};
    Interval<Seconds> exposure{{1.0 / 4000.0}, {1.0 / 250.0}};
    int smallestBallPx{24};  ///< diameter in the middle of the flight
    int largestBallPx{80};
    int fewestFrames{8};  ///< with the whole ball inside the picture
    int mostFrames{30};
    /// Below two frames a turn a rate cannot be told from its alias; testers film faster than that.
    double fewestFramesPerTurn{3.0};
    double fewestTurns{1.0};  ///< while wholly visible; testers film at least one whole turn
    int bestQuality{17};      ///< constant quality of the encoder; smaller is better
    int worstQuality{28};
    double rollingShutterShare{0.3};  ///< of shots with a readout, by default of 2 ms and more
    Interval<Seconds> readout{{0.002},
                              {1.0}};  ///< drawn evenly, at most mostReadoutShare of a frame
    double mostReadoutShare{0.9};
    /// Velocity upwards in the middle of the flight over that across.
    Interval<double> climb{-0.06, 0.22};
    double figureShare{0.2};  ///< of shots with a person in the picture
    double shakeShare{0.15};  ///< of shots from a hand-held camera
    /// Way of the ball while the shutter is open, over its diameter.
    Interval<double> smear{0.0, std::numeric_limits<double>::infinity()};
    double mostExposureTurnDeg{std::numeric_limits<double>::infinity()};
    Interval<double> fullWellElectrons{800.0, 10000.0};  ///< of white: fewer are more noise
    Interval<double> brightness{1.0, 1.0};               ///< Sensor::brightness
    bool isGlossy{false};  ///< a varnished ball outdoors: small bright highlight, mirrored sky
    /// The ball bounces off level ground so long after it has come into view, and goes on in view.
    std::optional<Interval<Seconds>> bounceAfter;
    bool isFed{false};  ///< another ball like it crosses the picture first, to be struck
    std::vector<Marking> markings{Marking::ThreeQuartersDark, Marking::HalfDark,
                                  Marking::BandWithDot, Marking::SeamWithBlob,
                                  Marking::SeamWithPrint};
};

/// What makes a shot easy or hard, for tables by condition.
struct ShotConditions {
    Marking marking{Marking::ThreeQuartersDark};
    BackgroundKind background{BackgroundKind::PlainWall};
    double captureFps{};
    double ballDiameterPx{};  ///< of the median frame
    std::size_t framesFullyInside{};
    double framesPerTurn{};
    double exposureTurnDeg{};  ///< turn of the ball while the shutter is open
    double blurPx{};           ///< of the median frame
    double axisToCameraDeg{};  ///< 0: along the line of sight, 90: across it
    double readoutS{};
    int constantQuality{};
    bool hasFigure{};
    bool isHandHeld{};
};

struct RandomShot {
    Scene scene;
    FilmEncoding encoding;
    ShotConditions conditions;
    ShotTruth truth;
};

/// Draws a clip with one flight: axis in any direction, 120 or 240 frames per second, background,
/// light, colours, noise, field of view and path at random, gravity tilted as by a camera that is
/// not quite level. The same seed and ranges give the same shot. Of a shot that bounces conditions
/// and frames are those before the bounce.
///
/// A drawn ball is turned again where a tester would turn it: when the mark is never seen (its
/// largest share of the outline is under 4 %) or, for a half dark ball, when the spin axis lies
/// within 25 degrees of the axis about which the ball looks the same.
///
/// Errors: InvalidInput when the ranges are empty or no shot of them can be found.
Result<RandomShot> randomShot(std::uint64_t seed, const ShotRanges& ranges = {});

}  // namespace core::synthesis
