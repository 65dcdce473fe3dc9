#include "tests/core/publish/invented_project.h"
#include "core/base/version.h"

#include <array>

namespace tests {

using namespace core::project;  // NOLINT: the words of a project, all of them

namespace {

Shot inventedShot(std::int64_t number, CellId cell) {
    Shot shot;
    shot.id = {number};
    shot.clip = {1};
    shot.cell = cell;
    shot.ordinal = number;
    shot.firstFrame = {100 * number};
    shot.lastFrame = {100 * number + 40};
    return shot;
}

Reading inventedReading(std::int64_t number, ShotId shot, double rpm, const std::string& reader) {
    Reading reading;
    reading.id = {number};
    reading.shot = shot;
    reading.methodVersion = "marks 1";
    reading.reader = reader;
    reading.madeAt = "2026-05-16T10:00:00Z";
    reading.rate = {{rpm}, {12.5}};
    reading.interval95 = {{rpm - 24.5}, {rpm + 24.5}};
    reading.clockRelativeSigma = 0.0005;
    reading.inputsJson = "{}";
    return reading;
}

/// The day and its clip.
Snapshot inventedDay(const InventedNames& names) {
    Snapshot snapshot;
    snapshot.revision = 57;
    snapshot.reader = names.reader;
    Session session;
    session.id = {1};
    session.name = names.session;
    session.date = "2026-05-16";
    session.note = names.note;
    snapshot.sessions = Entities{std::vector{session}};
    Clip clip;
    clip.id = {1};
    clip.session = {1};
    clip.path = "day/clip_" + names.hitters.front() + ".mp4";
    clip.sizeBytes = 1;
    clip.frameCount = 1'000'000;
    snapshot.clips = Entities{std::vector{clip}};
    return snapshot;
}

}  // namespace

Snapshot inventedSnapshot(const InventedNames& names, int shotsACell) {
    Snapshot snapshot = inventedDay(names);
    std::vector<Implement> implements;
    std::vector<Hitter> hitters;
    std::vector<Cell> cells;
    std::vector<Shot> shots;
    std::vector<Reading> readings;
    for (const auto& name : names.hitters) {
        hitters.push_back({{static_cast<std::int64_t>(hitters.size()) + 1}, name});
    }
    // Deviations of shots from the mean of their cell, rpm.
    constexpr std::array kScatter{-31.0, 12.0, 24.0, -7.0, 19.0, -17.0, 3.0, -9.0, 28.0, -22.0};
    for (const auto& name : names.implements) {
        const auto number = static_cast<std::int64_t>(implements.size()) + 1;
        implements.push_back({{number}, name, "new", {}});
        for (const auto& hitter : hitters) {
            Cell cell;
            cell.id = {static_cast<std::int64_t>(cells.size()) + 1};
            cell.session = {1};
            cell.implement = {number};
            cell.hitter = hitter.id;
            cells.push_back(cell);
            for (int i = 0; i <= shotsACell; ++i) {
                Shot shot = inventedShot(static_cast<std::int64_t>(shots.size()) + 1, cell.id);
                if (i == shotsACell) {
                    shot.standing = ShotStanding::SetAside;
                    shot.reason = names.reason;
                    shots.push_back(shot);
                    continue;
                }
                const double rpm = 1200.0 + 300.0 * static_cast<double>(number) +
                                   20.0 * static_cast<double>(hitter.id.value) +
                                   kScatter[static_cast<std::size_t>(i) % kScatter.size()];
                readings.push_back(inventedReading(static_cast<std::int64_t>(readings.size()) + 1,
                                                   shot.id, rpm, names.reader));
                shot.standing = ShotStanding::Kept;
                shot.counting = readings.back().id;
                shots.push_back(shot);
            }
        }
    }
    snapshot.implements = Entities{implements};
    snapshot.hitters = Entities{hitters};
    snapshot.cells = Entities{cells};
    snapshot.shots = Entities{shots};
    snapshot.readings = Entities{readings};
    return snapshot;
}

core::publish::Material inventedMaterial(const InventedNames& names, int shotsACell) {
    core::publish::Material material;
    material.snapshot = std::make_shared<const Snapshot>(inventedSnapshot(names, shotsACell));
    material.projectFile = "/nowhere/" + std::string{"invented.turnmark"};
    material.origin = {names.title, 57, "2026-05-17T08:30:00Z", core::programName()};
    return material;
}

InventedNames manyImplements(int count) {
    InventedNames names;
    names.implements.clear();
    for (int i = 1; i <= count; ++i) {
        names.implements.push_back("implement " + std::to_string(i));
    }
    return names;
}

InventedNames hostileNames() {
    InventedNames names;
    names.implements = {"=cmd(\"x\")", "<script>alert(1)</script>", "../../x",
                        "\xF0\x9F\x8E\xBE racket \xF0\x9F\x94\xA5", std::string(300, 'L'),
                        "\xD7\x9E\xD7\x97\xD7\x91\xD7\x98 \xD7\x97\xD7\x93\xD7\xA9",  // Hebrew
                        "line\nbreak\tand \"quotes\" & 'more', semicolon;",
                        // NOLINTNEXTLINE(misc-misleading-bidirectional): what a name may do
                        "\xE2\x80\xAEreversed"};
    names.hitters = {"+1+1", "]]>--><b>&amp;"};
    names.session = "{{template}} ${x} %s";
    names.note = "</style><img src=http://example.org/x.png onerror=alert(1)>";
    names.reason = "@SUM(A1)\r\nsecond line";
    names.reader = "-r";
    names.title = "</title><script>";
    return names;
}

}  // namespace tests
