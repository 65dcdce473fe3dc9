#pragma once

#include <QTableWidget>

#include "core/spin/uncertainty_budget.h"

namespace ui::reading {

/// The uncertainty budget of a reading, one row a contribution, as tall as its content.
class BudgetTable : public QTableWidget {
    Q_OBJECT

public:
    explicit BudgetTable(QWidget* parent = nullptr);
    void setBudget(const core::spin::UncertaintyBudget& budget);

    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void addRow(const core::spin::BudgetRow& row, const QString& unit);
    [[nodiscard]] int contentHeight() const;
};

}  // namespace ui::reading
