#include "ui/models/shot_table_model.h"

#include <algorithm>

#include "core/report/number_format.h"
#include "ui/models/clip_words.h"
#include "ui/models/plain_tip.h"

namespace ui::models {

using core::project::Shot;
using core::project::ShotId;

ShotTableModel::ShotTableModel(core::project::SnapshotPtr snapshot, QObject* parent)
    : QAbstractTableModel{parent}, m_snapshot{std::move(snapshot)} {}

void ShotTableModel::update(core::project::SnapshotPtr snapshot) {
    m_snapshot = std::move(snapshot);
    refresh();
}

void ShotTableModel::showClip(std::optional<core::project::ClipId> clip) {
    m_clip = clip;
    m_areOfOne = false;
    m_wanted.clear();
    refresh();
}

void ShotTableModel::showShots(std::vector<ShotId> shots, bool areOfOne) {
    m_clip.reset();
    if (m_areOfOne != areOfOne) {
        m_areOfOne = areOfOne;
        Q_EMIT headerDataChanged(Qt::Horizontal, kCell, kCell);
    }
    m_wanted = std::move(shots);
    refresh();
}

void ShotTableModel::refresh() {
    std::vector<ShotId> shown;
    if (m_clip) {
        for (const Shot* shot : core::project::shotsOfClip(*m_snapshot, *m_clip)) {
            shown.push_back(shot->id);
        }
    } else {
        std::copy_if(m_wanted.begin(), m_wanted.end(), std::back_inserter(shown),
                     [this](ShotId id) { return m_snapshot->shots.find(id) != nullptr; });
    }
    if (shown == m_shots && !shown.empty()) {
        Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, kColumnCount - 1));
        return;
    }
    beginResetModel();
    m_shots = std::move(shown);
    endResetModel();
}

ShotId ShotTableModel::shotAt(int row) const {
    return m_shots.at(static_cast<std::size_t>(row));
}

int ShotTableModel::rowOf(ShotId shot) const {
    const auto at = std::find(m_shots.begin(), m_shots.end(), shot);
    return at == m_shots.end() ? -1 : static_cast<int>(at - m_shots.begin());
}

int ShotTableModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_shots.size());
}

int ShotTableModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : kColumnCount;
}

QString ShotTableModel::whoseOf(const Shot& shot) const {
    if (!shot.cell) {
        return QStringLiteral("not assigned");
    }
    const auto* cell = m_snapshot->cells.find(*shot.cell);
    const auto* hitter = cell == nullptr ? nullptr : m_snapshot->hitters.find(cell->hitter);
    return QString::fromStdString(m_areOfOne && hitter != nullptr
                                      ? hitter->name
                                      : core::project::cellName(*m_snapshot, *shot.cell));
}

QString ShotTableModel::textOf(const Shot& shot, int column) const {
    switch (column) {
        case kShot: {
            const auto* clip = m_snapshot->clips.find(shot.clip);
            const QString number = QString::number(shot.ordinal);
            return m_clip || clip == nullptr ? number
                                             : clipName(*clip) + QStringLiteral(" · ") + number;
        }
        case kFrames:
            return QStringLiteral("%1–%2").arg(shot.firstFrame.value).arg(shot.lastFrame.value);
        case kCell:
            return whoseOf(shot);
        case kRate: {
            const auto* reading =
                shot.counting ? m_snapshot->readings.find(*shot.counting) : nullptr;
            return reading == nullptr ? QStringLiteral("–")
                                      : QString::fromStdString(core::report::plusMinus(
                                            reading->rate.value.rpm, reading->rate.sigma.rpm));
        }
        case kStanding:
            switch (shot.standing) {
                case core::project::ShotStanding::Open:
                    return shot.doubtful ? QStringLiteral("to read, doubtful")
                                         : QStringLiteral("to read");
                case core::project::ShotStanding::Kept:
                    return shot.doubtful ? QStringLiteral("kept, doubtful")
                                         : QStringLiteral("kept");
                case core::project::ShotStanding::SetAside:
                    return QStringLiteral("set aside: ") + QString::fromStdString(shot.reason);
            }
            return {};
        default:
            return {};
    }
}

QVariant ShotTableModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const Shot* shot = m_snapshot->shots.find(shotAt(index.row()));
    if (shot == nullptr) {
        return {};
    }
    if (role == Qt::DisplayRole || role == Qt::ToolTipRole) {
        const QString text = textOf(*shot, index.column());
        return role == Qt::DisplayRole ? text : plainTip(text);
    }
    if (role == Qt::TextAlignmentRole) {
        const bool isNumber = index.column() == kFrames || index.column() == kRate ||
                              (index.column() == kShot && m_clip.has_value());
        return QVariant::fromValue<Qt::Alignment>((isNumber ? Qt::AlignRight : Qt::AlignLeft) |
                                                  Qt::AlignVCenter);
    }
    return {};
}

QVariant ShotTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return {};
    }
    static const QStringList kHeaders{QStringLiteral("Shot"), QStringLiteral("Frames"),
                                      QStringLiteral("Implement · hitter"),
                                      QStringLiteral("Spin, rpm"), QStringLiteral("State")};
    return section == kCell && m_areOfOne ? QStringLiteral("Hitter") : kHeaders.value(section);
}

}  // namespace ui::models
