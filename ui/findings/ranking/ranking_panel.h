#pragma once

#include <QWidget>
#include <optional>

#include "core/findings/findings.h"

class QCheckBox;
class QComboBox;
class QLineEdit;

namespace ui::models {
class RankedFilter;
class RankedTableModel;
}  // namespace ui::models

namespace ui::findings {

class RankedView;
class RankingLegend;

/// The ranking with what is looked for in it: words, a condition, a band. Confined.
class RankingPanel : public QWidget {
    Q_OBJECT

public:
    explicit RankingPanel(QWidget* parent = nullptr);

    /// The comparison of one hitter, or of all together; the chosen row stays chosen.
    void show(const core::findings::FindingsPtr& findings,
              std::optional<core::project::HitterId> hitter, bool areHittersApart);
    /// In a low window rows are compact whatever is ticked.
    void setLow(bool isLow);
    [[nodiscard]] RankedView& view() { return *m_view; }
    [[nodiscard]] models::RankedTableModel& rows() { return *m_rows; }

private:
    void fitFields();
    /// True when another group is chosen than before.
    bool fillGroups(QComboBox* groups, int role, const QString& any);
    void narrow();

    models::RankedTableModel* m_rows;
    models::RankedFilter* m_filter;
    RankedView* m_view;
    QLineEdit* m_search;
    QComboBox* m_conditions;
    QComboBox* m_bands;
    QCheckBox* m_compact;
    RankingLegend* m_legend;
    bool m_isLow{false};
};

}  // namespace ui::findings
