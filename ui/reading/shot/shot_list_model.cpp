#include "ui/reading/shot/shot_list_model.h"

#include <algorithm>

#include "core/project/shuffled_order.h"
#include "ui/reading/reading_look.h"

namespace ui::reading {

using core::project::Shot;
using core::project::ShotId;

ShotListModel::ShotListModel(const core::project::Store& store, QObject* parent)
    : QAbstractListModel{parent}, m_store{store} {
    rebuild();
}

bool ShotListModel::passes(Filter filter, const Shot& shot) {
    switch (filter) {
        case Filter::All:
            return true;
        case Filter::Unread:
            return shot.standing == core::project::ShotStanding::Open;
        case Filter::Doubtful:
            return shot.doubtful;
    }
    return true;
}

void ShotListModel::setFilter(Filter filter) {
    if (filter != m_filter) {
        m_filter = filter;
        rebuild();
    }
}

void ShotListModel::setNamesHidden(bool hidden) {
    if (hidden != m_areNamesHidden) {
        m_areNamesHidden = hidden;
        rebuild();
    }
}

void ShotListModel::rebuild() {
    beginResetModel();
    m_snapshot = m_store.snapshot();
    m_order.clear();
    m_rows.clear();
    for (const Shot* shot :
         m_areNamesHidden ? shotsShuffled(*m_snapshot) : shotsInOrder(*m_snapshot)) {
        if (passes(m_filter, *shot)) {
            m_rows.push_back(m_order.size());
        }
        m_order.push_back(shot->id);
    }
    endResetModel();
}

void ShotListModel::update(const core::project::Store::Change& change) {
    const bool sameRows = m_filter == Filter::All && !change.allShots && !change.clips &&
                          change.snapshot->shots.size() == m_order.size();
    const bool touchesRows = !change.shots.empty() || change.allShots || change.clips;
    if (!sameRows && touchesRows) {
        rebuild();
        return;
    }
    m_snapshot = change.snapshot;
    if (change.structure) {
        Q_EMIT dataChanged(index(0), index(rowCount() - 1));
    }
    for (const ShotId shot : change.shots) {
        if (const int row = rowOf(shot); row >= 0) {
            Q_EMIT dataChanged(index(row), index(row));
        }
    }
}

int ShotListModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

ShotId ShotListModel::shotAt(int row) const {
    return m_order[m_rows[static_cast<std::size_t>(row)]];
}

int ShotListModel::rowOf(ShotId shot) const {
    const auto found = std::find_if(m_rows.begin(), m_rows.end(),
                                    [&](std::size_t at) { return m_order[at] == shot; });
    return found == m_rows.end() ? -1 : static_cast<int>(found - m_rows.begin());
}

std::optional<ShotId> ShotListModel::neighbour(ShotId shot, int step) const {
    const auto found = std::find(m_order.begin(), m_order.end(), shot);
    const auto position = static_cast<std::size_t>(found - m_order.begin());
    if (step > 0) {
        const auto after = std::upper_bound(m_rows.begin(), m_rows.end(), position);
        return after == m_rows.end() ? std::nullopt : std::optional{m_order[*after]};
    }
    const auto here = std::lower_bound(m_rows.begin(), m_rows.end(), position);
    return here == m_rows.begin() ? std::nullopt : std::optional{m_order[*(here - 1)]};
}

std::optional<ShotId> ShotListModel::nextOf(Filter kind, ShotId shot) const {
    const auto found = std::find(m_order.begin(), m_order.end(), shot);
    const auto start = static_cast<std::size_t>(found - m_order.begin());
    for (std::size_t step = 1; step < m_order.size(); ++step) {
        const ShotId other = m_order[(start + step) % m_order.size()];
        const Shot* candidate = m_snapshot->shots.find(other);
        if (candidate != nullptr && passes(kind, *candidate)) {
            return other;
        }
    }
    return std::nullopt;
}

QString ShotListModel::cellOf(const Shot& shot) const {
    if (m_areNamesHidden) {
        return tr("hidden");
    }
    return shot.cell ? QString::fromStdString(cellName(*m_snapshot, *shot.cell))
                     : tr("not assigned");
}

QString ShotListModel::toolTipOf(const Shot& shot) const {
    if (m_areNamesHidden) {
        return tr("%1\nImplement, hitter and clip are hidden").arg(nameOf(stateOf(shot)));
    }
    const auto* clip = m_snapshot->clips.find(shot.clip);
    const QString file = clip != nullptr ? QString::fromStdString(clip->path) : QString{};
    return tr("%1 · %2\nshot %3 of %4")
        .arg(cellOf(shot), nameOf(stateOf(shot)))
        .arg(shot.ordinal)
        .arg(file);
}

QVariant ShotListModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid()) {
        return {};
    }
    const std::size_t position = m_rows[static_cast<std::size_t>(index.row())];
    const Shot* shot = m_snapshot->shots.find(m_order[position]);
    if (shot == nullptr) {
        return {};
    }
    const QString number =
        QStringLiteral("%1").arg(static_cast<int>(position) + 1, 3, 10, QLatin1Char('0'));
    switch (role) {
        case StateRole:
            return static_cast<int>(stateOf(*shot));
        case NumberRole:
            return number;
        case CellRole:
            return m_areNamesHidden ? nameOf(stateOf(*shot)) : cellOf(*shot);
        case Qt::DisplayRole:
        case Qt::AccessibleTextRole:
            return tr("%1 %2, %3").arg(number, cellOf(*shot), nameOf(stateOf(*shot)));
        case Qt::ToolTipRole:
            return toolTipOf(*shot);
        default:
            return {};
    }
}

}  // namespace ui::reading
