#pragma once

#include <QAbstractTableModel>

#include "core/plan/schedule.h"

namespace ui::plan {

/// The order of the day, a row a visit, rests between them. Confined.
class DayModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { kShots, kHitter, kImplement, kColumnCount };

    using QAbstractTableModel::QAbstractTableModel;

    void show(core::plan::Plan plan, core::plan::Schedule schedule);

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    core::plan::Plan m_plan;
    core::plan::Schedule m_schedule;
};

}  // namespace ui::plan
