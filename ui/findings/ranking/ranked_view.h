#pragma once

#include <QTableView>
#include <array>
#include <optional>

#include "core/findings/findings.h"
#include "ui/findings/ranking/ranked_plot.h"
#include "ui/models/ranked_filter.h"
#include "ui/models/ranked_table_model.h"

namespace ui::findings {

class RankedHead;
class RankingInSmall;

/// The implements by rank, one row each: numbers, the means of all and of each hitter with their 95
/// % intervals on one axis, whether a difference from the chosen row is shown, letters, remarks.
/// Rows have one height whatever the window, and scroll below the axis; the whole ranking in small
/// is the scroll bar. ← and → move the ruler of the noticeable step (Shift: coarser), Ctrl+C copies
/// the selected rows for a spreadsheet. Confined.
class RankedView : public QTableView {
    Q_OBJECT

public:
    /// Both must outlive the view; the filter is that of the model.
    RankedView(models::RankedTableModel& rows, models::RankedFilter& filter,
               QWidget* parent = nullptr);

    /// Bands and step are those of the findings; the rows are those of the model.
    void show(const core::findings::Findings& findings);
    void setHittersApart(bool areApart);
    void setCompact(bool isCompact);
    /// Without the column of intervals.
    void setNarrow(bool isNarrow);

    /// The heads and a few rows, the last one in part.
    [[nodiscard]] QSize minimumSizeHint() const override;
    [[nodiscard]] std::optional<core::project::ImplementId> chosen() const;
    /// The first row when it is absent or not shown.
    void choose(std::optional<core::project::ImplementId> implement);
    /// As models::RankedFilter; the chosen row stays chosen where it is still shown.
    void narrow(const QString& words, const QString& condition, const QString& band);
    [[nodiscard]] const RankedPlot& plot() const noexcept { return m_plot; }
    [[nodiscard]] const models::RankedTableModel& rows() const noexcept { return m_rows; }
    /// The row of the model behind a row of the view.
    [[nodiscard]] int modelRow(int row) const;

    /// The lower end of the ruler; absent while no step is set.
    [[nodiscard]] std::optional<double> rulerLowRpm() const noexcept { return m_plot.rulerLow; }
    void moveRuler(double toRpm);
    /// The mark near a place in the viewport.
    [[nodiscard]] std::optional<models::RankedMark> markAt(QPoint at) const;
    /// What is said of a place in the viewport.
    [[nodiscard]] QString tipAt(QPoint at) const;

Q_SIGNALS:
    void rowChosen();
    void hitterChosen(core::project::ImplementId implement, core::project::HitterId hitter);

protected:
    void currentChanged(const QModelIndex& now, const QModelIndex& before) override;
    void keyPressEvent(QKeyEvent* event) override;
    void mousePressEvent(QMouseEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;
    bool viewportEvent(QEvent* event) override;
    void paintEvent(QPaintEvent* event) override;

private:
    void layOutRows();
    void layOutColumns();
    void measureColumns();
    [[nodiscard]] int widest(int column) const {
        return m_widest.at(static_cast<std::size_t>(column));
    }
    void placeRuler();
    void copyRows();

    models::RankedTableModel& m_rows;
    models::RankedFilter& m_filter;
    RankedHead* m_head;
    RankingInSmall* m_small;
    RankedPlot m_plot;
    /// What stands in the columns asks for so much.
    std::array<int, models::RankedTableModel::kColumnCount> m_widest{};
    bool m_isCompact{false};
    bool m_isNarrow{false};
    bool m_isNarrowing{false};   ///< rows are coming and going
    bool m_isRulerMoved{false};  ///< by hand
};

}  // namespace ui::findings
