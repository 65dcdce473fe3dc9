#pragma once

#include <QHash>
#include <QImage>
#include <QObject>
#include <QTimer>
#include <vector>

#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

namespace ui::doubts {

/// Pictures of the ball in a few frames of one shot: those kept in the project, else cut from the
/// film by a job. Looked up when nothing else is wanted for a moment, so that going down a list
/// stays quick. Confined to the thread of the store.
class TurnPictures : public QObject {
    Q_OBJECT

public:
    /// Both must outlive it.
    TurnPictures(core::project::Store& store, bridge::JobRunner& jobs, QObject* parent = nullptr);
    ~TurnPictures() override;

    /// What was wanted before is dropped. Frames ascending; none: nothing is wanted.
    void want(core::project::ShotId shot, std::vector<core::timebase::FrameIndex> frames);
    /// Null while, or because, it is not there.
    [[nodiscard]] QImage picture(core::timebase::FrameIndex frame) const;
    [[nodiscard]] bool areAnyThere() const noexcept { return !m_pictures.isEmpty(); }
    /// They are still looked for.
    [[nodiscard]] bool areAwaited() const noexcept { return m_areAwaited; }
    /// Why some are not there, in words; empty while they are awaited, and when all are there.
    [[nodiscard]] QString trouble() const { return m_trouble; }

Q_SIGNALS:
    /// What is known of them is different.
    void changed();

private:
    void lookUp();
    void take(const core::project::StoredPictures& pictures);
    void cutFromFilm();
    void settle(const QString& trouble);
    [[nodiscard]] bool areAllThere() const;

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    QTimer m_rest;
    core::project::ShotId m_shot;
    std::vector<core::timebase::FrameIndex> m_frames;
    QHash<qint64, QImage> m_pictures;
    QString m_trouble;
    bool m_areAwaited{false};
    bridge::JobRunner::JobId m_job{0};
    quint64 m_wish{0};  ///< what comes home for an older one is dropped
};

}  // namespace ui::doubts
