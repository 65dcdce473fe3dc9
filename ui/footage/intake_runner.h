#pragma once

#include <QObject>
#include <deque>
#include <filesystem>
#include <memory>
#include <optional>
#include <vector>

#include "core/intake/take_in.h"
#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

namespace ui::footage {

/// Takes clips into the project in the background (core/intake/take_in.h): one request after the
/// other, two jobs worked on at once. Cancelling one of its jobs stops the request it belongs to.
/// Gone, it cancels its jobs and nothing comes home. Store and jobs must outlive it. Confined.
class IntakeRunner : public QObject {
    Q_OBJECT

public:
    struct Request {
        std::vector<std::filesystem::path> sources;  ///< files and folders
        std::string session;  ///< takes the new clips; added when there is none of this name
        core::intake::TakeInOptions options;
    };
    struct Ended {
        Request request;
        core::intake::TakeInReport report;
        std::size_t requestsDropped{};  ///< waited, and were cancelled with this one
    };

    IntakeRunner(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent = nullptr);
    ~IntakeRunner() override;

    /// Begins, or waits until those before have ended.
    void add(Request request);
    /// Stops what runs and drops what waits. What is in the project stays there.
    void cancel();

    [[nodiscard]] bool isRunning() const noexcept { return m_current.has_value(); }
    [[nodiscard]] std::size_t waiting() const noexcept { return m_waiting.size(); }
    /// Absent while folders are looked through, and when nothing runs.
    [[nodiscard]] std::optional<core::intake::TakeInProgress> progress() const;

Q_SIGNALS:
    /// Running, waiting or progress is another.
    void changed();
    void ended(const Ended& what);

private:
    void begin();
    void lookedThrough(const core::Result<core::intake::FilmFiles>& files);
    void moved();
    void end(core::intake::TakeInReport report);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    std::deque<Request> m_waiting;
    std::optional<Request> m_current;
    std::size_t m_dropped{};
    bool m_isCancelled{};
    std::optional<bridge::JobRunner::JobId> m_looking;
    std::shared_ptr<core::intake::TakeIn> m_work;  ///< shared with its jobs
    std::unique_ptr<core::jobs::Conveyor> m_conveyor;
};

}  // namespace ui::footage
