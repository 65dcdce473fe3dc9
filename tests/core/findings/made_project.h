#pragma once

#include <gtest/gtest.h>

#include <map>
#include <string>
#include <tuple>
#include <vector>

#include "core/findings/findings.h"

namespace tests {

/// A project in memory, shot by shot, with cells made as they are named. One clip a session.
class MadeProject {
public:
    using ShotId = core::project::ShotId;

    core::project::ImplementId implement(const std::string& name, const std::string& condition = "",
                                         std::map<std::string, std::string> attributes = {}) {
        core::project::Implement made;
        made.id = {static_cast<std::int64_t>(m_implements.size()) + 1};
        made.name = name;
        made.condition = condition;
        made.attributes = std::move(attributes);
        m_implements.push_back(made);
        return made.id;
    }

    /// Makes the cell although it has no shot yet.
    void cell(core::project::ImplementId implement, const std::string& hitter) {
        cellOf(sessionOf("day"), implement, hitter);
    }

    /// A kept shot, read with a standard uncertainty of `sigma`.
    ShotId keep(core::project::ImplementId implement, const std::string& hitter, double rpm,
                double sigma = 0.0, double clock = 0.0, const std::string& session = "day") {
        core::project::Shot shot;
        shot.id = {static_cast<std::int64_t>(m_shots.size()) + 1};
        const auto day = sessionOf(session);
        shot.clip = {day.value};
        shot.cell = cellOf(day, implement, hitter);
        shot.ordinal = shot.id.value;
        shot.standing = core::project::ShotStanding::Kept;
        m_shots.push_back(shot);
        read(shot.id, "reader", core::project::ReadingMethod::Marks, rpm, sigma, clock);
        return shot.id;
    }

    /// One more reading of a shot, which counts from now on.
    void read(ShotId shot, const std::string& reader, core::project::ReadingMethod method,
              double rpm, double sigma = 0.0, double clock = 0.0) {
        core::project::Reading reading;
        reading.id = {static_cast<std::int64_t>(m_readings.size()) + 1};
        reading.shot = shot;
        reading.reader = reader;
        reading.method = method;
        reading.methodVersion =
            method == core::project::ReadingMethod::Marks ? "marks 1" : "rotation fit 1";
        reading.rate = {{rpm}, {sigma}};
        reading.clockRelativeSigma = clock;
        reading.inputsJson = "{}";
        m_readings.push_back(reading);
        m_shots[static_cast<std::size_t>(shot.value) - 1].counting = reading.id;
    }

    /// A kept whole-frame count at 120 frames per second.
    ShotId keepCount(core::project::ImplementId implement, const std::string& hitter, double frames,
                     core::spin::CountingHabit habit = core::spin::CountingHabit::Nearest,
                     const std::string& session = "day") {
        using core::spin::CountingHabit;
        const ShotId shot = keep(implement, hitter, 7200.0 / frames, 80.0, 0.0, session);
        const bool isNearest = habit == CountingHabit::Nearest;
        const double before = isNearest ? 0.5 : 1.0;
        const double after = isNearest ? 0.5 : (habit == CountingHabit::After ? 0.0 : 1.0);
        m_readings.back().habit = habit;
        m_readings.back().bounds = {{7200.0 / (frames + after)}, {7200.0 / (frames - before)}};
        return shot;
    }
    /// The latest reading has a part that the line of sight makes.
    void withView(double relativeSigma) { m_readings.back().viewRelativeSigma = relativeSigma; }

    /// The latest reading is another reader's, with another value.
    void renameReader(const std::string& reader, double rpm) {
        m_readings.back().reader = reader;
        m_readings.back().rate.value.rpm = rpm;
    }
    /// What the latest reading was computed from.
    void withInputs(const std::string& json) { m_readings.back().inputsJson = json; }

    void setAside(ShotId shot) {
        auto& found = m_shots[static_cast<std::size_t>(shot.value) - 1];
        found.standing = core::project::ShotStanding::SetAside;
        found.reason = "mishit";
    }

