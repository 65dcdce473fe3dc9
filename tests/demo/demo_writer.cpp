#include <array>
#include <iostream>
#include <memory>
#include <vector>

#include "core/base/files.h"
#include "core/demo/demo_project.h"
#include "core/evidence/gather.h"
#include "core/findings/settings.h"
#include "core/intake/add_clip.h"
#include "core/intake/planned_cells.h"
#include "core/intake/shot_pictures.h"
#include "core/pack/pack.h"
#include "core/project/store.h"
#include "core/reading/project_reading.h"
#include "tests/demo/demo_footage.h"

/// Makes the demo that the program carries: samples/README.md.
namespace tests::demo {
namespace {

using namespace core;  // NOLINT(google-build-using-namespace)
using project::ShotId;
using synthesis::ShotTruth;

/// Shots of the last clip that are left unread, so that a newcomer has something to try.
constexpr std::size_t kLeftToRead = 2;
/// Returns marked on a shot, as a careful reader would.
constexpr int kReturnsMarked = 3;
/// Invented, as all of the demo.
constexpr double kPlannedScatterRpm = 120.0;
constexpr Rpm kNoticeableStep{150.0};
constexpr Rpm kExpectedSpin{2400.0};

/// Ids of what the manifest names, in its order.
struct DemoEntities {
    project::SessionId session;
    std::vector<project::ImplementId> implements;
    std::vector<project::HitterId> hitters;
};

Result<DemoEntities> addEntities(project::Store& store, const DemoPlan& plan) {
    const auto& scene = plan.scenes.front();
    DemoEntities entities;
    project::Session session;
    session.name = "Stringing bench (invented)";
    session.date = "2026-05-16";
    session.marking = project::BallMarking::ThreeQuarterDark;
    session.ballDiameterMm = 1000.0 * scene.flights.front().ball.diameterM;
    session.fieldOfViewDeg = scene.camera.horizontalFieldOfViewDeg;
    session.exposureSeconds = scene.shutter.exposure.seconds;
    session.readoutSeconds = scene.shutter.readout.seconds;
    session.note = plan.manifest.statement;
    BOOST_OUTCOME_TRY(sessionId, store.addSession(session));
    entities.session = sessionId;
    for (const auto& item : plan.manifest.implements) {
        project::Implement implement;
        implement.name = item.name;
        implement.condition = item.isWorn ? "worn" : "new";
        implement.attributes.insert(item.attributes.begin(), item.attributes.end());
        BOOST_OUTCOME_TRY(id, store.addImplement(implement));
        entities.implements.push_back(id);
    }
    for (const auto& name : plan.manifest.hitters) {
        BOOST_OUTCOME_TRY(id, store.addHitter({{}, name}));
        entities.hitters.push_back(id);
    }
    return entities;
}

/// Where a reviewer would click the ball: the first, the middle and the last frame that show all of
/// it, and the quarters between.
std::vector<project::BallClick> clicksOf(const ShotTruth& truth) {
    std::vector<const synthesis::FrameTruth*> whole;
    for (const auto& frame : truth.frames) {
        if (frame.isFullyInside) {
            whole.push_back(&frame);
        }
    }
    std::vector<project::BallClick> clicks;
    constexpr std::size_t kClicks = 5;
    for (std::size_t i = 0; i < kClicks && whole.size() >= kClicks; ++i) {
        const auto& at = *whole[i * (whole.size() - 1) / (kClicks - 1)];
        clicks.push_back({at.frame, at.centre.x, at.centre.y, at.radiusPx});
    }
    return clicks;
}

spin::MarkSet marksOf(const ShotTruth& truth) {
    spin::MarkSet marks;
    if (const auto start = synthesis::startFrame(truth)) {
        marks.start = spin::StartMark{*start, std::nullopt};
        int turns = 0;
        for (const auto frame : synthesis::nearestReturnFrames(truth, kReturnsMarked)) {
            marks.returns.push_back(spin::ReturnMark::nearest(frame, ++turns));
        }
    }
    return marks;
}

Result<std::vector<ShotId>> addShots(project::Store& store, project::ClipId clip,
                                     const std::vector<ShotTruth>& truths) {
    std::vector<project::Shot> shots;
    for (const auto& truth : truths) {
        project::Shot shot;
        shot.clip = clip;
        shot.ordinal = static_cast<std::int64_t>(shots.size()) + 1;
        shot.firstFrame = truth.frames.front().frame;
        shot.lastFrame = truth.frames.back().frame;
        shot.strikeFrame = truth.strikeFrame;
        shot.clicks = clicksOf(truth);
        shots.push_back(std::move(shot));
    }
    return store.addShots(shots);
}

/// Every third shot has been read by marks too, and those that the pictures do not tell.
constexpr std::size_t kMarkedEvery = 3;

Result<void> keepMarks(project::Store& store, ShotId id, const ShotTruth& truth) {
    BOOST_OUTCOME_TRY(store.setMarks(id, marksOf(truth)));
    const auto snapshot = store.snapshot();
    const project::Shot& shot = *snapshot->shots.find(id);
    BOOST_OUTCOME_TRY(frames, store.clipFrames(shot.clip));
    BOOST_OUTCOME_TRY(read, reading::readMarks(*snapshot, shot, *frames));
    BOOST_OUTCOME_TRY(store.keepReading(reading::makeMarksReading(*snapshot, shot, *frames, read)));
    return ok();
}

/// As the window does when a reviewer keeps what the pictures say. False where they say no number.
Result<bool> keepPictures(project::Store& store, ShotId id) {
    BOOST_OUTCOME_TRY(task, intake::shotPicturesOf(store, id));
    BOOST_OUTCOME_TRY(read, intake::readShotPictures(task));
    BOOST_OUTCOME_TRY(intake::keepPictures(store, task, read));
    if (!read.rate) {
        return false;
    }
    const auto snapshot = store.snapshot();
    BOOST_OUTCOME_TRY(store.keepReading(
        reading::makeFitReading(*snapshot, *snapshot->shots.find(id), task.request, read)));
    return true;
}

Result<void> readShots(project::Store& store, const std::vector<ShotId>& shots,
                       const std::vector<ShotTruth>& truths, std::size_t count) {
    for (std::size_t i = 0; i < count; ++i) {
        const bool isMarked = i % kMarkedEvery == 0;
        if (isMarked) {
            BOOST_OUTCOME_TRY(keepMarks(store, shots[i], truths[i]));
        }
        BOOST_OUTCOME_TRY(isTold, keepPictures(store, shots[i]));
        if (!isTold && !isMarked) {
            BOOST_OUTCOME_TRY(keepMarks(store, shots[i], truths[i]));
        }
    }
    return ok();
}

Result<void> addClip(project::Store& store, const std::filesystem::path& folder,
                     const DemoClip& item, const DemoEntities& entities, bool isLast) {
    BOOST_OUTCOME_TRY(prepared, intake::prepareClip(folder / item.fileName, store.file()));
    std::vector<ShotId> shots;
    BOOST_OUTCOME_TRY(store.together("Added clip " + item.fileName, [&]() -> Result<void> {
        project::Clip clip = prepared.clip;
        clip.session = entities.session;
        BOOST_OUTCOME_TRY(id, store.addClip(clip, prepared.frames));
        BOOST_OUTCOME_TRY(added, addShots(store, id, item.shots));
        shots = std::move(added);
        BOOST_OUTCOME_TRY(cell, store.cellFor(entities.session, entities.implements[item.implement],
                                              entities.hitters[item.hitter]));
        return store.assignShots(shots, cell);
    }));
    return readShots(store, shots, item.shots, shots.size() - (isLast ? kLeftToRead : 0));
}

/// What was planned for the day that the demo shows, and what its tester sets for the findings.
Result<void> addPlanAndSettings(project::Store& store, const DemoPlan& footage) {
    plan::Plan plan = intake::planOfProject(*store.snapshot());
    plan.session = store.snapshot()->sessions.begin()->name;
    plan.shotsPerCell = static_cast<int>(footage.scenes.front().flights.size());
    plan.shotsPerVisit = plan.shotsPerCell;
    plan.assumedScatterRpm = kPlannedScatterRpm;
    plan.filming = {.captureFps = footage.scenes.front().timing.captureRate.toDouble(),
                    .exposureSeconds = footage.scenes.front().shutter.exposure.seconds,
                    .expectedRpm = kExpectedSpin.rpm};
    BOOST_OUTCOME_TRY(intake::keepPlan(store, plan));
    BOOST_OUTCOME_TRY(findings::setNoticeableStep(store, kNoticeableStep));
    BOOST_OUTCOME_TRY(bands, findings::Bands::parse("low 2000 medium 2500 high"));
    return findings::setBands(store, bands);
}

Result<void> fillProject(const std::filesystem::path& file, const DemoPlan& plan,
                         const DemoManifest& footage) {
    BOOST_OUTCOME_TRY(store, project::Store::create(file));
    BOOST_OUTCOME_TRY(store->setReader("demo script"));
    BOOST_OUTCOME_TRY(entities, addEntities(*store, plan));
    for (const auto& clip : footage.clips) {
        std::cout << "reading " << clip.fileName << std::endl;
        const bool isLast = &clip == &footage.clips.back();
        BOOST_OUTCOME_TRY(addClip(*store, file.parent_path(), clip, entities, isLast));
    }
    BOOST_OUTCOME_TRY(addPlanAndSettings(*store, plan));
    BOOST_OUTCOME_TRY(gathered, evidence::gatherMissing(*store));
    for (const auto& trouble : gathered.troubles) {
        std::cout << trouble << '\n';
    }
    return ok();
}

Result<void> writeDemo(const std::filesystem::path& to) {
    BOOST_OUTCOME_TRY(staging, StagingFolder::in(to.parent_path()));
    BOOST_OUTCOME_TRY(plan, planDemoFootage());
    BOOST_OUTCOME_TRY(footage, writeDemoFootage(staging.path()));
    const auto file = core::demo::demoProjectFile(staging.path());
    BOOST_OUTCOME_TRY(fillProject(file, plan, footage));
    BOOST_OUTCOME_TRY(packed,
                      pack::pack(file, to, pack::Footage::All, {}, {}, Existing::Overwrite));
    std::cout << "wrote " << to.string() << ", " << packed.bytes << " bytes\n";
    return ok();
}

}  // namespace
}  // namespace tests::demo

int main(int count, char** arguments) {
    if (count != 2) {
        std::cerr << "usage: demo_writer FILE\n";
        return 2;
    }
    const auto done = tests::demo::writeDemo(std::filesystem::absolute(arguments[1]));
    if (!done) {
        std::cerr << done.error().message << '\n';
        return 1;
    }
    return 0;
}
