#include "ui/reading/shot/shot_groups.h"

#include "ui/reading/reading_look.h"
#include "ui/reading/shot/shot_list_model.h"

namespace ui::reading {

ShotGroups::ShotGroups(ShotListModel& shots, QObject* parent)
    : QAbstractListModel{parent}, m_shots{shots} {
    connect(&shots, &QAbstractItemModel::modelAboutToBeReset, this, [this] { beginResetModel(); });
    connect(&shots, &QAbstractItemModel::modelReset, this, [this] {
        rebuild();
        endResetModel();
    });
    connect(&shots, &QAbstractItemModel::dataChanged, this, &ShotGroups::onChanged);
    rebuild();
}

/// Without heads where these would be more than every third row.
void ShotGroups::rebuild() {
    constexpr std::size_t kFewestUnderAHead = 2;
    const auto shots = static_cast<std::size_t>(m_shots.rowCount());
    m_cells.resize(shots);
    m_rowOfShot.resize(shots);
    const auto begins = [&](std::size_t shot) {
        return shot == 0 || m_cells[shot] != m_cells[shot - 1];
    };
    std::size_t heads = 0;
    for (std::size_t shot = 0; shot < shots; ++shot) {
        m_cells[shot] = m_shots.cellAt(static_cast<int>(shot));
        heads += begins(shot) ? 1U : 0U;
    }
    m_isGrouped = m_shots.mayGroup() && shots > 0 && heads * kFewestUnderAHead <= shots;
    m_rows.clear();
    for (std::size_t shot = 0; shot < shots; ++shot) {
        if (m_isGrouped && begins(shot)) {
            m_rows.push_back({static_cast<int>(shot), true});
        }
        m_rowOfShot[shot] = static_cast<int>(m_rows.size());
        m_rows.push_back({static_cast<int>(shot), false});
    }
}

bool ShotGroups::isAnotherCell(int firstShot, int lastShot) const {
    for (int shot = firstShot; shot <= lastShot; ++shot) {
        if (m_shots.cellAt(shot) != m_cells[static_cast<std::size_t>(shot)]) {
            return true;
        }
    }
    return false;
}

void ShotGroups::onChanged(const QModelIndex& first, const QModelIndex& last) {
    if (!first.isValid() || !last.isValid()) {
        return;
    }
    if (isAnotherCell(first.row(), last.row())) {
        beginResetModel();
        rebuild();
        endResetModel();
        return;
    }
    const int from = headOf(m_rowOfShot[static_cast<std::size_t>(first.row())]);
    Q_EMIT dataChanged(index(from), index(m_rowOfShot[static_cast<std::size_t>(last.row())]));
}

int ShotGroups::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

std::optional<core::project::ShotId> ShotGroups::shotAt(int row) const {
    const auto at = static_cast<std::size_t>(row);
    return row < 0 || at >= m_rows.size() || m_rows[at].isHead
               ? std::nullopt
               : std::optional{m_shots.shotAt(m_rows[at].shot)};
}

int ShotGroups::rowOf(core::project::ShotId shot) const {
    const int row = m_shots.rowOf(shot);
    return row < 0 ? -1 : m_rowOfShot[static_cast<std::size_t>(row)];
}

int ShotGroups::headOf(int row) const {
    int head = row;
    while (m_isGrouped && head > 0 && !m_rows[static_cast<std::size_t>(head)].isHead) {
        --head;
    }
    return head;
}

Qt::ItemFlags ShotGroups::flags(const QModelIndex& index) const {
    const bool isHead = index.isValid() && !shotAt(index.row());
    return isHead ? Qt::ItemNeverHasChildren : QAbstractListModel::flags(index);
}

QVariant ShotGroups::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) {
        return {};
    }
    const Row& row = m_rows[static_cast<std::size_t>(index.row())];
    if (row.isHead) {
        return headData(row.shot, role);
    }
    const QModelIndex shot = m_shots.index(row.shot);
    if (role == IsHeadRole) {
        return false;
    }
    if (role == ShotListModel::CellRole && m_isGrouped) {  // the head has the name
        return nameOf(static_cast<ShotState>(shot.data(ShotListModel::StateRole).toInt()));
    }
    return shot.data(role);
}

QVariant ShotGroups::headData(int shot, int role) const {
    const auto head = m_shots.headAt(shot);
    const QString count = tr("%1 of %2").arg(head.decided).arg(head.shots);
    switch (role) {
        case IsHeadRole:
            return true;
        case ShotListModel::CellRole:
            return head.implement;
        case HitterRole:
            return head.hitter;
        case HitterPlaceRole:
            return static_cast<int>(head.hitterPlace);
        case CountRole:
            return count;
        case Qt::ToolTipRole:
        case Qt::AccessibleTextRole:
            return tr("%1: %2 decided").arg(head.name, count);
        default:
            return {};
    }
}

}  // namespace ui::reading
