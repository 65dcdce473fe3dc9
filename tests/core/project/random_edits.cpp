#include "tests/core/project/random_edits.h"

#include <fmt/format.h>

#include "tests/core/project/project_maker.h"

namespace tests::project {

using namespace core::project;
using core::ok;
using core::Result;

RandomEditor::RandomEditor(Store& store, std::uint64_t seed) : m_store{store}, m_random{seed} {}

// Modulo, not a distribution: the same numbers on every standard library.
int RandomEditor::below(int limit) {
    return static_cast<int>(m_random() % static_cast<std::uint64_t>(limit));
}

ShotId RandomEditor::anyShot() {
    const auto& shots = m_store.snapshot()->shots;
    return shots.isEmpty() ? ShotId{} : shots.begin()[below(static_cast<int>(shots.size()))].id;
}

ClipId RandomEditor::anyClip() {
    const auto& clips = m_store.snapshot()->clips;
    return clips.isEmpty() ? ClipId{} : clips.begin()[below(static_cast<int>(clips.size()))].id;
}

core::spin::MarkSet RandomEditor::anyMarks(const Shot& shot) {
    core::spin::MarkSet marks = shot.marks;
    const core::timebase::FrameIndex frame{shot.firstFrame.value + below(60)};
    switch (below(5)) {
        case 0:
            marks.start = core::spin::StartMark{frame, {}};
            break;
        case 1:
            marks.returns.push_back(core::spin::ReturnMark::nearest(frame, 1 + below(4)));
            break;
        case 2:
            marks.returns.push_back(core::spin::ReturnMark::between(
                frame, {frame.value + 1}, {}, core::spin::BracketFraction{0.1 * below(10), 0.05}));
            break;
        case 3:
            marks.angles.push_back({.frame = frame, .angle = {0.001 * below(6283)}, .turns = {}});
            break;
        default:
            marks = {};
    }
    return marks;
}

Result<void> RandomEditor::editShots(int choice) {
    const ShotId id = anyShot();
    const Shot* found = m_store.snapshot()->shots.find(id);
    const Shot shot = found != nullptr ? *found : Shot{};
    const std::int64_t first = below(700);  // clips have 600 frames: some are refused
    switch (choice) {
        case 0: {
            BOOST_OUTCOME_TRY(m_store.addShots(
                std::vector{shotOver(anyClip(), first, first + 40), shotOver(anyClip(), 5, 50)}));
            return ok();
        }
        case 1:
            return m_store.removeShots(std::vector{id});
        case 2:
            return m_store.setShotRange(id, {first}, {first + 30}, {});
        case 3:
            return m_store.setClicks(id, {{{first}, 100.5, 0.1 * below(7000), 12.25},
                                          {{first + 9}, 300.0, 200.0, 12.0}});
        default:
            return m_store.setMarks(id, anyMarks(shot));
    }
}

Result<void> RandomEditor::decide(int choice) {
    const ShotId shot = anyShot();
    switch (choice) {
        case 0:
        case 1: {
            BOOST_OUTCOME_TRY(m_store.keepReading(readingOf(shot, 1000.0 + 0.1 * below(20000))));
            return ok();
        }
        case 2:
            return m_store.setAside(shot, below(4) == 0 ? "" : fmt::format("mishit {}", below(9)));
        case 3:
            return m_store.reopen(shot);
        case 4: {
            const auto snapshot = m_store.snapshot();
            const auto readings = readingsOfShot(*snapshot, shot);
            return m_store.setCounting(shot, readings.empty() ? ReadingId{} : readings.front()->id);
        }
        default:
            return m_store.setDoubtful(shot, below(2) == 0);
    }
}

/// Undoing may have gone back to the empty project: one thing at a time is added again.
Result<void> RandomEditor::addWhatWasUndone(const Snapshot& snapshot) {
    if (snapshot.sessions.isEmpty()) {
        Session session;
        session.name = "Bench again";
        BOOST_OUTCOME_TRY(m_store.addSession(session));
    } else if (snapshot.implements.isEmpty()) {
        BOOST_OUTCOME_TRY(m_store.addImplement({{}, "implement again", "new", {}}));
    } else {
        BOOST_OUTCOME_TRY(m_store.addHitter({{}, "hitter again"}));
    }
    return ok();
}

Result<void> RandomEditor::editStructure(int choice) {
    const auto snapshot = m_store.snapshot();
    if (snapshot->sessions.isEmpty() || snapshot->implements.isEmpty() ||
        snapshot->hitters.isEmpty()) {
        return addWhatWasUndone(*snapshot);
    }
    const SessionId session = snapshot->sessions.begin()->id;
    switch (choice) {
        case 0: {
            const std::int64_t frames = 600;
            BOOST_OUTCOME_TRY(
                m_store.addClip(clipNamed(fmt::format("clips/{}.mp4", below(50)), session, frames),
                                framesOf(frames)));
            return ok();
        }
        case 1:
            return m_store.setClipPath(anyClip(), fmt::format("{}.mp4", below(99)));
        case 2:
            return m_store.setClipClock(
                anyClip(), {core::timebase::ReviewerEntry{{{240000, 1001}}, 1e-4}},
                ClockSetting{.stretch = {1}, .counted = {}, .relativeSigma = 1e-4 * below(5)}, {});
        case 3: {
            Implement implement = *snapshot->implements.begin();
            implement.attributes["mass_g"] = fmt::format("{}", below(400));
            return m_store.changeImplement(implement);
        }
        case 4:
            return m_store.setSetting(fmt::format("key{}", below(5)), fmt::format("{}", below(9)));
        case 6: {
            core::plan::Plan plan = smallPlan();
            plan.shotsPerCell = 1 + below(12);
            plan.seed = m_random();
            return m_store.setPlan(plan);
        }
        case 5:
            return m_store.setReader(fmt::format("reader {}", below(4)));
        default: {
            const HitterId hitter =
                snapshot->hitters.begin()[below(2) % static_cast<int>(snapshot->hitters.size())].id;
            return m_store.together("Assigned by the plan.", [&]() -> Result<void> {
                BOOST_OUTCOME_TRY(
                    cell, m_store.cellFor(session, snapshot->implements.begin()->id, hitter));
                BOOST_OUTCOME_TRY(m_store.assignShots(std::vector{anyShot()}, cell));
                return below(3) == 0 ? m_store.setAside(anyShot(), " ") : Result<void>{ok()};
            });
        }
    }
}

Result<void> RandomEditor::editForward() {
    const int dice = below(20);
    if (dice < 11) {
        return editShots(below(14));
    }
    return dice < 16 ? decide(below(6)) : editStructure(below(9));
}

Result<void> RandomEditor::edit() {
    const int dice = below(20);
    if (dice < 3) {
        return m_store.undo();
    }
    return dice < 5 ? m_store.redo() : editForward();
}

}  // namespace tests::project
