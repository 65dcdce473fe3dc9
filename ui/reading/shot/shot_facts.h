#pragma once

#include <QHash>
#include <QImage>
#include <QObject>
#include <QTimer>
#include <deque>
#include <optional>

#include "core/project/store.h"

namespace ui::reading {

/// What the list shows of shots beside the project's snapshot: a picture of the ball, and what the
/// pictures said ahead of the review. Looked up between two events when somebody asks, so that a
/// list of ten thousand shots is there at once. Confined to the thread of the store.
class ShotFacts : public QObject {
    Q_OBJECT

public:
    struct Fact {
        QImage ball;  ///< at the start mark, else in the first frame that is kept; null: none is
        std::optional<core::Measured<core::Rpm>> pictures;
    };

    /// The store must outlive it.
    explicit ShotFacts(const core::project::Store& store, QObject* parent = nullptr);

    /// What is known; the rest follows with changed().
    [[nodiscard]] const Fact& of(core::project::ShotId shot);
    /// Any picture that is known; null: none is.
    [[nodiscard]] QImage someBall() const;
    /// A picture that was made for the review of the shot.
    void setBall(core::project::ShotId shot, const QImage& ball);
    /// It is to be looked up again.
    void forget(core::project::ShotId shot);

Q_SIGNALS:
    void changed(core::project::ShotId shot);

private:
    struct Entry {
        Fact fact;
        bool isWaiting{};
        bool isOld{true};
    };
    void lookUpOne();
    [[nodiscard]] QImage storedBall(const core::project::Shot& shot) const;

    const core::project::Store& m_store;
    QHash<qint64, Entry> m_entries;
    std::deque<core::project::ShotId> m_waiting;
    QTimer m_timer;
};

}  // namespace ui::reading
