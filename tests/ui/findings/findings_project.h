#pragma once

#include <memory>

#include "core/project/store.h"
#include "tests/support/process.h"

namespace tests {

/// A project in a folder of its own: three implements with numeric thickness, two hitters, six kept
/// shots a cell, by arithmetic. Means 1500, 1540 and 2000 rpm for hitter A, 60 more for hitter B.
class FindingsProject {
public:
    struct Names {
        std::vector<std::string> implements{"implement 1", "implement 2", "implement 3"};
        std::vector<std::string> hitters{"A", "B"};
    };
    /// An implement and the mean of its shots by the first hitter.
    struct Row {
        std::string name;
        std::string condition;
        double meanRpm;
    };
    FindingsProject() : FindingsProject{Names{}} {}
    explicit FindingsProject(const Names& names);
    /// Other implements, made alike.
    FindingsProject(const std::vector<Row>& rows, const std::vector<std::string>& hitterNames);

    /// One more kept shot of the first implement by hitter A.
    core::project::ShotId keepShot(double rpm);

    tests::TemporaryFolder folder;
    std::unique_ptr<core::project::Store> store;
    std::vector<core::project::ImplementId> implements;
    std::vector<core::project::HitterId> hitters;

private:
    void fill(const std::vector<Row>& rows, const std::vector<std::string>& hitterNames);
    core::project::ShotId keep(core::project::CellId cell, double rpm);
    core::project::SessionId m_session;
    core::project::ClipId m_clip;
    std::int64_t m_frame{0};
};

}  // namespace tests
