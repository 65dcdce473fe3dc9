#include "ui/models/clip_table_model.h"

#include <algorithm>

#include "core/base/words.h"
#include "ui/models/clip_words.h"
#include "ui/models/number_text.h"

namespace ui::models {

using core::project::Clip;
using core::project::ClipId;

ClipTableModel::ClipTableModel(core::project::SnapshotPtr snapshot, QObject* parent)
    : QAbstractTableModel{parent}, m_snapshot{std::move(snapshot)} {
    countShots();
    chooseRows();
}

void ClipTableModel::update(core::project::SnapshotPtr snapshot) {
    const auto before = m_snapshot;
    const auto rowsBefore = m_rows;
    m_snapshot = std::move(snapshot);
    countShots();
    chooseRows();
    const bool areSame =
        std::equal(rowsBefore.begin(), rowsBefore.end(), m_rows.begin(), m_rows.end(),
                   [&](std::size_t was, std::size_t is) {
                       return (before->clips.begin() + static_cast<std::ptrdiff_t>(was))->id ==
                              (m_snapshot->clips.begin() + static_cast<std::ptrdiff_t>(is))->id;
                   });
    if (!areSame) {
        beginResetModel();
        endResetModel();
    } else if (rowCount() > 0) {
        Q_EMIT dataChanged(index(0, 0), index(rowCount() - 1, kColumnCount - 1));
    }
}

void ClipTableModel::show(Show kind, const QString& words) {
    beginResetModel();
    m_kind = kind;
    m_words = words.split(QLatin1Char(' '), Qt::SkipEmptyParts);
    chooseRows();
    endResetModel();
}

int ClipTableModel::count(Show kind) const {
    return static_cast<int>(std::count_if(m_snapshot->clips.begin(), m_snapshot->clips.end(),
                                          [&](const Clip& clip) { return isOf(clip, kind); }));
}

void ClipTableModel::tellRemarks() {
    if (m_kind == Show::ToSettle) {
        update(m_snapshot);
    } else if (rowCount() > 0) {
        Q_EMIT dataChanged(index(0, kRemarks), index(rowCount() - 1, kRemarks));
    }
}

void ClipTableModel::setMissing(std::set<ClipId> clips) {
    if (clips != m_missing) {
        m_missing = std::move(clips);
        tellRemarks();
    }
}

void ClipTableModel::setDifferent(std::map<ClipId, std::string> clips) {
    if (clips != m_different) {
        m_different = std::move(clips);
        tellRemarks();
    }
}

void ClipTableModel::countShots() {
    m_shots.clear();
    for (const auto& shot : m_snapshot->shots) {
        ClipShots& of = m_shots[shot.clip];
        const Clip* clip = m_snapshot->clips.find(shot.clip);
        const auto partOf = [clip](core::timebase::FrameIndex frame) {
            const auto frames = clip == nullptr ? 1 : std::max<std::int64_t>(1, clip->frameCount);
            return static_cast<double>(frame.value) / static_cast<double>(frames);
        };
        of.flights.push_back(
            {partOf(shot.strikeFrame.value_or(shot.firstFrame)), partOf(shot.lastFrame)});
        if (shot.cell) {
            of.cells.insert(*shot.cell);
        } else {
            of.hasLooseShot = true;
        }
    }
}

void ClipTableModel::chooseRows() {
    m_rows.clear();
    for (std::size_t place = 0; place < m_snapshot->clips.size(); ++place) {
        const Clip& clip = *(m_snapshot->clips.begin() + static_cast<std::ptrdiff_t>(place));
        const QString all = clipName(clip) + QLatin1Char(' ') + cellsOf(clip);
        const bool hasWords = std::all_of(m_words.begin(), m_words.end(), [&](const QString& word) {
            return all.contains(word, Qt::CaseInsensitive);
        });
        if (hasWords && isOf(clip, m_kind)) {
            m_rows.push_back(place);
        }
    }
}

const Clip& ClipTableModel::at(int row) const {
    return *(m_snapshot->clips.begin() +
             static_cast<std::ptrdiff_t>(m_rows.at(static_cast<std::size_t>(row))));
}

ClipId ClipTableModel::clipAt(int row) const {
    return at(row).id;
}

int ClipTableModel::rowOf(ClipId clip) const {
    for (int row = 0; row < rowCount(); ++row) {
        if (at(row).id == clip) {
            return row;
        }
    }
    return -1;
}

int ClipTableModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_rows.size());
}

int ClipTableModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : kColumnCount;
}

const ClipTableModel::ClipShots& ClipTableModel::shotsOf(const Clip& clip) const {
    static const ClipShots kNone;
    const auto found = m_shots.find(clip.id);
    return found == m_shots.end() ? kNone : found->second;
}

