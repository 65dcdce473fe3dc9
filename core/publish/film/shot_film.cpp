#include "core/publish/film/shot_film.h"

#include <algorithm>
#include <cmath>
#include <optional>

#include "core/base/words.h"
#include "core/media/film/film_writer.h"
#include "core/project/clip_clock.h"
#include "core/publish/drawing/painter.h"
#include "core/publish/film/shot_turns.h"
#include "core/report/number_format.h"

namespace core::publish {
namespace {

constexpr int kFilmWidthPx = 960;  ///< larger pictures are scaled down to it
constexpr int kFilmFootPx = 84;
constexpr std::int64_t kFilmTicks = 90'000;
constexpr double kInsetShare = 0.34;  ///< of the picture's height
constexpr double kInsetRoom = 1.5;    ///< of the ball's radius

struct FilmPlan {
    int width{};
    int pictureHeight{};
    double scale{1.0};
    FilmWords words;
    const reading::BallPlaces& places;
    const ShotTurns& turns;

    [[nodiscard]] int height() const { return pictureHeight + kFilmFootPx; }
};

/// Even numbers, as H.264 with 4:2:0 needs.
int evenNumber(double value) {
    return std::max(2, 2 * static_cast<int>(std::lround(value / 2.0)));
}

void drawInset(PicturePainter& painter, const FilmPlan& plan, const media::Frame& frame,
               const reading::BallPlace& place) {
    const int side = evenNumber(kInsetShare * plan.pictureHeight);
    const PixelBuffer ball = cutAround(frame, place, kInsetRoom * place.radiusPx, side);
    // In the upper corner that is farther from the ball.
    const bool isLeft = place.xPx * plan.scale > plan.width / 2.0;
    const double x = isLeft ? 8.0 : plan.width - side - 8.0;
    painter.draw({Rectangle{{x - 2.0, 6.0}, side + 4.0, side + 4.0, Ink::Soft}});
    painter.picture(ball.view(), {x, 8.0}, side, side);
}

PixelBuffer filmPicture(const FilmPlan& plan, const media::Frame& frame) {
    PicturePainter painter{plan.width, plan.height()};
    painter.draw({Rectangle{{0.0, 0.0},
                            static_cast<double>(plan.width),
                            static_cast<double>(plan.height()),
                            Ink::Paper}});
    const PixelBuffer whole = frame.rgbScaledToFit(plan.width, plan.pictureHeight);
    painter.picture(whole.view(), {0.0, 0.0}, plan.width, plan.pictureHeight);
    const std::int64_t index = frame.index().value;
    if (plan.places.covers(frame.index())) {
        drawInset(painter, plan, frame, *plan.places.at(frame.index()));
    }
    const double turns = plan.turns.turnsAt(index);
    const std::string turned =
        turns < 0.0 ? said("before the start") : report::fixed(turns, 2) + " " + said("turns");
    const double top = plan.pictureHeight;
    const double right = plan.width - 12.0;
    const double room = plan.width - 260.0;
    painter.draw(
        {Text{{12.0, top + 26.0}, cutToWidth(plan.words.title, room, 16.0), Anchor::Start, 16.0},
         Text{{12.0, top + 50.0},
              cutToWidth(plan.words.result, room, 14.0),
              Anchor::Start,
              14.0,
              Ink::Soft},
         Text{{12.0, top + 72.0},
              cutToWidth(plan.words.origin, plan.width - 24.0, 10.0),
              Anchor::Start,
              10.0,
              Ink::Soft},
         Text{{right, top + 30.0}, turned, Anchor::End, 24.0, Ink::Text, true},
         Text{{right, top + 54.0},
              said("frame {}, {} ms", index, report::fixed(plan.turns.millisecondsAt(index), 1)),
              Anchor::End,
              12.0,
              Ink::Soft}});
    return painter.rgb();
}

Result<void> addPictures(media::FilmWriter& film, const FilmPlan& plan,
                         media::FrameDecoder& decoder, const project::Shot& shot,
                         const std::stop_token& stop) {
    constexpr std::int64_t kTicksAPicture = kFilmTicks / kFilmFramesPerSecond;
    std::int64_t ticks = 0;
    Result<void> state = ok();
    const auto sink = [&](timebase::FrameIndex, const Result<media::FramePtr>& frame) {
        if (frame) {  // a frame that cannot be decoded leaves the one before on the screen
            state = film.add(filmPicture(plan, *frame.value()).view(), ticks, kTicksAPicture);
        }
        ticks += kTicksAPicture;
        return state.has_value();
    };
    BOOST_OUTCOME_TRY(decoder.decodeRange(shot.firstFrame, shot.lastFrame, sink, stop));
    return state;
}

}  // namespace

Result<void> writeShotFilm(const std::filesystem::path& file, const Material& material,
                           const project::Shot& shot, const FilmWords& words, ClipFootage& footage,
                           const std::stop_token& stop) {
    const auto& snapshot = *material.snapshot;
    const auto* clip = snapshot.clips.find(shot.clip);
    const auto* reading = shot.counting ? snapshot.readings.find(*shot.counting) : nullptr;
    const auto stamps = material.frames.find(shot.clip);
    if (clip == nullptr || reading == nullptr || stamps == material.frames.end() || !clip->clock) {
        return fail(ErrorCode::NotFound, said("There is no reading on a settled clock to show."));
    }
    BOOST_OUTCOME_TRY(clock, project::clipClock(*clip->clock, *stamps->second));
    BOOST_OUTCOME_TRY(decoder, footage.open(*clip));
    const auto& facts = decoder->index().facts;
    const auto places = reading::ballPlacesOf(*clip, shot, reading, clock);
    const ShotTurns turns{clock, shot, *reading};
    const double scale = std::min(1.0, static_cast<double>(kFilmWidthPx) / facts.width);
    const FilmPlan plan{evenNumber(facts.width * scale),
                        evenNumber(facts.height * scale),
                        scale,
                        words,
                        places,
                        turns};
    media::FilmWriter::Options options;
    options.width = plan.width;
    options.height = plan.height();
    options.timeBase = timebase::Rational{1, kFilmTicks};
    options.constantQuality = 22;
    options.tags = {{"title", words.title}, {"comment", words.origin}};
    options.threads = 1;
    BOOST_OUTCOME_TRY(film, media::FilmWriter::create(file, options));
    BOOST_OUTCOME_TRY(addPictures(*film, plan, *decoder, shot, stop));
    return film->finish();
}

}  // namespace core::publish
