#pragma once

#include <string>
#include <vector>

#include "core/project/snapshot.h"

/// Snapshots in memory with known numbers, for the tests of what is computed from them.
namespace tests {

/// Builds a project shot by shot. One session, one clip, one implement.
class SmallProject {
public:
    SmallProject() {
        core::project::Session session;
        session.id = {1};
        session.name = "day";
        m_sessions = {session};
        core::project::Clip clip;
        clip.id = {1};
        clip.session = {1};
        clip.path = "clip.mp4";
        m_clips = {clip};
        core::project::Implement implement;
        implement.id = {1};
        implement.name = "implement 1";
        implement.condition = "new";
        m_implements = {implement};
    }

    core::project::CellId addHitter(const std::string& name) {
        const auto number = static_cast<std::int64_t>(m_hitters.size()) + 1;
        m_hitters.push_back({{number}, name});
        core::project::Cell cell;
        cell.id = {number};
        cell.session = {1};
        cell.implement = {1};
        cell.hitter = {number};
        m_cells.push_back(cell);
        return cell.id;
    }

    core::project::Shot& addShot(std::optional<core::project::CellId> cell) {
        core::project::Shot shot;
        shot.id = {static_cast<std::int64_t>(m_shots.size()) + 1};
        shot.clip = {1};
        shot.cell = cell;
        shot.ordinal = shot.id.value;
        m_shots.push_back(shot);
        return m_shots.back();
    }

    void keep(core::project::Shot& shot, double rpm, double clockSigma) {
        core::project::Reading reading;
        reading.id = {static_cast<std::int64_t>(m_readings.size()) + 1};
        reading.shot = shot.id;
        reading.reader = "reader";
        reading.rate = {{rpm}, {10.0}};
        reading.interval95 = {{rpm - 20.0}, {rpm + 20.0}};
        reading.clockRelativeSigma = clockSigma;
        reading.inputsJson = "{}";
        shot.standing = core::project::ShotStanding::Kept;
        shot.counting = reading.id;
        m_readings.push_back(reading);
    }

    void timed(const core::project::ReadingEffort& visit) {
        m_efforts.push_back(visit);
        m_efforts.back().id = {static_cast<std::int64_t>(m_efforts.size())};
    }

    [[nodiscard]] core::project::SnapshotPtr snapshot() const {
        auto made = std::make_shared<core::project::Snapshot>();
        made->sessions = core::project::Entities{m_sessions};
        made->clips = core::project::Entities{m_clips};
        made->implements = core::project::Entities{m_implements};
        made->hitters = core::project::Entities{m_hitters};
        made->cells = core::project::Entities{m_cells};
        made->shots = core::project::Entities{m_shots};
        made->readings = core::project::Entities{m_readings};
        made->efforts = core::project::Entities{m_efforts};
        return made;
    }

    std::vector<core::project::Implement>& implements() { return m_implements; }

private:
    std::vector<core::project::Session> m_sessions;
    std::vector<core::project::Clip> m_clips;
    std::vector<core::project::Implement> m_implements;
    std::vector<core::project::Hitter> m_hitters;
    std::vector<core::project::Cell> m_cells;
    std::vector<core::project::Shot> m_shots;
    std::vector<core::project::Reading> m_readings;
    std::vector<core::project::ReadingEffort> m_efforts;
};

inline core::project::SnapshotPtr cellOf(const std::vector<double>& ratesRpm, double clockSigma) {
    SmallProject project;
    const auto cell = project.addHitter("A");
    for (const double rpm : ratesRpm) {
        project.keep(project.addShot(cell), rpm, clockSigma);
    }
    return project.snapshot();
}

inline core::project::SnapshotPtr twoHitters(const std::vector<double>& a,
                                             const std::vector<double>& b) {
    SmallProject project;
    const auto cellA = project.addHitter("A");
    const auto cellB = project.addHitter("B");
    for (const double rpm : a) {
        project.keep(project.addShot(cellA), rpm, 0.0);
    }
    for (const double rpm : b) {
        project.keep(project.addShot(cellB), rpm, 0.0);
    }
    return project.snapshot();
}

/// One kept at 2000 rpm, one open, one set aside, and one open without a cell.
inline core::project::SnapshotPtr oneOfEachStanding() {
    SmallProject project;
    const auto cell = project.addHitter("A");
    project.keep(project.addShot(cell), 2000.0, 0.0);
    project.addShot(cell);
    auto& aside = project.addShot(cell);
    aside.standing = core::project::ShotStanding::SetAside;
    aside.reason = "mishit";
    project.addShot(std::nullopt);
    return project.snapshot();
}

}  // namespace tests
