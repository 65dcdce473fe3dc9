#include "tests/ui/reading/reading_project.h"

#include <QImage>
#include <QPainter>
#include <map>
#include <tuple>

#include "core/intake/add_clip.h"
#include "core/intake/assign_shots.h"
#include "core/intake/clip_shots.h"
#include "core/intake/day_setup.h"
#include "core/media/film/film_writer.h"
#include "tests/support/must.h"

namespace tests {
namespace {

constexpr int kWidth = 240;
constexpr int kHeight = 160;
constexpr double kRadius = 22.0;
constexpr double kFirstDegrees = 90.0;

QImage drawn(int worldFrame, double framesPerTurn, int shade) {
    QImage image{kWidth, kHeight, QImage::Format_RGB888};
    image.fill(QColor{120, 140, 120 + shade});
    QPainter painter{&image};
    painter.setRenderHint(QPainter::Antialiasing);
    painter.setPen(Qt::NoPen);
    const auto ball = ballOf(worldFrame, worldFrame);
    const QRectF disc{ball.xPx - kRadius, ball.yPx - kRadius, 2.0 * kRadius, 2.0 * kRadius};
    painter.setBrush(QColor{225, 225, 90});
    painter.drawEllipse(disc);
    painter.setBrush(QColor{30, 30, 30});
    const double middle = kFirstDegrees + 360.0 * worldFrame / framesPerTurn;
    painter.drawPie(disc, static_cast<int>((middle - 40.0) * 16.0), 80 * 16);
    return image;
}

/// The shade of the ground tells films apart that show the same: a project takes no clip twice.
void writeFilm(const std::filesystem::path& file, const BallFilm& film, int shade) {
    core::media::FilmWriter::Options options;
    options.width = kWidth;
    options.height = kHeight;
    options.timeBase = core::timebase::Rational{1, film.framesPerSecond};
    options.constantQuality = 8;
    auto writer = must(core::media::FilmWriter::create(file, options));
    for (int k = 0; k < film.frames; ++k) {
        if (k == film.dropped) {
            continue;
        }
        const QImage image = drawn(k, film.framesPerTurn, shade);
        const core::PixelView view{image.constBits(), image.width(), image.height(),
                                   image.bytesPerLine(), core::PixelFormat::Rgb8};
        must(writer->add(view, k, k + 1 == film.dropped ? 2 : 1));
    }
    must(writer->finish());
}

/// The film, made once in a process.
const std::filesystem::path& filmOf(const BallFilm& film, int shade) {
    static const QTemporaryDir folder;
    static std::map<std::tuple<int, double, int, int, int>, std::filesystem::path> films;
    auto& file =
        films[{film.frames, film.framesPerTurn, film.framesPerSecond, film.dropped, shade}];
    if (file.empty()) {
        file = folder.filePath(QStringLiteral("%1.mp4").arg(films.size())).toStdString();
        writeFilm(file, film, shade);
    }
    return file;
}

}  // namespace

core::project::BallClick ballOf(int worldFrame, int fileFrame) {
    return {{fileFrame}, 40.0 + 6.0 * worldFrame, 60.0 + 2.0 * worldFrame, kRadius};
}

ReadingProject::ReadingProject(const std::vector<BallFilm>& films) {
    const std::filesystem::path folder = m_folder.path().toStdString();
    const auto project = folder / "readings.turnmark";
    m_store = must(core::project::Store::create(project));
    core::project::Session session;
    session.name = "Test day";
    const auto sessionId = must(m_store->addSession(session));
    auto setUp = must(core::intake::setUpOf(*m_store->snapshot(), sessionId));
    setUp.isDiameterNotKnown = true;  // the ball of these films knows no gravity
    must(core::intake::setUpDay(*m_store, setUp));
    for (std::size_t k = 0; k < films.size(); ++k) {
        const auto file = folder / ("ball_" + std::to_string(k) + ".mp4");
        std::filesystem::copy_file(filmOf(films[k], 8 * static_cast<int>(k)), file);
        const auto prepared = must(core::intake::prepareClip(file, project));
        const auto clip = must(core::intake::addPreparedClip(*m_store, sessionId, prepared));
        m_shots.push_back(must(core::intake::addWholeClipShot(*m_store, clip)));
    }
    must(core::intake::assignShots(*m_store, m_shots, {"String set 1", "A"}));
    startPicturesAnew();
}

void ReadingProject::startPicturesAnew() {
    m_requester.reset();
    m_service = core::media::FrameService::create({});
    m_requester = std::make_unique<ui::bridge::FrameRequester>(*m_service);
}

std::filesystem::path ReadingProject::film(std::size_t film) const {
    return m_store->file().parent_path() / ("ball_" + std::to_string(film) + ".mp4");
}

const core::project::Shot& ReadingProject::shotNow(std::size_t film) {
    m_snapshot = m_store->snapshot();
    return *m_snapshot->shots.find(shot(film));
}

void ReadingProject::clickBall(std::size_t film, int frames) {
    must(m_store->setClicks(shot(film), {ballOf(0, 0), ballOf(frames - 1, frames - 1)}));
}

}  // namespace tests
