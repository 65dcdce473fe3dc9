#pragma once

#include <QAbstractListModel>
#include <optional>
#include <vector>

#include "core/project/snapshot.h"

namespace ui::reading {

class ShotListModel;

/// The rows of a shot list as they are shown: in the order of the film the shots that follow each
/// other in a cell stand under a head with its whole name and how many of its shots are decided.
/// In other orders, while names are hidden, and where cells change with almost every shot, the
/// shots stand alone. Row data: as ShotListModel, and the roles below.
class ShotGroups : public QAbstractListModel {
    Q_OBJECT

public:
    /// Of a head. HitterPlaceRole: among the hitters of the project. CountRole: "3 of 6".
    enum HeadRole { IsHeadRole = Qt::UserRole + 100, HitterRole, HitterPlaceRole, CountRole };

    /// The shots must outlive it.
    explicit ShotGroups(ShotListModel& shots, QObject* parent = nullptr);

    [[nodiscard]] int rowCount(const QModelIndex& parent = {}) const override;
    [[nodiscard]] QVariant data(const QModelIndex& index, int role) const override;
    /// Heads are not chosen.
    [[nodiscard]] Qt::ItemFlags flags(const QModelIndex& index) const override;
    /// Absent for a head.
    [[nodiscard]] std::optional<core::project::ShotId> shotAt(int row) const;
    /// -1 when it is not shown.
    [[nodiscard]] int rowOf(core::project::ShotId shot) const;
    /// The head above a row of a shot; the row itself where it stands alone.
    [[nodiscard]] int headOf(int row) const;

private:
    struct Row {
        int shot{};  ///< of the shots; of a head the first one below it
        bool isHead{false};
    };
    void rebuild();
    [[nodiscard]] bool isAnotherCell(int firstShot, int lastShot) const;
    [[nodiscard]] QVariant headData(int shot, int role) const;
    void onChanged(const QModelIndex& first, const QModelIndex& last);

    ShotListModel& m_shots;
    std::vector<Row> m_rows;
    std::vector<int> m_rowOfShot;                               ///< by row of the shots
    std::vector<std::optional<core::project::CellId>> m_cells;  ///< the same
    bool m_isGrouped{false};
};

}  // namespace ui::reading
