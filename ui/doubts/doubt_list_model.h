#pragma once

#include <QAbstractTableModel>
#include <QHash>
#include <memory>
#include <optional>
#include <set>

#include "core/doubts/find_doubts.h"
#include "core/project/store.h"

namespace ui::reading {
class ShotFacts;
}

namespace ui::doubts {

class CellRates;

/// "grave", or "settled" whatever it was.
[[nodiscard]] QString weightText(const core::doubts::Doubted& item);
/// Whose doubt it is, and which of its shots: "polyester 23 kg · A", "shot 3".
struct Whose {
    QString cell;   ///< empty for a shot that is not assigned
    QString which;  ///< with its clip for a shot that is not assigned
    /// "polyester 23 kg · A · shot 3"
    [[nodiscard]] QString inOne() const;
};
[[nodiscard]] Whose whoseOf(const core::project::Snapshot& snapshot,
                            const core::doubts::Doubted& item);

/// What is doubted, one a row. Words are made when a row is looked at, so that ten thousand are
/// there at once; pictures of the ball follow. Confined to the thread of the store.
class DoubtListModel : public QAbstractTableModel {
    Q_OBJECT

public:
    /// NumbersRole: the numbers behind the worst reason. CellRole, WhichRole: as Whose. BallRole: a
    /// picture of the ball, or none. Displayed is the whole row in one line.
    enum Role { ReasonRole = Qt::UserRole, NumbersRole, CellRole, WhichRole, BallRole };

    /// The store must outlive it.
    explicit DoubtListModel(core::project::Store& store, QObject* parent = nullptr);
    ~DoubtListModel() override;

    /// These places in the items, row by row.
    void show(core::doubts::DoubtsPtr doubts, std::vector<std::size_t> places);
    /// Null where there is none.
    [[nodiscard]] const core::doubts::Doubted* itemAt(int row) const;
    /// -1 where it is not shown.
    [[nodiscard]] int rowOf(core::project::ShotId shot) const {
        return m_rowOfShot.value(shot.value, -1);
    }
    /// Looks once more for balls that were asked for and not there: pictures are kept while one
    /// works.
    void lookForBallsAgain();

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;

private:
    void tell(core::project::ShotId shot);
    [[nodiscard]] QVariant ballOf(const core::doubts::Doubted& item) const;
    [[nodiscard]] QString lineOf(const core::doubts::Doubted& item) const;

    core::project::SnapshotPtr m_snapshot;
    std::unique_ptr<const CellRates> m_rates;
    core::doubts::DoubtsPtr m_doubts;
    std::vector<std::size_t> m_places;
    QHash<qint64, int> m_rowOfShot;
    core::project::Store& m_store;
    reading::ShotFacts* m_facts;
    mutable std::set<core::project::ShotId> m_withoutBall;  ///< that somebody looked at
    std::shared_ptr<void> m_listening;                      // last: silent before the rest goes
};

}  // namespace ui::doubts
