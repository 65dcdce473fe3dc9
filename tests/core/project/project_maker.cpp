#include "tests/core/project/project_maker.h"

#include <unistd.h>

#include <algorithm>
#include <cstdlib>
#include <sstream>

#include "core/project/store/kinds.h"

namespace tests::project {

using namespace core::project;
namespace fs = std::filesystem;

namespace {

/// A file system in memory where there is one: thousands of edits are each synced to it, and what
/// is tested is what the files say and not how fast a disk is.
fs::path quickestFolder() {
    const fs::path memory = "/dev/shm";
    return ::access(memory.c_str(), W_OK) == 0 ? memory : fs::temp_directory_path();
}

}  // namespace

TemporaryFolder::TemporaryFolder() : tests::TemporaryFolder{quickestFolder()} {}

std::vector<std::string> TemporaryFolder::names() const {
    std::vector<std::string> names;
    for (const auto& entry : fs::directory_iterator{path()}) {
        names.push_back(entry.path().filename().string());
    }
    std::sort(names.begin(), names.end());
    return names;
}

Clip clipNamed(const std::string& path, SessionId session, std::int64_t frames) {
    Clip clip;
    clip.session = session;
    clip.path = path;
    clip.sizeBytes = 123456;
    clip.fingerprint = "fingerprint of " + path;
    clip.frameCount = frames;
    clip.width = 1280;
    clip.height = 720;
    clip.codec = "h264";
    clip.container = "mov,mp4";
    clip.playbackRate = core::timebase::PlaybackRate{{240}};
    clip.lensFocalLengthMm = 26.0;
    clip.clock = ClockSetting{.kind = core::timebase::ClockKind::Counted,
                              .stretch = {1},
                              .counted = core::timebase::CaptureRate{{240}},
                              .relativeSigma = 0.0};
    return clip;
}

ClipFrames framesOf(std::int64_t frames) {
    ClipFrames made;
    made.stamps.timeBase = {1, 90000};
    for (std::int64_t i = 0; i < frames; ++i) {
        made.stamps.ticks.push_back(375 * i);
        made.isKey.push_back(i % 12 == 0);
    }
    return made;
}

Shot shotOver(ClipId clip, std::int64_t first, std::int64_t last) {
    Shot shot;
    shot.clip = clip;
    shot.firstFrame = {first};
    shot.lastFrame = {last};
    shot.strikeFrame = core::timebase::FrameIndex{first};
    return shot;
}

core::spin::MarkSet startAndReturn(std::int64_t start, std::int64_t back) {
    return {.start = core::spin::StartMark{{start}, {}},
            .returns = {core::spin::ReturnMark::nearest({back}, 1)},
            .angles = {}};
}

Reading readingOf(ShotId shot, double rpm) {
    Reading reading;
    reading.shot = shot;
    reading.methodVersion = "test 1";
    reading.rate = {{rpm}, {2.0}};
    reading.interval95 = {{rpm - 4.0}, {rpm + 4.0}};
    reading.bounds = core::Interval<core::Rpm>{{rpm - 6.0}, {rpm + 6.0}};
    reading.inputsJson = "{}";
    return reading;
}

SmallProject fill(Store& store) {
    SmallProject made;
    Session session;
    session.name = "Bench 1";
    session.date = "2026-05-03";
    made.session = store.addSession(session).value();
    made.implement =
        store.addImplement({{}, "polyester 23 kg", "new", {{"gauge", "1.25"}}}).value();
    made.otherImplement = store.addImplement({{}, "gut 24 kg", "worn", {}}).value();
    made.hitter = store.addHitter({{}, "hitter A"}).value();
    made.otherHitter = store.addHitter({{}, "hitter B"}).value();
    made.clip = store.addClip(clipNamed("clips/b.mp4", made.session, 600), framesOf(600)).value();
    made.shots =
        store
            .addShots(std::vector{shotOver(made.clip, 10, 60), shotOver(made.clip, 110, 160),
                                  shotOver(made.clip, 210, 260)})
            .value();
    return made;
}

namespace {

struct AsText {
    std::ostringstream& out;
    void operator()(std::monostate) const { out << "NULL"; }
    void operator()(std::int64_t number) const { out << number; }
    void operator()(double number) const { out << std::hexfloat << number; }
    void operator()(const std::string& text) const { out << '"' << text << '"'; }
    void operator()(const Blob& blob) const { out << blob.size() << " bytes"; }
};

template <class Entity>
void tell(std::ostringstream& out, const Entities<Entity>& table) {
    for (const Entity& entity : table) {
        out << kindOf<Entity>().table << ':';
        Fields row = written(entity);
        for (const Value& value : row.row()) {
            out << ' ';
            std::visit(AsText{out}, value);
        }
        out << '\n';
    }
}

}  // namespace

core::project::PictureArchive smallArchive() {
    return {"rotation fit 2 {}", std::string("\xA1\0\xFF", 3)};
}

core::project::ReadingEffort smallEffort(core::project::ShotId shot) {
    core::project::ReadingEffort visit;
    visit.shot = shot;
    visit.beganAt = "2026-05-03T09:41:07Z";
    visit.keys = 8;
    visit.clicks = 1;
    visit.activeSeconds = 6.25;
    visit.namesHidden = true;
    visit.outcome = core::project::VisitOutcome::Kept;
    return visit;
}

core::plan::Plan smallPlan() {
    core::plan::Plan plan;
    plan.session = "Bench 1";
    plan.attributeNames = {"mass, g"};
    plan.implements = {{"polyester 23 kg", "new", {{"mass, g", "95"}}}, {"gut 24 kg", "worn", {}}};
    plan.hitters = {"hitter A", "hitter B"};
    plan.shotsPerCell = 6;
    plan.shotsPerVisit = 3;
    plan.order = core::plan::OrderKind::Williams;
    plan.seed = 42;
    plan.control = 0;
    plan.ball = "felt ball, new";
    plan.marking = core::plan::BallMarking::BandWithDot;
    plan.assumedScatterRpm = 120.0;
    plan.filming = {240.0, 0.0005, 1500.0};
    return plan;
}

std::string contentOf(const Snapshot& snapshot) {
    std::ostringstream out;
    out << "reader: " << snapshot.reader << '\n';
    for (const auto& [key, value] : snapshot.settings) {
        out << "setting: " << key << '=' << value << '\n';
    }
    tell(out, snapshot.sessions);
    tell(out, snapshot.implements);
    tell(out, snapshot.hitters);
    tell(out, snapshot.cells);
    tell(out, snapshot.clips);
    tell(out, snapshot.shots);
    tell(out, snapshot.readings);
    tell(out, snapshot.corrections);
    tell(out, snapshot.plans);
    tell(out, snapshot.secondLooks);
    tell(out, snapshot.secondReadings);
    return out.str();
}

}  // namespace tests::project