    /// A visit to the shot that kept a reading.
    void timed(ShotId shot, double seconds, std::int64_t keys, bool namesHidden = false) {
        core::project::ReadingEffort visit;
        visit.id = {static_cast<std::int64_t>(m_efforts.size()) + 1};
        visit.shot = shot;
        visit.keys = keys;
        visit.activeSeconds = seconds;
        visit.namesHidden = namesHidden;
        visit.outcome = core::project::VisitOutcome::Kept;
        m_efforts.push_back(visit);
    }

    void set(const std::string& key, const std::string& value) { m_settings[key] = value; }

    [[nodiscard]] core::project::Snapshot snapshot() const {
        core::project::Snapshot made;
        made.settings = m_settings;
        made.sessions = core::project::Entities{m_sessions};
        made.clips = core::project::Entities{m_clips};
        made.implements = core::project::Entities{m_implements};
        made.hitters = core::project::Entities{m_hitters};
        made.cells = core::project::Entities{m_cells};
        made.shots = core::project::Entities{m_shots};
        made.readings = core::project::Entities{m_readings};
        made.efforts = core::project::Entities{m_efforts};
        return made;
    }

    [[nodiscard]] core::findings::Findings findings(
        const core::findings::Findings* earlier = nullptr) const {
        auto found = core::findings::findFindings(snapshot(), {}, {}, earlier);
        EXPECT_TRUE(found.has_value()) << (found ? "" : found.error().message);
        return found ? std::move(found).value() : core::findings::Findings{};
    }

private:
    core::project::SessionId sessionOf(const std::string& name) {
        for (const auto& session : m_sessions) {
            if (session.name == name) {
                return session.id;
            }
        }
        core::project::Session session;
        session.id = {static_cast<std::int64_t>(m_sessions.size()) + 1};
        session.name = name;
        m_sessions.push_back(session);
        core::project::Clip clip;
        clip.id = {session.id.value};
        clip.session = session.id;
        clip.path = name + ".mp4";
        m_clips.push_back(clip);
        return session.id;
    }

    core::project::CellId cellOf(core::project::SessionId session,
                                 core::project::ImplementId implement, const std::string& name) {
        core::project::HitterId who;
        for (const auto& hitter : m_hitters) {
            who = hitter.name == name ? hitter.id : who;
        }
        if (who.value == 0) {
            who = {static_cast<std::int64_t>(m_hitters.size()) + 1};
            m_hitters.push_back({who, name});
        }
        for (const auto& cell : m_cells) {
            if (std::tie(cell.session, cell.implement, cell.hitter) ==
                std::tie(session, implement, who)) {
                return cell.id;
            }
        }
        core::project::Cell cell;
        cell.id = {static_cast<std::int64_t>(m_cells.size()) + 1};
        cell.session = session;
        cell.implement = implement;
        cell.hitter = who;
        m_cells.push_back(cell);
        return cell.id;
    }

    std::map<std::string, std::string> m_settings;
    std::vector<core::project::Session> m_sessions;
    std::vector<core::project::Clip> m_clips;
    std::vector<core::project::Implement> m_implements;
    std::vector<core::project::Hitter> m_hitters;
    std::vector<core::project::Cell> m_cells;
    std::vector<core::project::Shot> m_shots;
    std::vector<core::project::Reading> m_readings;
    std::vector<core::project::ReadingEffort> m_efforts;
};

/// Implements with values around their means, two hitters, by arithmetic alone: shot k of a cell
/// lies at mean + spread * {-1, 0, 1, …}.
inline MadeProject ladder(const std::vector<double>& meansRpm, double spreadRpm,
                          const std::vector<std::string>& hitters, int shots) {
    MadeProject project;
    for (std::size_t i = 0; i < meansRpm.size(); ++i) {
        const auto implement = project.implement("implement " + std::to_string(i + 1));
        for (std::size_t h = 0; h < hitters.size(); ++h) {
            for (int k = 0; k < shots; ++k) {
                project.keep(
                    implement, hitters[h],
                    meansRpm[i] + 50.0 * static_cast<double>(h) +
                        spreadRpm * (static_cast<double>((k * 7) % shots) - 0.5 * (shots - 1)));
            }
        }
    }
    return project;
}

}  // namespace tests
