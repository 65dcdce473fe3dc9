#pragma once

#include <algorithm>
#include <filesystem>
#include <memory>
#include <string>
#include <vector>

#include "core/doubts/find_doubts.h"
#include "core/reading/project_reading.h"
#include "tests/support/must.h"
#include "tests/support/process.h"

namespace tests::doubts {

using namespace core::project;
using core::doubts::Doubted;
using core::doubts::Doubts;
using core::doubts::Reason;

/// A project with one clip of 600 frames at 240 frames per second, two implements and two hitters.
class DoubtsProject {
public:
    DoubtsProject() {
        store = must(Store::create(m_folder.path() / "p.turnmark"));
        Session day;
        day.name = "day";
        day.ballDiameterMm = 67.0;
        session = must(store->addSession(day));
        Clip film;
        film.session = session;
        film.path = "a.mp4";
        film.fingerprint = "a";
        film.frameCount = 600;
        film.width = 1280;
        film.height = 720;
        film.codec = "h264";
        film.clock = ClockSetting{};
        ClipFrames frames;
        frames.stamps.timeBase = core::timebase::Rational{1, 90'000};
        for (int i = 0; i < 600; ++i) {
            frames.stamps.ticks.push_back(375LL * i + (i > 300 ? 2 * 375 : 0));  // two are missing
        }
        frames.isKey.assign(600, true);
        clip = must(store->addClip(film, frames));
        cell = must(store->cellFor(session, must(store->addImplement({{}, "gut", "", {}})),
                                   must(store->addHitter({{}, "A"}))));
    }
    /// A shot over these frames, in the cell.
    ShotId addShot(std::int64_t first, std::int64_t last) {
        Shot shot;
        shot.clip = clip;
        shot.cell = cell;
        shot.firstFrame = {first};
        shot.lastFrame = {last};
        return must(store->addShots(std::vector{shot})).front();
    }
    /// Read by a start and one return after some turns, and kept.
    void keepMarks(ShotId id, std::int64_t start, std::int64_t back, int turns,
                   std::optional<core::spin::CountingHabit> habit = {}) {
        core::spin::MarkSet marks;
        marks.start = core::spin::StartMark{{start}, {}};
        marks.returns = {core::spin::ReturnMark::nearest({back}, turns)};
        must(store->setMarks(id, marks));
        const auto snapshot = store->snapshot();
        const Shot& shot = *snapshot->shots.find(id);
        const auto frames = must(store->clipFrames(clip));
        const auto read = must(core::reading::readMarks(*snapshot, shot, *frames));
        Reading reading = core::reading::makeMarksReading(*snapshot, shot, *frames, read);
        reading.habit = habit;
        must(store->keepReading(reading));
    }
    /// A kept reading with this number and no more behind it.
    ReadingId keepNumber(ShotId id, double rpm, double sigmaRpm, const std::string& reader = "R") {
        return must(store->keepReading(number(id, rpm, sigmaRpm, reader)));
    }
    static Reading number(ShotId id, double rpm, double sigmaRpm, const std::string& reader) {
        Reading reading;
        reading.shot = id;
        reading.methodVersion = "test";
        reading.reader = reader;
        reading.rate = {{rpm}, {sigmaRpm}};
        reading.interval95 = {{rpm - 1.96 * sigmaRpm}, {rpm + 1.96 * sigmaRpm}};
        reading.inputsJson = "{}";
        return reading;
    }
    /// opinions: of pictures that were never filmed.
    [[nodiscard]] Doubts doubts(
        const std::map<ShotId, core::doubts::PictureOpinion>& opinions = {}) const {
        auto material = must(core::doubts::gatherAll(*store));
        for (const auto& [shot, opinion] : opinions) {
            material.opinions[shot] = std::make_shared<core::doubts::PictureOpinion>(opinion);
        }
        return core::doubts::findDoubts(material,
                                        must(core::findings::findFindings(*store->snapshot())));
    }
    static const Doubted* of(const Doubts& doubts, ShotId shot) {
        const auto at = std::find_if(doubts.items.begin(), doubts.items.end(),
                                     [shot](const Doubted& item) { return item.shot == shot; });
        return at != doubts.items.end() ? &*at : nullptr;
    }

private:
    TemporaryFolder m_folder;

public:
    std::unique_ptr<Store> store;
    SessionId session;
    ClipId clip;
    CellId cell;
};

}  // namespace tests::doubts
