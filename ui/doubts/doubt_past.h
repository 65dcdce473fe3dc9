#pragma once

#include <QWidget>
#include <optional>
#include <vector>

#include "core/project/store.h"

class QLabel;
class QTableView;

namespace ui::models {
class SentenceTableModel;
}

namespace ui::doubts {

/// How a shot was read so far, and what was decided about it. As high as that is: the card around
/// it scrolls. Confined to the thread of the store.
class DoubtPast : public QWidget {
    Q_OBJECT

public:
    /// The store must outlive it.
    explicit DoubtPast(const core::project::Store& store, QWidget* parent = nullptr);

    /// Absent: nothing is shown.
    void show(std::optional<core::project::ShotId> shot);
    /// The chosen row; at first the newest.
    [[nodiscard]] std::optional<core::project::ReadingId> chosenReading() const;

private:
    void showReadings(std::optional<core::project::ShotId> shot);
    void showHistory(std::optional<core::project::ShotId> shot);
    void fitTable();

    const core::project::Store& m_store;
    models::SentenceTableModel* m_readings;
    QTableView* m_table;
    std::vector<core::project::ReadingId> m_shown;
    QLabel* m_head;
    QLabel* m_history;
};

}  // namespace ui::doubts
