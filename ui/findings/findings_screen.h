#pragma once

#include <QSet>
#include <QWidget>
#include <optional>

#include "core/findings/findings.h"
#include "core/project/store.h"
#include "ui/bridge/findings_keeper.h"

class QLabel;
class QPlainTextEdit;
class QSortFilterProxyModel;
class QStackedWidget;
class QTableView;
class QTabWidget;

namespace ui::chart {
class RankedChart;
}
namespace ui::models {
class RankedTableModel;
class ShotTableModel;
}  // namespace ui::models

namespace ui::findings {

class FindingsBar;
class PairsView;
class PlotView;
class PublishPanel;
class TableView;

/// What can be said of the project: ranked chart, ranked table, and views of pairs, hitters, drift,
/// attributes, agreement and method, with the shots behind every number. Computed off the window's
/// thread after every change of the project while it is shown. Confined.
class FindingsScreen : public QWidget {
    Q_OBJECT

public:
    /// All must outlive the screen; jobs: for publishing.
    FindingsScreen(core::project::Store& store, bridge::JobRunner& jobs,
                   bridge::FindingsKeeper& keeper, QWidget* parent = nullptr);
    ~FindingsScreen() override;

Q_SIGNALS:
    void shotActivated(core::project::ShotId shot);
    void statusChanged(const QString& text);

protected:
    void showEvent(QShowEvent* event) override;

private:
    void layOut();
    [[nodiscard]] QWidget* makeTop();
    [[nodiscard]] QWidget* makeShots();
    void makeViews();
    void connectAll();
    void refresh();
    void adopt();
    void showFindings();
    void fillView(int tab);
    void countLook();
    void choose(core::project::ImplementId implement,
                std::optional<core::project::HitterId> hitter);
    void chooseRow(std::optional<core::project::ImplementId> implement);
    void onRowChosen();
    void showShots(const std::vector<core::project::ShotId>& shots);
    void openPoint(qint64 shot);
    [[nodiscard]] std::optional<core::project::ImplementId> chosenImplement() const;

    core::project::Store& m_store;
    bridge::FindingsKeeper& m_keeper;
    core::findings::FindingsPtr m_findings;
    models::RankedTableModel* m_rows;
    QSortFilterProxyModel* m_sorted;
    models::ShotTableModel* m_shots;
    FindingsBar* m_bar;
    chart::RankedChart* m_chart;
    QTableView* m_table{};
    QTableView* m_shotView{};
    QLabel* m_sentence;
    QLabel* m_message;
    QTabWidget* m_tabs;
    QSet<int> m_toFill;  ///< tabs that show older findings; filled when they are turned to
    PairsView* m_pairs;
    TableView* m_hitters;
    PlotView* m_drift;
    PlotView* m_attributes;
    PlotView* m_agreement;
    QPlainTextEdit* m_method;
    PublishPanel* m_publish;
    QStackedWidget* m_pages;
    QLabel* m_empty;
    bool m_isLookToCount{false};
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::findings
