#pragma once

#include <QObject>
#include <QString>
#include <deque>
#include <memory>
#include <vector>

#include "core/intake/read_again.h"
#include "ui/bridge/job_runner.h"

namespace ui::bridge {

/// Reads kept shots again in the background after a fact changed on which they rest. Confined.
class KeptAgain : public QObject {
    Q_OBJECT

public:
    /// Both must outlive it.
    KeptAgain(core::project::Store& store, JobRunner& jobs, QObject* parent = nullptr);
    ~KeptAgain() override;

    /// Behind what runs; nothing for no shots.
    void read(std::vector<core::project::ShotId> shots);
    [[nodiscard]] bool isRunning() const noexcept { return m_conveyor != nullptr; }

Q_SIGNALS:
    /// What came of it, in words.
    void ended(const QString& words);

private:
    void begin();
    void moved();

    core::project::Store& m_store;
    JobRunner& m_jobs;
    std::deque<std::vector<core::project::ShotId>> m_waiting;
    std::shared_ptr<core::intake::ReadAgain> m_work;
    std::unique_ptr<core::jobs::Conveyor> m_conveyor;
};

}  // namespace ui::bridge
