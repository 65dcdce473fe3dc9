#include "app/cli/film_options.h"

#include <map>

namespace cli {

void addFilmOptions(CLI::App& command, FilmOptions& options) {
    command.add_option("clips", options.clips, "video files")->required();
    auto* rate = command.add_option("--capture-rate", options.rate.framesPerSecond,
                                    "frames per second that the camera took");
    command
        .add_option("--stretch", options.rate.stretch,
                    "how many times slower the file plays than it was captured")
        ->check(CLI::PositiveNumber)
        ->excludes(rate);
    command
        .add_option("--ball-diameter-mm", options.session.ballDiameterMm,
                    "gives speed and a check of the clock by gravity")
        ->check(CLI::Range(5.0, 1000.0));
    command
        .add_option("--field-of-view-deg", options.session.fieldOfViewDeg,
                    "across the width of the picture as shown; else estimated")
        ->check(CLI::Range(5.0, 150.0));
    constexpr double kSecondsPerMs = 1e-3;
    command
        .add_option_function<double>(
            "--readout-ms",
            [&options](double ms) { options.session.readoutSeconds = kSecondsPerMs * ms; },
            "rolling shutter, first row to last; else estimated from the ball's outline")
        ->check(CLI::Range(0.0, 100.0));
    using core::project::BallMarking;
    const std::map<std::string, BallMarking> markings{
        {"three-quarter", BallMarking::ThreeQuarterDark},
        {"half", BallMarking::HalfDark},
        {"band", BallMarking::Band},
        {"band-dot", BallMarking::BandWithDot},
        {"other", BallMarking::Other}};
    command.add_option("--marking", options.session.marking, "what is drawn on the ball")
        ->transform(CLI::CheckedTransformer(markings));
    using core::project::Stroke;
    const std::map<std::string, Stroke> strokes{
        {"top", Stroke::Topspin}, {"back", Stroke::Backspin}, {"unknown", Stroke::NotKnown}};
    command
        .add_option("--stroke", options.session.stroke,
                    "topspin or backspin: decides where the pictures leave two senses of turning")
        ->transform(CLI::CheckedTransformer(strokes));
}

}  // namespace cli
