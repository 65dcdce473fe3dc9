#pragma once

#include <cstdint>
#include <optional>
#include <vector>

#include "core/base/result.h"
#include "core/base/units.h"
#include "core/synthesis/bounce.h"
#include "core/synthesis/geometry.h"
#include "core/timebase/rational.h"

namespace core::synthesis {

/// What is drawn on the ball. In the ball's own frame (unit vector p of its surface):
enum class Marking {
    ThreeQuartersDark,  ///< the quarter p.x > 0, p.y > 0 is left bare
    HalfDark,           ///< p.x < 0 is dark
    Band,               ///< |p.x| small: looks the same after half a turn about y or z
    BandWithDot,        ///< the band and one dot beside it, which breaks the half-turn likeness
    SeamWithBlob,       ///< the line p.z = 2 p.x p.y, as of two lobes sewn together, and a blob
    SeamWithPrint,      ///< the same line and a small row of printed letters
    Plain,              ///< nothing: spin cannot be seen
    Hidden,             ///< a dot on the spin axis, on the side away from the camera
};

/// Colour as a file stores it: display (gamma) encoded, each part in [0, 1].
struct Colour {
    float red{};
    float green{};
    float blue{};
};

struct BallLook {
    double diameterM{0.067};
    double massKg{0.058};
    Marking marking{Marking::ThreeQuartersDark};
    Colour base{0.10F, 0.12F, 0.25F};  ///< the larger part of a two-tone ball
    Colour mark{0.92F, 0.90F, 0.75F};
    float grain{0.05F};              ///< relative mottling of the surface, turns with the ball
    float highlight{0.08F};          ///< strength of the highlight, which stays with the light
    float highlightExponent{24.0F};  ///< of Blinn's law; the larger, the smaller and sharper, >= 24
    /// Share of the surroundings' mirror image that a coat of varnish shows: 4 % seen head-on, more
    /// towards the rim (Schlick, Computer Graphics Forum 13 (1994) 233); 0 for a matt ball.
    float varnish{0.0F};
};

/// One strike and the flight after it. The ball is not there before the strike.
struct Flight {
    Seconds strike;       ///< in capture time
    Vector3 positionM{};  ///< of the ball's centre at the strike
    Vector3 velocityMPerS{};
    Vector3 spinRadPerS{};  ///< angular velocity in camera coordinates, constant
    Quaternion attitude;    ///< at the strike
    Seconds lifetime{1.0};
    std::optional<Bounce> bounce;  ///< the spin is another after it: the shot ends there
    BallLook ball;
    bool isDecoy{false};  ///< a second ball: seen, and no shot in the truth
};

/// Forces on the ball. Acceleration: gravity
///   - 1/2 rho A Cd |v| v / m          drag
///   + 1/2 rho A Cl |v|^2 (w^ x v^) / m   lift across the spin axis (Magnus)
struct Air {
    Vector3 gravityMPerS2{0.0, 9.80665, 0.0};  ///< standard gravity, CGPM 1901
    double densityKgPerM3{1.2};
    double dragCoefficient{0.0};
    double liftCoefficient{0.0};
};

/// When pictures are taken and how they are stamped. Nominal instant i is i / captureRate (plus
/// jitter); the file plays stretch times slower.
struct CaptureTiming {
    timebase::Rational captureRate{240};
    timebase::Rational stretch{1};
    std::int64_t instants{60};
    std::vector<std::int64_t> dropped;  ///< instants that were never written; stamps stay right
    std::vector<std::int64_t> frozen;   ///< instants that show the picture before again
    double jitter{0.0};  ///< standard deviation of the instant, in frame intervals; at most 0.2
};

/// The picture at row y of H is exposed during exposure seconds around t + (y/H) readout.
struct Shutter {
    Seconds exposure{0.0005};
    Seconds readout{0.0};
};

struct Light {
    Vector3 towardsLight{-0.4, -0.8, -0.6};
    double direct{0.75};
    double ambientAbove{0.45};  ///< on surfaces that face up
    double ambientBelow{0.20};  ///< on surfaces that face down: light thrown back by the ground
};

struct Sensor {
    double fullWellElectrons{6000.0};  ///< white; fewer electrons, more photon noise
    double readNoiseElectrons{8.0};
    double lensBlurPx{0.45};  ///< standard deviation of the lens's point image
    double brightness{1.0};   ///< of the picture: below 1 it is underexposed
};

enum class BackgroundKind { Brick, Fence, Foliage, PlainWall, Gradient };

/// A person in plain shapes who walks through the picture behind the ball and swings at each
/// strike. Lengths as shares of the picture's height.
struct MovingFigure {
    double height{0.9};
    double feetAboveBottom{-0.05};
    double startX{0.1};          ///< share of the picture's width
    double walkPerSecond{0.05};  ///< shares of the width
    Colour shirt{0.35F, 0.33F, 0.60F};
};

enum class SoundKind { Strike, DoorSlam, Bounce };

struct SoundDecoy {
    Seconds time;
    SoundKind kind{SoundKind::DoorSlam};
};

/// One channel of sound. Strikes are heard when their sound has come from the ball's place.
struct SoundTrack {
    int samplesPerSecond{48000};
    double noiseLevel{0.004};
    std::vector<SoundDecoy> decoys;
};

/// Everything a film is made from. The same scene gives the same film.
struct Scene {
    PinholeCamera camera;
    CaptureTiming timing;
    Shutter shutter;
    Light light;
    Sensor sensor;
    Air air;
    BackgroundKind background{BackgroundKind::PlainWall};
    std::uint64_t backgroundSeed{1};  ///< the same place looks the same from film to film
    std::vector<Flight> flights;
    std::optional<MovingFigure> figure;
    std::optional<SoundTrack> sound;
    double shakePx{0.0};      ///< standard deviation of a hand-held camera's slow sway
    int samplesPerPixel{24};  ///< instants of the exposure, each with its own place in the pixel
    std::uint64_t seed{1};
};

/// Sound is taken to travel at 343 m/s (dry air of 20 degrees Celsius).
inline constexpr double kSoundMPerS = 343.0;

/// Errors: OutOfRange, NotFinite or InvalidInput, naming the part of the scene at fault.
Result<void> checkScene(const Scene& scene);

}  // namespace core::synthesis
