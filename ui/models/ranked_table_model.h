#pragma once

#include <QAbstractTableModel>
#include <map>
#include <optional>
#include <vector>

#include "core/findings/findings.h"

namespace ui::models {

/// How much a remark of a row weighs.
enum class RemarkKind { None, Note, Question, Grave };

/// What is open about the shots and cells of an implement.
struct OpenDoubts {
    int count{};
    RemarkKind worst{RemarkKind::None};
};

/// A mean on the axis that all rows share: the row's own, or one hitter's.
struct RankedMark {
    std::optional<core::project::HitterId> hitter{};  ///< absent: the row's own
    std::size_t series{};                             ///< of the hitter: core/report/series_look.h
    double meanRpm{};
    const core::findings::Estimate* estimate{};  ///< null: too few shots for an interval
};
struct RankedMarks {
    std::optional<RankedMark> own;
    std::vector<RankedMark> hitters;
};

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
        kChart,  ///< the marks
        kBand,
        kAlike,  ///< no difference shown from the chosen row
        kLetters,
        kRemarks,
        kColumnCount
    };
    enum Role {
        kSortRole = Qt::UserRole + 1,
        kImplementIdRole,
        kRangeRole,       ///< of kRank: the ranks that the readings allow, "2–5"; else empty
        kRemarkKindRole,  ///< of kRemarks: a RemarkKind
        kConditionRole,
        kBandRole
    };

    explicit RankedTableModel(QObject* parent = nullptr);

    /// The comparison of one hitter, or of all together. findings may be null: no rows.
    void show(const core::findings::FindingsPtr& findings,
              std::optional<core::project::HitterId> hitter);
    /// The row that the others are held against in kAlike.
    void setChosen(std::optional<core::project::ImplementId> implement);
    void setOpenDoubts(std::map<core::project::ImplementId, OpenDoubts> doubts);

    /// The kept shots behind a row.
    [[nodiscard]] std::vector<core::project::ShotId> shotsOf(int row) const;
    [[nodiscard]] core::project::ImplementId implementOf(int row) const;
    /// What is said of a row in plain words.
    [[nodiscard]] QString sentenceOf(int row) const;
    [[nodiscard]] const RankedMarks& marksOf(int row) const;
    /// Null where the implement could not be compared.
    [[nodiscard]] const core::findings::RankedImplement* rankedOf(int row) const;
    /// "name, hitter A: 1570 rpm (1540 to 1600)", or why there is no interval.
    [[nodiscard]] QString wordsOf(int row, const RankedMark& mark) const;
    /// In the order of their series; empty where the hitters are not told apart.
    [[nodiscard]] QStringList hitterNames() const;
    /// -1 when it is not in the table.
    [[nodiscard]] int rowOf(core::project::ImplementId implement) const;

    int rowCount(const QModelIndex& parent = {}) const override;
    int columnCount(const QModelIndex& parent = {}) const override;
    QVariant data(const QModelIndex& index, int role) const override;
    QVariant headerData(int section, Qt::Orientation orientation, int role) const override;

private:
    /// One line of the table, compared or left out.
    struct Line {
        core::project::ImplementId implement{};
        const core::findings::RankedImplement* ranked{};    ///< null when left out
        const core::findings::ImplementFinding* finding{};  ///< null when there is none
        QString name{};
        QString sentence{};
        QStringList notes{};
        bool areHittersOdd{};  ///< one hitter got what the others did not
        RankedMarks marks{};
    };
    [[nodiscard]] const Line& line(int row) const {
        return m_lines.at(static_cast<std::size_t>(row));
    }
    [[nodiscard]] RankedMarks marksFor(const Line& line) const;
    [[nodiscard]] std::optional<RankedMark> markOf(const core::findings::Comparison& alone,
                                                   core::project::ImplementId implement) const;
    [[nodiscard]] const core::findings::PairFinding* pairWithChosen(const Line& line) const;
    [[nodiscard]] QStringList remarksOf(const Line& line) const;
    [[nodiscard]] RemarkKind remarkKind(const Line& line) const;
    [[nodiscard]] QString textOf(const Line& line, int column) const;
    [[nodiscard]] QString tipOf(const Line& line, int column) const;
    [[nodiscard]] QString spokenText(int row, int column) const;
    [[nodiscard]] QVariant sortValue(const Line& line, int column, int row) const;

    core::findings::FindingsPtr m_findings;  // keeps what the lines point at
    const core::findings::Comparison* m_comparison{};
    std::optional<core::project::HitterId> m_hitter;
    std::vector<Line> m_lines;
    std::optional<core::project::ImplementId> m_chosen;
    std::map<core::project::ImplementId, OpenDoubts> m_doubts;
};

}  // namespace ui::models
