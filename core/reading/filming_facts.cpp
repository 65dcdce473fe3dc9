#include "core/reading/filming_facts.h"

#include <algorithm>
#include <cmath>

#include "core/media/file/lens.h"

namespace core::reading {
namespace {

constexpr double kDiameterRelativeSigma = 0.01;
constexpr double kStatedViewSigmaDeg = 1.0;
constexpr double kStatedViewRelativeSigma = 0.02;

/// From the angle across the width of the picture to that across its longer side.
Measured<Radians> statedFieldOfView(double horizontalDeg, int widthPx, int heightPx) {
    const double stated = fromDegrees(horizontalDeg).radians;
    const double sigma =
        std::max(fromDegrees(kStatedViewSigmaDeg).radians, kStatedViewRelativeSigma * stated);
    const double scale = static_cast<double>(std::max(widthPx, heightPx)) / widthPx;
    const double angle = 2.0 * std::atan(scale * std::tan(0.5 * stated));
    // Of tan(angle/2) = scale tan(stated/2) the derivative is sin(angle) / sin(stated).
    return {{angle}, {sigma * std::sin(angle) / std::sin(stated)}};
}

std::optional<Measured<Radians>> fieldOfViewOf(const project::Session& session,
                                               const project::Clip& clip) {
    if (session.fieldOfViewDeg && clip.width > 0) {
        return statedFieldOfView(*session.fieldOfViewDeg, clip.width, clip.height);
    }
    if (clip.lensFocalLengthMm) {
        return media::fieldOfViewAcrossLongerSide(*clip.lensFocalLengthMm, clip.width, clip.height);
    }
    return std::nullopt;
}

}  // namespace

FilmingFacts factsOf(const project::Session& session, const project::Clip& clip) {
    FilmingFacts facts;
    facts.fieldOfView = fieldOfViewOf(session, clip);
    if (session.readoutSeconds) {
        facts.readout = Seconds{*session.readoutSeconds};
    }
    if (session.exposureSeconds) {
        facts.exposure = Seconds{*session.exposureSeconds};
    }
    if (session.ballDiameterMm) {
        const double metres = *session.ballDiameterMm / 1000.0;
        facts.ballDiameter = Measured<image::Metres>{{metres}, {metres * kDiameterRelativeSigma}};
    }
    facts.rowOrder = image::rowOrderOf(clip.rotationDegrees);
    facts.markingSymmetry = project::symmetryOrder(session.marking);
    return facts;
}

std::optional<double> focalLengthPx(const FilmingFacts& facts, int widthPx, int heightPx) {
    if (!facts.fieldOfView) {
        return std::nullopt;
    }
    const double longer = std::max(widthPx, heightPx);
    return 0.5 * longer / std::tan(0.5 * facts.fieldOfView->value.radians);
}

image::TrackOptions trackOptions(const FilmingFacts& facts, int widthPx, int heightPx) {
    image::TrackOptions options;
    options.readout = facts.readout;
    options.rowOrder = facts.rowOrder;
    options.focalPx = focalLengthPx(facts, widthPx, heightPx);
    return options;
}

}  // namespace core::reading
