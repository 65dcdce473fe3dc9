#include "core/accuracy/situation.h"

#include "core/base/words.h"
#include "core/reading/target_conditions.h"

namespace core::accuracy {
namespace {

/// Beyond it the product warns; balls that move by their own width turn more than usual ones.
constexpr double kMostTurnOfLongExposureDeg = 45.0;

synthesis::ShotRanges likeTheTarget() {
    synthesis::ShotRanges ranges;
    ranges.smallestBallPx = static_cast<int>(reading::kTargetBallPx);
    ranges.mostExposureTurnDeg = reading::kTargetExposureTurnDeg;
    return ranges;
}

synthesis::ShotRanges rollingShutter() {
    synthesis::ShotRanges ranges;
    ranges.rollingShutterShare = 1.0;
    ranges.readout = {{0.003}, {0.010}};
    ranges.mostReadoutShare = 1.0;
    ranges.climb = {-0.45, 0.45};
    return ranges;
}

synthesis::ShotRanges bounce() {
    synthesis::ShotRanges ranges = likeTheTarget();
    ranges.bounceAfter = Interval<Seconds>{{0.05}, {0.12}};
    ranges.climb = {-0.6, -0.1};
    ranges.fewestFrames = 6;  // before the bounce
    ranges.mostFrames = 60;   // of the whole flight, at 240 a second
    return ranges;
}

synthesis::ShotRanges smear() {
    synthesis::ShotRanges ranges;
    ranges.smallestBallPx = static_cast<int>(reading::kTargetBallPx);
    ranges.exposure = {{1.0 / 600.0}, {1.0 / 125.0}};
    ranges.smear = {0.7, 1.2};
    ranges.mostExposureTurnDeg = kMostTurnOfLongExposureDeg;
    return ranges;
}

synthesis::ShotRanges lowLight() {
    synthesis::ShotRanges ranges;
    ranges.smallestBallPx = 26;
    ranges.largestBallPx = 32;
    ranges.exposure = {{1.0 / 300.0}, {1.0 / 240.0}};
    ranges.smear.high = 0.7;
    ranges.mostExposureTurnDeg = kMostTurnOfLongExposureDeg;
    ranges.fullWellElectrons = {150.0, 500.0};
    ranges.brightness = {0.3, 0.7};
    return ranges;
}

}  // namespace

std::string situationName(Situation situation) {
    switch (situation) {
        case Situation::Usual:
            return "usual";
        case Situation::ReadoutNotTold:
            return "readout";
        case Situation::GlobalNotTold:
            return "global";
        case Situation::Bounce:
            return "bounce";
        case Situation::Gloss:
            return "gloss";
        case Situation::Smear:
            return "smear";
        case Situation::LowLight:
            return "low-light";
        case Situation::FedBall:
            return "fed";
    }
    return {};
}

std::string situationTitle(Situation situation) {
    switch (situation) {
        case Situation::Usual:
            return said("usual shots");
        case Situation::ReadoutNotTold:
            return said("readout of 3 to 10 ms not given");
        case Situation::GlobalNotTold:
            return said("global shutter, not given");
        case Situation::Bounce:
            return said("bounce 0.05 to 0.12 s after coming in");
        case Situation::Gloss:
            return said("varnished ball outdoors");
        case Situation::Smear:
            return said("smear of 0.7 to 1.2 widths");
        case Situation::LowLight:
            return said("low light, 1/300 to 1/240 s, 26 to 32 px");
        case Situation::FedBall:
            return said("a fed ball crosses before the strike");
    }
    return {};
}

bool isReadoutTold(Situation situation) noexcept {
    return situation != Situation::ReadoutNotTold && situation != Situation::GlobalNotTold;
}

synthesis::ShotRanges rangesOf(Situation situation) {
    synthesis::ShotRanges ranges;
    switch (situation) {
        case Situation::Usual:
            break;
        case Situation::ReadoutNotTold:
            ranges = rollingShutter();
            break;
        case Situation::GlobalNotTold:
            ranges.rollingShutterShare = 0.0;
            break;
        case Situation::Bounce:
            ranges = bounce();
            break;
        case Situation::Gloss:
            ranges = likeTheTarget();
            ranges.isGlossy = true;
            break;
        case Situation::Smear:
            ranges = smear();
            break;
        case Situation::LowLight:
            ranges = lowLight();
            break;
        case Situation::FedBall:
            ranges = likeTheTarget();
            ranges.isFed = true;
            break;
    }
    return ranges;
}

std::uint64_t seedOffset(Situation situation) noexcept {
    constexpr std::uint64_t kFirst = 500'000;
    constexpr std::uint64_t kApart = 50'000;
    switch (situation) {
        case Situation::Usual:
            return 0;
        case Situation::ReadoutNotTold:
            return kFirst;
        case Situation::GlobalNotTold:
            return kFirst + 2 * kApart;
        case Situation::Bounce:
            return kFirst + 4 * kApart;
        case Situation::Gloss:
            return kFirst + 5 * kApart;
        case Situation::Smear:
            return kFirst + 6 * kApart;
        case Situation::LowLight:
            return kFirst + 7 * kApart;
        case Situation::FedBall:
            return kFirst + 8 * kApart;
    }
    return 0;
}

}  // namespace core::accuracy
