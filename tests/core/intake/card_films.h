#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "core/plan/slate.h"

/// Films of slate cards as a camera on a tripod sees them.
namespace tests::intake {

/// How a card is held. Angles in degrees.
struct CardPose {
    double sidePx{162.0};  ///< of the code without its quiet zone, before tilting
    double centreX{900.0};
    double centreY{500.0};
    double rollDeg{0.0};   ///< in the picture plane
    double yawDeg{0.0};    ///< about the upright axis
    double pitchDeg{0.0};  ///< about the level axis
    int smearPx{1};        ///< length of the motion blur along the rows
};

/// An empty scene: a shaded wall with noise (seeded).
cv::Mat emptyScene(int width, int height, unsigned seed);
/// Puts a card into the scene.
void hold(cv::Mat& scene, const core::plan::SlateCard& card, const CardPose& pose);

/// A film at 30 frames per second in H.264, as strongly compressed as phones do in poor light.
void writeFilm(const std::string& file, const std::vector<cv::Mat>& frames,
               int keyFrameInterval = 250);

}  // namespace tests::intake
