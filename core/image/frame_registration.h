#pragma once

#include <opencv2/core.hpp>
#include <vector>

#include "core/image/ball_track.h"

namespace core::image {

/// Finds by how much the camera moved between a reference frame and others: turn, zoom and shift of
/// the whole picture, by Gauss-Newton on the brightness of well-textured pixels (inverse
/// compositional alignment, Baker & Matthews 2004, IJCV 56:221) with robust weights, so that what
/// moves in front of the camera is left out. Good for shakes of a few per cent of the picture from
/// the guess. Internal to core/image. Confined.
class FrameRegistration {
public:
    /// reference: 8 bits, one or three channels.
    explicit FrameRegistration(const cv::Mat& reference);

    /// Motion from the reference to the picture of the same size, in pixels of that size.
    struct Alignment {
        FrameMotion motion;
        double sigmaPx{};  ///< standard uncertainty of the shift of a picture corner
    };
    [[nodiscard]] Alignment align(const cv::Mat& picture, const FrameMotion& guess) const;
    /// Share of the picture, 0 to 1, that has texture to align by. What passes in front of a plain
    /// wall has some too, but covers little.
    [[nodiscard]] double texturedShare() const;

private:
    struct Sample {
        float x{};
        float y{};
        float value{};
        cv::Vec4f descent;  ///< derivatives of the brightness by (a, b, shift.x, shift.y)
    };
    static cv::Mat prepare(const cv::Mat& picture);
    struct Step {
        double movedPx{};  ///< largest shift of a picture corner by it, working size
        double sigmaPx{};
    };
    [[nodiscard]] Step step(const cv::Mat& smooth, bool isNear, FrameMotion& motion) const;

    double m_scale{1.0};  ///< given size / working size
    cv::Size m_size;
    cv::Point2d m_centre;
    std::vector<Sample> m_samples;
};

}  // namespace core::image
