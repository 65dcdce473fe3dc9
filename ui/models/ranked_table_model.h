#pragma once

#include <QAbstractTableModel>
#include <optional>
#include <vector>

#include "core/findings/findings.h"

namespace ui::models {

/// The ranked table of one comparison: the implements by rank, then those that could not be
/// compared. Confined.
class RankedTableModel : public QAbstractTableModel {
    Q_OBJECT

public:
    enum Column {
        kRank,
        kImplement,
        kCount,
        kMean,
        kDeviation,
        kInterval,
        kBand,
        kLetters,
        kNotes,
        kColumnCount
    };
    enum Role { kSortRole = Qt::UserRole + 1, kImplementIdRole };

    explicit RankedTableModel(QObject* parent = nullptr);

    /// The comparison of one hitter, or of all together. findings may be null: no rows.
    void show(const core::findings::FindingsPtr& findings,
              std::optional<core::project::HitterId> hitter);
    /// The kept shots behind a row.
    [[nodiscard]] std::vector<core::project::ShotId> shotsOf(int row) const;
    [[nodiscard]] core::project::ImplementId implementOf(int row) const;
    /// What is said of a row in plain words.
    [[nodiscard]] QString sentenceOf(int row) const;
    /// -1 when it is not in the table.
    [[nodiscard]] int rowOf(core::project::ImplementId implement) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    /// One line of the table, compared or left out.
    struct Line {
        core::project::ImplementId implement;
        const core::findings::RankedImplement* ranked{};  ///< null when left out
        QString name;
        QString sentence;
        QString notes;
    };
    [[nodiscard]] QString textOf(const Line& line, int column) const;
    [[nodiscard]] QVariant sortValue(const Line& line, int column, int row) const;

    core::findings::FindingsPtr m_findings;  // keeps what the lines point at
    std::optional<core::project::HitterId> m_hitter;
    std::vector<Line> m_lines;
};

}  // namespace ui::models
