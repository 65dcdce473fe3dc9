#include "tests/core/spin_fit/filmed_shot.h"

#include <cmath>
#include <fstream>
#include <nlohmann/json.hpp>
#include <random>
#include <stdexcept>

#include "core/media/frames/frame_decoder.h"

namespace tests {

namespace {

using nlohmann::json;

json readTruth(const std::filesystem::path& file) {
    std::ifstream stream{file};
    if (!stream) {
        throw std::runtime_error{"Cannot read " + file.string()};
    }
    return json::parse(stream);
}

std::vector<SeenBall> wholeBalls(const json& shot) {
    std::vector<SeenBall> balls;
    for (const json& frame : shot.at("frames")) {
        if (frame.at("fully_inside").get<bool>()) {
            balls.push_back(
                {frame.at("frame").get<std::int64_t>(), frame.at("t_mid_s").get<double>(),
                 frame.at("centre_px").at(0).get<double>(),
                 frame.at("centre_px").at(1).get<double>(), frame.at("radius_px").get<double>()});
        }
    }
    return balls;
}

/// Displacement during the exposure, from the neighbours' places.
core::spin::fit::PicturePoint smearOf(const std::vector<SeenBall>& balls, std::size_t i,
                                      double exposureS) {
    const SeenBall& before = balls[i == 0 ? 0 : i - 1];
    const SeenBall& after = balls[std::min(balls.size() - 1, i + 1)];
    const double share = exposureS / (after.time - before.time);
    return {share * (after.xPx - before.xPx), share * (after.yPx - before.yPx)};
}

std::unique_ptr<core::media::FrameDecoder> openClip(const std::filesystem::path& file) {
    auto index = core::media::readClipIndex(file);
    if (!index) {
        throw std::runtime_error{index.error().message};
    }
    auto decoder = core::media::FrameDecoder::open(file, std::move(index.value()), 1);
    if (!decoder) {
        throw std::runtime_error{decoder.error().message};
    }
    return std::move(decoder.value());
}

}  // namespace

FilmedShot::FilmedShot(const std::filesystem::path& truthFile, const TrackErrors& errors,
                       std::size_t shot) {
    const json truth = readTruth(truthFile);
    const json& shotTruth = truth.at("shots").at(shot);
    const json& omega = shotTruth.at("omega_rad_s");
    angularVelocity = {omega.at(0).get<double>(), omega.at(1).get<double>(),
                       omega.at(2).get<double>()};
    rpm = shotTruth.at("spin_rpm").get<double>();
    fieldOfViewDegrees = truth.at("hfov_deg").get<double>();
    exposureS = truth.at("exposure_s").get<double>();
    captureFps = truth.at("capture_fps").get<double>();
    marking = truth.at("mark").get<std::string>();
    input.camera.widthPx = truth.at("resolution").at(0).get<int>();
    input.camera.heightPx = truth.at("resolution").at(1).get<int>();
    input.camera.exposure = core::Seconds{exposureS};
    input.options.markingSymmetry = truth.at("half_turn_symmetric").get<bool>() ? 2 : 1;

    const auto balls = wholeBalls(shotTruth);
    for (const SeenBall& ball : balls) {
        meanRadiusPx += ball.radiusPx / static_cast<double>(balls.size());
    }
    addFrames(balls, errors, truthFile.parent_path() / truth.at("file").get<std::string>());
}

void FilmedShot::addFrames(const std::vector<SeenBall>& balls, const TrackErrors& errors,
                           const std::filesystem::path& film) {
    std::mt19937_64 generator{errors.seed};
    std::normal_distribution<double> normal;
    const double radiusFactor = 1.0 + errors.radiusShare * normal(generator);
    const double radiusAddedPx = errors.radiusPx * normal(generator);
    const auto decoder = openClip(film);
    for (std::size_t i = 0; i < balls.size(); ++i) {
        const SeenBall& ball = balls[i];
        auto picture = decoder->decode({ball.frame});
        if (!picture) {
            throw std::runtime_error{picture.error().message};
        }
        core::spin::fit::BallFrame frame;
        frame.smear = smearOf(balls, i, exposureS);
        const int reach = static_cast<int>(
            std::ceil(1.5 * ball.radiusPx + std::hypot(frame.smear.xPx, frame.smear.yPx)));
        frame.leftPx = static_cast<int>(ball.xPx) - reach;
        frame.topPx = static_cast<int>(ball.yPx) - reach;
        m_pictures.push_back(
            picture.value()->rgbRegion(frame.leftPx, frame.topPx, 2 * reach, 2 * reach));
        frame.picture = m_pictures.back().view();
        frame.captureTime = {ball.time};
        frame.centre = {ball.xPx + errors.centrePx * normal(generator),
                        ball.yPx + errors.centrePx * normal(generator)};
        frame.radiusPx = ball.radiusPx * radiusFactor + radiusAddedPx;
        frame.centreSigmaPx = errors.centrePx;
        frame.radiusSigmaPx = std::hypot(errors.radiusShare * ball.radiusPx, errors.radiusPx);
        input.frames.push_back(frame);
    }
}

}  // namespace tests
