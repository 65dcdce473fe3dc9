#include "tests/core/intake/card_films.h"

#include <opencv2/imgproc.hpp>

#include "core/base/units.h"
#include "core/media/film/film_writer.h"
#include "core/plan/qr_code.h"
#include "tests/core/intake/clip_project.h"

namespace tests::intake {
namespace {

constexpr int kModulePx = 16;
constexpr double kDistance = 3.0;  // of the camera, in sides of the card

/// The code on its white card.
cv::Mat drawn(const core::plan::SlateCard& card) {
    const auto code = must(core::plan::qrCodeOf(core::plan::slateText(card)));
    constexpr int kQuiet = core::plan::QrCode::kQuietModules;
    const int side = (code.size + 2 * kQuiet) * kModulePx;
    cv::Mat picture(side, side, CV_8UC3, cv::Scalar{235, 235, 235});
    for (int row = 0; row < code.size; ++row) {
        for (int column = 0; column < code.size; ++column) {
            if (code.isDark(row, column)) {
                cv::rectangle(picture,
                              {(column + kQuiet) * kModulePx, (row + kQuiet) * kModulePx, kModulePx,
                               kModulePx},
                              cv::Scalar{30, 30, 30}, cv::FILLED);
            }
        }
    }
    return picture;
}

/// Where a corner of the tilted card (unit square about 0) is seen, in sides of the code.
cv::Point2d seen(cv::Point2d corner, const CardPose& pose) {
    const double roll = core::fromDegrees(pose.rollDeg).radians;
    const double yaw = core::fromDegrees(pose.yawDeg).radians;
    const double pitch = core::fromDegrees(pose.pitchDeg).radians;
    const double x = corner.x * std::cos(roll) - corner.y * std::sin(roll);
    const double y = corner.x * std::sin(roll) + corner.y * std::cos(roll);
    const double x2 = x * std::cos(yaw);
    const double z2 = x * std::sin(yaw);
    const double y3 = y * std::cos(pitch) - z2 * std::sin(pitch);
    const double z3 = y * std::sin(pitch) + z2 * std::cos(pitch);
    return {x2 * kDistance / (kDistance + z3), y3 * kDistance / (kDistance + z3)};
}

}  // namespace

cv::Mat emptyScene(int width, int height, unsigned seed) {
    cv::Mat scene(height, width, CV_8UC3);
    cv::RNG random{seed};
    for (int y = 0; y < height; ++y) {
        scene.row(y).setTo(cv::Scalar::all(90.0 + 60.0 * y / height));
    }
    cv::Mat noise(height, width, CV_8UC3);
    random.fill(noise, cv::RNG::NORMAL, 20, 6);
    scene += noise;
    return scene;
}

void hold(cv::Mat& scene, const core::plan::SlateCard& card, const CardPose& pose) {
    const cv::Mat picture = drawn(card);
    const auto side = static_cast<float>(picture.cols);
    const double sides =
        static_cast<double>(picture.cols) / kModulePx /
        (static_cast<double>(picture.cols) / kModulePx - 2.0 * core::plan::QrCode::kQuietModules);
    const cv::Point2f from[] = {{0, 0}, {side, 0}, {side, side}, {0, side}};
    const cv::Point2d corners[] = {{-0.5, -0.5}, {0.5, -0.5}, {0.5, 0.5}, {-0.5, 0.5}};
    cv::Point2f to[4];
    for (int i = 0; i < 4; ++i) {
        const cv::Point2d at = seen(corners[i], pose) * sides * pose.sidePx;
        to[i] = {static_cast<float>(at.x + pose.centreX), static_cast<float>(at.y + pose.centreY)};
    }
    const cv::Mat view = cv::getPerspectiveTransform(from, to);
    cv::Mat placed;
    cv::Mat mask;
    cv::warpPerspective(picture, placed, view, scene.size(), cv::INTER_AREA);
    cv::warpPerspective(cv::Mat(picture.size(), CV_8UC1, cv::Scalar{255}), mask, view, scene.size(),
                        cv::INTER_AREA);
    cv::Mat sharp = scene.clone();
    placed.copyTo(sharp, mask);
    // The lens spreads a point over about a pixel; the hand moves while the shutter is open.
    cv::GaussianBlur(sharp, sharp, {0, 0}, 0.7);
    cv::blur(sharp, scene, {pose.smearPx, 1});
}

void writeFilm(const std::string& file, const std::vector<cv::Mat>& frames, int keyFrameInterval) {
    core::media::FilmWriter::Options options;
    options.width = frames.front().cols;
    options.height = frames.front().rows;
    options.timeBase = {1, 30};
    options.constantQuality = 30;
    options.encoderOptions = {{"preset", "veryfast"}, {"sc_threshold", "0"}};
    options.keyFrameInterval = keyFrameInterval;
    options.threads = 2;
    auto writer = must(core::media::FilmWriter::create(file, options));
    for (std::size_t i = 0; i < frames.size(); ++i) {
        const cv::Mat& frame = frames[i];
        const core::PixelView view{frame.data, frame.cols, frame.rows,
                                   static_cast<std::ptrdiff_t>(frame.step),
                                   core::PixelFormat::Rgb8};
        if (!writer->add(view, static_cast<std::int64_t>(i), 1)) {
            throw std::runtime_error("a picture was refused");
        }
    }
    if (!writer->finish()) {
        throw std::runtime_error("the film was refused");
    }
}

}  // namespace tests::intake
