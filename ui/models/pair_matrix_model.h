#pragma once

#include <QAbstractTableModel>

#include "core/findings/findings.h"

namespace ui::models {

/// All pairs of a comparison as a square: row less column, in rpm, with a sign for the verdict; see
/// signsText(). Confined.
class PairMatrixModel : public QAbstractTableModel {
    Q_OBJECT

public:
    explicit PairMatrixModel(QObject* parent = nullptr);

    /// findings may be null: no rows. comparison must belong to findings.
    void show(const core::findings::FindingsPtr& findings,
              const core::findings::Comparison* comparison);
    /// What the signs mean, with or without a noticeable step.
    [[nodiscard]] static QString signsText(bool hasStep);
    /// Null on the diagonal.
    [[nodiscard]] const core::findings::PairFinding* pairAt(const QModelIndex& index) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    core::findings::FindingsPtr m_findings;  // keeps the comparison
    const core::findings::Comparison* m_comparison{};
};

}  // namespace ui::models
