#include "core/demo/demo_project.h"

#include <fcntl.h>
#include <sys/file.h>
#include <unistd.h>

#include <array>
#include <cerrno>
#include <memory>
#include <system_error>
#include <vector>

#include "core/base/files.h"
#include "core/findings/settings.h"
#include "core/intake/add_clip.h"
#include "core/intake/planned_cells.h"
#include "core/project/store.h"
#include "core/reading/project_reading.h"
#include "core/synthesis/demo_footage.h"

namespace core::demo {
namespace {

using project::ShotId;
using synthesis::DemoManifest;
using synthesis::ShotTruth;

/// Shots of the last clip that are left unread, so that a newcomer has something to try.
constexpr std::size_t kLeftToRead = 2;
/// Returns marked on a shot, as a careful reader would.
constexpr int kReturnsMarked = 3;
constexpr double kRenderingShare = 0.9;
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

Result<DemoEntities> addEntities(project::Store& store, const synthesis::DemoPlan& plan) {
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

Result<void> readShots(project::Store& store, project::ClipId clip,
                       const std::vector<ShotId>& shots, const std::vector<ShotTruth>& truths,
                       std::size_t count) {
    BOOST_OUTCOME_TRY(frames, store.clipFrames(clip));
    for (std::size_t i = 0; i < count; ++i) {
        BOOST_OUTCOME_TRY(store.setMarks(shots[i], marksOf(truths[i])));
        const auto snapshot = store.snapshot();
        const project::Shot& shot = *snapshot->shots.find(shots[i]);
        BOOST_OUTCOME_TRY(read, reading::readMarks(*snapshot, shot, *frames));
        BOOST_OUTCOME_TRY(
            store.keepReading(reading::makeMarksReading(*snapshot, shot, *frames, read)));
    }
    return ok();
}

Result<void> addClip(project::Store& store, const std::filesystem::path& folder,
                     const synthesis::DemoClip& item, const DemoEntities& entities, bool isLast) {
    BOOST_OUTCOME_TRY(prepared, intake::prepareClip(folder / item.fileName, store.file()));
    return store.together(
        "Added clip " + item.fileName + " with its marks.", [&]() -> Result<void> {
            project::Clip clip = prepared.clip;
            clip.session = entities.session;
            BOOST_OUTCOME_TRY(id, store.addClip(clip, prepared.frames));
            BOOST_OUTCOME_TRY(shots, addShots(store, id, item.shots));
            BOOST_OUTCOME_TRY(cell,
                              store.cellFor(entities.session, entities.implements[item.implement],
                                            entities.hitters[item.hitter]));
            BOOST_OUTCOME_TRY(store.assignShots(shots, cell));
            const std::size_t count = shots.size() - (isLast ? kLeftToRead : 0);
            return readShots(store, id, shots, item.shots, count);
        });
}

/// What was planned for the day that the demo shows, and what its tester sets for the findings.
Result<void> addPlanAndSettings(project::Store& store, const synthesis::DemoPlan& footage) {
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

Result<void> fillProject(const std::filesystem::path& file, const synthesis::DemoPlan& plan,
                         const DemoManifest& footage, const Progress& progress) {
    BOOST_OUTCOME_TRY(store, project::Store::create(file));
    BOOST_OUTCOME_TRY(store->setReader("demo script"));
    BOOST_OUTCOME_TRY(entities, addEntities(*store, plan));
    std::size_t done = 0;
    for (const auto& clip : footage.clips) {
        ++done;
        BOOST_OUTCOME_TRY(
            addClip(*store, file.parent_path(), clip, entities, done == footage.clips.size()));
        if (progress) {
            const double share =
                static_cast<double>(done) / static_cast<double>(footage.clips.size());
            progress(kRenderingShare + (1.0 - kRenderingShare) * share, "marking " + clip.fileName);
        }
    }
    return addPlanAndSettings(*store, plan);
}

/// The right to write into a folder, which is made if it is not there: a lock on the folder itself,
/// which the system lets go when the process ends, however it ends. On a disk without locks nobody
/// is held up.
Result<std::shared_ptr<void>> claim(const std::filesystem::path& folder) {
    std::error_code problem;
    std::filesystem::create_directories(folder, problem);
    const int opened = ::open(folder.c_str(), O_RDONLY | O_DIRECTORY | O_CLOEXEC);
    if (opened < 0) {
        return fail(ErrorCode::WriteFailed, "Cannot write into the folder " + folder.string() +
                                                ": " + std::generic_category().message(errno) +
                                                ".");
    }
    std::shared_ptr<void> claimed{nullptr, [opened](void*) { ::close(opened); }};
    if (::flock(opened, LOCK_EX | LOCK_NB) != 0 && errno == EWOULDBLOCK) {
        return fail(ErrorCode::Busy, "The demo is being made in " + folder.string() +
                                         " already. Wait until it is ready, then open it.");
    }
    return claimed;
}

/// Names of everything that the demo writes, the project last: what carries its name is whole.
std::vector<std::filesystem::path> filesOf(const DemoManifest& manifest) {
    std::vector<std::filesystem::path> names;
    for (const auto& clip : manifest.clips) {
        names.emplace_back(clip.fileName);
        names.push_back(std::filesystem::path{clip.fileName}.replace_extension(".json"));
    }
    names.push_back(demoProjectFile({}));
    return names;
}

}  // namespace

std::filesystem::path demoProjectFile(const std::filesystem::path& folder) {
    return folder / "stringing bench (invented).turnmark";
}

Result<std::filesystem::path> makeDemoProject(const std::filesystem::path& folder,
                                              const Progress& progress, std::stop_token stop) {
    const auto file = demoProjectFile(folder);
    std::error_code problem;
    const auto claimed = claim(folder);
    if (!claimed) {
        return claimed.error();
    }
    if (std::filesystem::exists(file, problem)) {
        return fail(ErrorCode::InvalidInput, "There is a demo already: " + file.string() +
                                                 ". Open it, or name another folder.");
    }
    BOOST_OUTCOME_TRY(plan, synthesis::planDemoFootage());
    const auto names = filesOf(plan.manifest);
    for (const auto& name : names) {
        BOOST_OUTCOME_TRY(mayWrite(folder / name));  // before the long work
    }
    BOOST_OUTCOME_TRY(staging, StagingFolder::in(folder));
    BOOST_OUTCOME_TRY(footage, synthesis::writeDemoFootage(
                                   staging.path(),
                                   [&progress](std::int64_t done, std::int64_t total) {
                                       if (progress && total > 0) {
                                           progress(kRenderingShare * static_cast<double>(done) /
                                                        static_cast<double>(total),
                                                    "rendering the clips");
                                       }
                                   },
                                   stop));
    BOOST_OUTCOME_TRY(fillProject(demoProjectFile(staging.path()), plan, footage, progress));
    for (const auto& name : names) {
        BOOST_OUTCOME_TRY(moveToPlace(staging.path() / name, folder / name));
    }
    return file;
}

}  // namespace core::demo
