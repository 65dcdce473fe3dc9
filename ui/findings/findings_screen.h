#pragma once

#include <QWidget>
#include <optional>

#include "core/project/store.h"
#include "core/report/summary.h"
#include "ui/bridge/job_runner.h"

class QLabel;
class QSortFilterProxyModel;
class QStackedWidget;
class QTableView;

namespace ui::chart {
class RankedChart;
}
namespace ui::models {
class ShotTableModel;
class SummaryTableModel;
}  // namespace ui::models

namespace ui::findings {

/// The spin rates per implement and hitter: ranked chart, table, and the shots behind the chosen
/// number. Recomputed off the window's thread after every change of the project. Confined.
class FindingsScreen : public QWidget {
    Q_OBJECT

public:
    FindingsScreen(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);
    ~FindingsScreen() override;

    /// Asks for a folder and writes shots and summary as CSV and JSON.
    void exportSummary();

Q_SIGNALS:
    void shotActivated(core::project::ShotId shot);
    void statusChanged(const QString& text);

protected:
    void showEvent(QShowEvent* event) override;

private:
    void recompute();
    void adopt(const core::Result<core::report::Summary>& summary, std::int64_t revision);
    void choose(core::project::ImplementId implement,
                std::optional<core::project::HitterId> hitter);
    void onRowChosen();
    void writeTo(const QString& folder);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    models::SummaryTableModel* m_rows;
    QSortFilterProxyModel* m_sorted;
    models::ShotTableModel* m_shots;
    chart::RankedChart* m_chart;
    QTableView* m_table;
    QTableView* m_shotView;
    QLabel* m_sentence;
    QLabel* m_message;
    QStackedWidget* m_pages;
    std::int64_t m_shownRevision{-1};
    std::int64_t m_wantedRevision{-1};
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::findings
