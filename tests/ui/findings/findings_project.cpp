#include "tests/ui/findings/findings_project.h"

#include <stdexcept>

namespace tests {
namespace {

using namespace core::project;

constexpr std::int64_t kFrames = 16'000;

template <class T>
T relyOn(core::Result<T> result) {
    if (!result) {
        throw std::runtime_error(result.error().message);
    }
    return std::move(result).value();
}

Clip invisibleClip(SessionId session) {
    Clip clip;
    clip.session = session;
    clip.path = "bench.mp4";
    clip.sizeBytes = 1;
    clip.fingerprint = std::string(64, 'a');
    clip.frameCount = kFrames;
    clip.width = 640;
    clip.height = 480;
    clip.codec = "h264";
    clip.container = "mp4";
    clip.clock = ClockSetting{.kind = core::timebase::ClockKind::Counted,
                              .stretch = {1},
                              .counted = core::timebase::CaptureRate{{240}},
                              .relativeSigma = 0.0};
    return clip;
}

ClipFrames evenFrames() {
    ClipFrames frames;
    frames.stamps.timeBase = {1, 90000};
    for (std::int64_t i = 0; i < kFrames; ++i) {
        frames.stamps.ticks.push_back(375 * i);
        frames.isKey.push_back(i % 12 == 0);
    }
    return frames;
}

}  // namespace

FindingsProject::FindingsProject(const Names& names)
    : FindingsProject{{{names.implements.at(0), "", 1500.0},
                       {names.implements.at(1), "", 1540.0},
                       {names.implements.at(2), "", 2000.0}},
                      names.hitters} {}

FindingsProject::FindingsProject(const std::vector<Row>& rows,
                                 const std::vector<std::string>& hitterNames) {
    store = relyOn(Store::create(folder.path() / "p.turnmark"));
    Session session;
    session.name = "day";
    session.ballDiameterMm = 67.0;  // else nothing checks the clock, which is a doubt
    m_session = relyOn(store->addSession(session));
    m_clip = relyOn(store->addClip(invisibleClip(m_session), evenFrames()));
    const auto filled = store->together("Filled the project.", [&]() -> core::Result<void> {
        fill(rows, hitterNames);
        return core::ok();
    });
    if (!filled) {
        throw std::runtime_error(filled.error().message);
    }
}

void FindingsProject::fill(const std::vector<Row>& rows,
                           const std::vector<std::string>& hitterNames) {
    for (std::size_t i = 0; i < rows.size(); ++i) {
        Implement implement;
        implement.name = rows[i].name;
        implement.condition = rows[i].condition;
        implement.attributes["thickness"] = std::to_string(110 + 5 * i);
        implements.push_back(relyOn(store->addImplement(implement)));
    }
    for (const auto& name : hitterNames) {
        hitters.push_back(relyOn(store->addHitter({{}, name})));
    }
    for (std::size_t i = 0; i < implements.size(); ++i) {
        for (std::size_t h = 0; h < hitters.size(); ++h) {
            const auto cell = relyOn(store->cellFor(m_session, implements[i], hitters[h]));
            for (const double noise : {-50.0, 30.0, -10.0, 10.0, -30.0, 50.0}) {
                keep(cell, rows[i].meanRpm + 60.0 * static_cast<double>(h) + noise);
            }
        }
    }
}

ShotId FindingsProject::keepShot(double rpm) {
    return keep(relyOn(store->cellFor(m_session, implements[0], hitters[0])), rpm);
}

ShotId FindingsProject::keep(CellId cell, double rpm) {
    Shot shot;
    shot.clip = m_clip;
    shot.cell = cell;
    shot.firstFrame = {m_frame};
    shot.lastFrame = {m_frame + 20};
    shot.strikeFrame = core::timebase::FrameIndex{m_frame};
    m_frame += 30;
    const auto added = relyOn(store->addShots(std::vector{shot})).front();
    Reading reading;
    reading.shot = added;
    reading.methodVersion = "test 1";
    reading.rate = {{rpm}, {8.0}};
    reading.interval95 = {{rpm - 16.0}, {rpm + 16.0}};
    reading.inputsJson = "{}";
    relyOn(store->keepReading(reading));
    return added;
}

}  // namespace tests