ClipTableModel::Standing ClipTableModel::standingOf(const Clip& clip) const {
    if (m_missing.contains(clip.id)) {
        return Standing::Grave;
    }
    const auto remarks = allRemarks(clip);
    if ((!clip.clock && !isTally(clip)) || std::any_of(remarks.begin(), remarks.end(), isWarning)) {
        return Standing::Question;
    }
    return m_different.contains(clip.id) || !remarks.empty() ? Standing::Note : Standing::Fine;
}

bool ClipTableModel::isOf(const Clip& clip, Show kind) const {
    switch (kind) {
        case Show::All:
            return true;
        case Show::NotAssigned:
            return shotsOf(clip).hasLooseShot;
        case Show::ToSettle:
            return standingOf(clip) >= Standing::Question;
    }
    return true;
}

QString ClipTableModel::lengthOf(const Clip& clip) const {
    const QString shots =
        QString::fromStdString(core::counted(shotsOf(clip).flights.size(), "shot", "shots"));
    const auto fps = captureFps(clip);
    const QString length = fps ? QStringLiteral("%1 s").arg(numberText(
                                     static_cast<double>(clip.frameCount) / *fps, 'f', 1))
                               : QString::fromStdString(core::counted(
                                     static_cast<std::size_t>(clip.frameCount), "frame", "frames"));
    return QStringLiteral("%1 · %2").arg(shots, length);
}

QString ClipTableModel::cellsOf(const Clip& clip) const {
    const ClipShots& shots = shotsOf(clip);
    if (shots.flights.empty()) {
        return {};
    }
    if (shots.cells.empty()) {
        return tr("not assigned");
    }
    if (shots.cells.size() > 1) {
        return QString::fromStdString(core::counted(shots.cells.size(), "cell", "cells"));
    }
    const QString name =
        QString::fromStdString(core::project::cellName(*m_snapshot, *shots.cells.begin()));
    return shots.hasLooseShot ? tr("%1, partly").arg(name) : name;
}

ClipTableModel::Row ClipTableModel::rowAt(int row) const {
    const Clip& clip = at(row);
    const ClipShots& shots = shotsOf(clip);
    Row shown{.clip = clip.id,
              .length = lengthOf(clip),
              .rate = captureRateText(clip),
              .rateSource = clip.clock ? clockKindText(clip) : clockSourceText(clip),
              .isClockKnown = clip.clock.has_value(),
              .implement = cellsOf(clip),
              .hitter = {},
              .hitterPlace = 0,
              .flights = shots.flights,
              .standing = standingOf(clip)};
    const auto* cell =
        shots.cells.size() == 1 ? m_snapshot->cells.find(*shots.cells.begin()) : nullptr;
    const auto* hitter = cell == nullptr ? nullptr : m_snapshot->hitters.find(cell->hitter);
    if (hitter != nullptr) {
        shown.implement =
            QString::fromStdString(core::project::implementName(*m_snapshot, cell->implement));
        shown.hitter = QString::fromStdString(hitter->name);
        if (shots.hasLooseShot) {
            shown.hitter = tr("%1, partly").arg(shown.hitter);
        }
        shown.hitterPlace = static_cast<std::size_t>(
            std::find_if(m_snapshot->hitters.begin(), m_snapshot->hitters.end(),
                         [hitter](const auto& each) { return each.id == hitter->id; }) -
            m_snapshot->hitters.begin());
    }
    return shown;
}

QString ClipTableModel::textOf(const Clip& clip, int column) const {
    switch (column) {
        case kName:
            return clipName(clip);
        case kCaptured: {
            const QString kind = clockKindText(clip);
            return kind.isEmpty() ? captureRateText(clip)
                                  : captureRateText(clip) + QStringLiteral(", ") + kind;
        }
        case kShots:
            return QString::number(shotsOf(clip).flights.size());
        case kCells:
            return cellsOf(clip);
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

QString ClipTableModel::tipOf(const Clip& clip) const {
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

QVariant ClipTableModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};
    }
    const Clip& clip = at(index.row());
    switch (role) {
        case Qt::DisplayRole:
            return textOf(clip, index.column());
        case Qt::AccessibleTextRole:
            return index.column() == kName
                       ? QVariant{textOf(clip, kName) + QStringLiteral(", ") + lengthOf(clip)}
                       : QVariant{};
        case Qt::TextAlignmentRole:
            return QVariant::fromValue<Qt::Alignment>(
                (index.column() == kShots ? Qt::AlignRight : Qt::AlignLeft) | Qt::AlignVCenter);
        case Qt::ToolTipRole:
            return tipOf(clip);
        default:
            return {};
    }
}

QVariant ClipTableModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation != Qt::Horizontal || role != Qt::DisplayRole) {
        return {};
    }
    static const QStringList kHeaders{tr("Clip"), tr("Captured at"), tr("Shots"),
                                      tr("Implement · hitter"), tr("Remarks")};
    return kHeaders.value(section);
}

}  // namespace ui::models
