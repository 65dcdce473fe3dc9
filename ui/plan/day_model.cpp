#include "ui/plan/day_model.h"

#include "core/base/words.h"
#include "ui/style/tokens.h"

namespace ui::plan {

using core::plan::Visit;

void DayModel::show(core::plan::Plan plan, core::plan::Schedule schedule) {
    beginResetModel();
    m_plan = std::move(plan);
    m_schedule = std::move(schedule);
    endResetModel();
}

int DayModel::rowCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : static_cast<int>(m_schedule.visits.size());
}

int DayModel::columnCount(const QModelIndex& parent) const {
    return parent.isValid() ? 0 : kColumnCount;
}

QVariant DayModel::data(const QModelIndex& index, int role) const {
    if (!index.isValid() || index.row() >= rowCount()) {
        return {};  // a view asks so for a copy when no row is chosen
    }
    const Visit& visit = m_schedule.visits[static_cast<std::size_t>(index.row())];
    const bool isRest = visit.kind == Visit::Kind::Rest;
    if (role == Qt::ForegroundRole && isRest) {
        return style::colour(style::Token::Quiet, style::programPalette());
    }
    if (role != Qt::DisplayRole) {
        return {};
    }
    switch (index.column()) {
        case kShots:
            if (isRest) {
                return tr("rest");
            }
            return visit.shots == 1 ? QString::number(visit.firstShot)
                                    : QStringLiteral("%1–%2")
                                          .arg(visit.firstShot)
                                          .arg(visit.firstShot + visit.shots - 1);
        case kHitter:
            return QString::fromStdString(m_plan.hitters[visit.hitter]);
        default:
            break;
    }
    if (isRest) {
        return QString::fromStdString(
            core::counted(static_cast<std::size_t>(m_plan.restMinutes), "minute", "minutes"));
    }
    const QString name =
        QString::fromStdString(core::plan::implementLabel(m_plan, visit.implement));
    return visit.isControl ? tr("%1, control").arg(name) : name;
}

QVariant DayModel::headerData(int section, Qt::Orientation orientation, int role) const {
    if (orientation == Qt::Vertical || role != Qt::DisplayRole) {
        return {};
    }
    switch (section) {
        case kShots:
            return tr("Shots");
        case kHitter:
            return tr("Hitter");
        default:
            return tr("Implement");
    }
}

}  // namespace ui::plan
