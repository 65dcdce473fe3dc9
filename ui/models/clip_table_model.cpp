#include "ui/models/clip_table_model.h"

#include <algorithm>

#include "core/base/words.h"
#include "ui/models/clip_words.h"

namespace ui::models {

using core::project::Clip;
using core::project::ClipId;

ClipTableModel::ClipTableModel(core::project::SnapshotPtr snapshot, QObject* parent)
    : QAbstractTableModel{parent}, m_snapshot{std::move(snapshot)} {
    countShots();
}

void ClipTableModel::update(core::project::SnapshotPtr snapshot) {
    const auto& before = m_snapshot->clips;
    const bool sameClips =
        std::equal(before.begin(), before.end(), snapshot->clips.begin(), snapshot->clips.end(),
                   [](const Clip& a, const Clip& b) { return a.id == b.id; });
    if (!sameClips) {
        beginResetModel();
    }
    m_snapshot = std::move(snapshot);
    countShots();
    if (!sameClips) {
        endResetModel();
    } else if (rowCount() > 0) {
        Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, kColumnCount - 1));
    }
}

void ClipTableModel::setMissing(std::set<ClipId> clips) {
    if (clips != m_missing) {
        m_missing = std::move(clips);
        if (rowCount() > 0) {
            Q_EMIT dataChanged(index(0, kRemarks), index(rowCount() - 1, kRemarks));
        }
    }
}

void ClipTableModel::setDifferent(std::map<ClipId, std::string> clips) {
    if (clips != m_different) {
        m_different = std::move(clips);
        if (rowCount() > 0) {
            Q_EMIT dataChanged(index(0, kRemarks), index(rowCount() - 1, kRemarks));
        }
    }
}

void ClipTableModel::countShots() {
    m_shots.clear();
    for (const auto& shot : m_snapshot->shots) {
        ClipShots& of = m_shots[shot.clip];
        ++of.count;
        if (shot.cell) {
            of.cells.insert(*shot.cell);
        } else {
            of.hasLooseShot = true;
        }
    }
}

ClipId ClipTableModel::clipAt(int row) const {
    return (m_snapshot->clips.begin() + row)->id;
}

int ClipTableModel::rowOf(ClipId clip) const {
    const auto at = std::find_if(m_snapshot->clips.begin(), m_snapshot->clips.end(),
                                 [clip](const Clip& c) { return c.id == clip; });
    return at == m_snapshot->clips.end() ? -1 : static_cast<int>(at - m_snapshot->clips.begin());
}

int ClipTableModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_snapshot->clips.size());
}

int ClipTableModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : kColumnCount;
}

QString ClipTableModel::cellsOf(ClipId clip) const {
    const auto found = m_shots.find(clip);
    if (found == m_shots.end()) {
        return {};
    }
    if (found->second.cells.empty()) {
        return tr("not assigned");
    }
    if (found->second.cells.size() > 1) {
        return QString::fromStdString(core::counted(found->second.cells.size(), "cell", "cells"));
    }
    const QString name =
        QString::fromStdString(core::project::cellName(*m_snapshot, *found->second.cells.begin()));
    return found->second.hasLooseShot ? tr("%1, partly").arg(name) : name;
}

QString ClipTableModel::textOf(const Clip& clip, int column) const {
    switch (column) {
        case kName:
            return clipName(clip);
        case kLength:
            return QString::number(clip.frameCount);
        case kPlays:
            return clip.playbackRate ? shortDecimal(clip.playbackRate->fps.toDouble())
                                     : QStringLiteral("–");
        case kCaptured: {
            const QString kind = clockKindText(clip);
            return kind.isEmpty() ? captureRateText(clip)
                                  : captureRateText(clip) + QStringLiteral(", ") + kind;
        }
        case kShots: {
            const auto found = m_shots.find(clip.id);
            return QString::number(found == m_shots.end() ? 0 : found->second.count);
        }
        case kCells:
            return cellsOf(clip.id);
        case kRemarks: {
            if (m_missing.contains(clip.id)) {
                return tr("file not found");
            }
            if (m_different.contains(clip.id)) {
                return tr("differs from the day");
            }
            const auto remarks = allRemarks(clip);
            const auto warnings = std::count_if(remarks.begin(), remarks.end(), isWarning);
            return warnings == 0 ? QStringLiteral("–") : tr("%1 to check").arg(warnings);
        }
        default:
            return {};
    }
}

QVariant ClipTableModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const Clip& clip = *(m_snapshot->clips.begin() + index.row());
    switch (role) {
        case Qt::DisplayRole:
            return textOf(clip, index.column());
        case Qt::TextAlignmentRole: {
            const bool isNumber =
                index.column() == kLength || index.column() == kPlays || index.column() == kShots;
            return QVariant::fromValue<Qt::Alignment>((isNumber ? Qt::AlignRight : Qt::AlignLeft) |
                                                      Qt::AlignVCenter);
        }
        case Qt::ToolTipRole: {
            QStringList lines{QString::fromStdString(clip.path)};
            if (m_missing.contains(clip.id)) {
                lines << tr(
                    "The file is not there. Add the folder that it is in now, or press \"Show "
                    "where it is…\"");
            }
            if (const auto differs = m_different.find(clip.id); differs != m_different.end()) {
                lines << QString::fromStdString(differs->second);
            }
            for (const auto& remark : allRemarks(clip)) {
                lines << QString::fromStdString(remark.message);
            }
            return lines.join(QLatin1Char('\n'));
        }
        case kClipIdRole:
            return QVariant::fromValue(static_cast<qlonglong>(clip.id.value));
        default:
            return {};
    }
}

QVariant ClipTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return {};
    }
    static const QStringList kHeaders{tr("Clip"),        tr("Frames"), tr("Plays at, frames/s"),
                                      tr("Captured at"), tr("Shots"),  tr("Implement · hitter"),
                                      tr("Remarks")};
    return kHeaders.value(section);
}

}  // namespace ui::models
