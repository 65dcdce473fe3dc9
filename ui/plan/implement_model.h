#pragma once

#include <QAbstractTableModel>

#include "core/plan/plan.h"

namespace ui::plan {

class PlanDesk;

/// The planned implements as an editable table: name, condition, then the tester's own columns. The
/// last row is empty: a name typed there adds an implement. Confined.
class ImplementModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column { kName, kCondition, kFirstAttribute };

    explicit ImplementModel(PlanDesk& desk, QObject* parent = nullptr);

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;
    Qt::ItemFlags flags(const QModelIndex& index) const override;
    bool setData(const QModelIndex& index, const QVariant& value, int role) override;

    /// Takes these implements out of the plan. The control moves with its implement, or goes.
    void removeImplements(std::vector<std::size_t> rows);

private:
    void refresh();

    PlanDesk& m_desk;
    std::vector<core::plan::PlannedImplement> m_implements;
    std::vector<std::string> m_attributes;
    std::optional<std::size_t> m_control;
};

}  // namespace ui::plan
