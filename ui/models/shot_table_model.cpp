#include "ui/models/shot_table_model.h"

#include <algorithm>

#include "core/base/words.h"
#include "core/findings/ball_speed.h"
#include "core/report/number_format.h"
#include "ui/models/clip_words.h"
#include "ui/models/plain_tip.h"
#include "ui/models/spin_unit.h"

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
        return tr("not assigned");
    }
    const auto* cell = m_snapshot->cells.find(*shot.cell);
    const auto* hitter = cell == nullptr ? nullptr : m_snapshot->hitters.find(cell->hitter);
    return QString::fromStdString(m_areOfOne && hitter != nullptr
                                      ? hitter->name
                                      : core::project::cellName(*m_snapshot, *shot.cell));
}

const core::reading::ShotFlight* ShotTableModel::flightOf(const Shot& shot) const {
    const auto* reading = shot.counting ? m_snapshot->readings.find(*shot.counting) : nullptr;
    if (reading == nullptr) {
        return nullptr;
    }
    auto known = m_flights.find(reading->id);
    if (known == m_flights.end()) {
        known = m_flights.emplace(reading->id, core::findings::flightOf(*reading)).first;
    }
    return known->second ? &*known->second : nullptr;
}

std::vector<core::reading::ShotFlight> ShotTableModel::flights() const {
    std::vector<core::reading::ShotFlight> all;
    for (const ShotId id : m_shots) {
        const Shot* shot = m_snapshot->shots.find(id);
        const bool isKept = shot != nullptr && shot->standing == core::project::ShotStanding::Kept;
        if (const auto* flight = isKept ? flightOf(*shot) : nullptr) {
            all.push_back(*flight);
        }
    }
    return all;
}

QString ShotTableModel::flightText(const Shot& shot, std::size_t number) const {
    const auto* flight = flightOf(shot);
    if (flight == nullptr) {
        return QStringLiteral("–");
    }
    const auto shown = core::words::numbersOf(*flight).at(number);
    return QString::fromStdString(core::report::plusMinus(shown.value, shown.sigma));
}

QString ShotTableModel::textOf(const Shot& shot, int column) const {
    if (column >= kFlight) {
        return flightText(shot, static_cast<std::size_t>(column - kFlight));
    }
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
                    return shot.doubtful ? tr("to read, doubtful") : tr("to read");
                case core::project::ShotStanding::Kept:
                    return shot.doubtful ? tr("kept, doubtful") : tr("kept");
                case core::project::ShotStanding::SetAside:
                    return tr("set aside: %1").arg(QString::fromStdString(shot.reason));
            }
            return {};
        case kNote:
            return QString::fromStdString(shot.note);
        default:
            return {};
    }
}

/// The spin in the other unit that the person chose, for the tip.
QString ShotTableModel::otherUnitOf(const Shot& shot, int column) const {
    const auto* reading =
        column == kRate && shot.counting ? m_snapshot->readings.find(*shot.counting) : nullptr;
    const QString other =
        reading != nullptr ? besideRpm(reading->rate.value, reading->rate.sigma) : QString{};
    return other.isEmpty() ? other : QLatin1Char{'\n'} + other;
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
        return role == Qt::DisplayRole ? text : plainTip(text + otherUnitOf(*shot, index.column()));
    }
    if (role == Qt::TextAlignmentRole) {
        const bool isNumber = index.column() == kFrames || index.column() == kRate ||
                              index.column() >= kFlight ||
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
    if (section >= kFlight && section < kColumnCount) {
        const auto number =
            core::words::numbersOf({}).at(static_cast<std::size_t>(section - kFlight));
        const auto words = [](std::string_view text) {
            return QString::fromStdString(core::saidText(text));
        };
        return number.unit.empty()
                   ? words(number.title)
                   : QStringLiteral("%1, %2").arg(words(number.title), words(number.unit));
    }
    static const QStringList kHeaders{tr("Shot"),      tr("Frames"), tr("Implement · hitter"),
                                      tr("Spin, rpm"), tr("State"),  tr("Note")};
    return section == kCell && m_areOfOne ? tr("Hitter") : kHeaders.value(section);
}

}  // namespace ui::models
