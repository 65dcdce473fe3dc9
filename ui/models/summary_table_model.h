#pragma once

#include <QAbstractTableModel>
#include <vector>

#include "core/report/summary.h"

namespace ui::models {

/// The per-implement summary as rows: each implement, then its hitters. Confined.
class SummaryTableModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column {
        kImplement,
        kCondition,
        kHitter,
        kCount,
        kMean,
        kDeviation,
        kInterval,
        kOpen,
        kAside,
        kColumnCount
    };
    enum Role { kSortRole = Qt::UserRole + 1, kImplementIdRole };

    explicit SummaryTableModel(QObject* parent = nullptr);

    void show(core::report::Summary summary);
    [[nodiscard]] const core::report::Summary& summary() const noexcept { return m_summary; }
    /// The kept shots behind a row.
    [[nodiscard]] std::vector<core::project::ShotId> shotsOf(int row) const;
    /// One sentence in plain words about a row.
    [[nodiscard]] QString sentenceOf(int row) const;
    [[nodiscard]] int rowOf(core::project::ImplementId implement,
                            std::optional<core::project::HitterId> hitter) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    /// One line of the table, whichever kind of row it stands for.
    struct Line {
        core::project::ImplementId implement;
        std::optional<core::project::HitterId> hitter;  ///< absent: all hitters together
        QString implementName;
        QString condition;
        QString hitterName;
        core::report::ShotCounts counts;
        std::optional<core::report::GroupMean> mean;
        std::vector<core::project::ShotId> shots;
    };
    [[nodiscard]] QVariant sortValue(const Line& line, int column) const;
    [[nodiscard]] QString textOf(const Line& line, int column) const;

    core::report::Summary m_summary;
    std::vector<Line> m_lines;
};

}  // namespace ui::models
