#pragma once

#include <QSet>
#include <QWidget>
#include <optional>

#include "core/doubts/find_doubts.h"
#include "core/findings/findings.h"
#include "core/project/store.h"
#include "ui/bridge/findings_keeper.h"
#include "ui/style/empty_page.h"

class QLabel;
class QPlainTextEdit;
class QStackedWidget;
class QTabWidget;
class QToolButton;

namespace ui::findings {

class FindingsBar;
class PairsView;
class PlotView;
class RankingPanel;
class SidePanel;
class TableView;

/// What can be said of the project: the ranking, and views of pairs, hitters, drift, attributes,
/// agreement and method; at the right what is said of the chosen row, with the shots behind it. In
/// a small window that is one line under the head until it is asked for. Computed off the window's
/// thread after every change of the project while it is shown. Confined.
class FindingsScreen : public QWidget {
    Q_OBJECT

public:
    /// Both must outlive the screen.
    FindingsScreen(core::project::Store& store, bridge::FindingsKeeper& keeper,
                   QWidget* parent = nullptr);
    ~FindingsScreen() override;

    /// What is open stands as a remark in the rows. Null: nothing was looked for yet.
    void showDoubts(const core::doubts::DoubtsPtr& doubts);

Q_SIGNALS:
    /// Shown or hidden now.
    void visibilityChanged(bool isVisible);
    void shotActivated(core::project::ShotId shot);
    void publishWanted();
    /// The shots of an implement in Reading.
    void readingWanted(core::project::ImplementId implement);
    void doubtsWanted(core::project::ImplementId implement);
    void doubtsOfShotWanted(core::project::ShotId shot);
    void statusChanged(const QString& text);
    /// Where the next step is done, while there is nothing to compare.
    void wayChosen(ui::style::EmptyPage::Way way);

protected:
    void showEvent(QShowEvent* event) override;
    void hideEvent(QHideEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;
    void keyPressEvent(QKeyEvent* event) override;

private:
    void layOut();
    [[nodiscard]] QWidget* makeHead();
    void makeViews();
    void connectAll();
    void refresh();
    void adopt();
    void showFindings();
    void fillView(int tab);
    void countLook();
    void choose(core::project::ImplementId implement);
    void showCell(core::project::ImplementId implement, core::project::HitterId hitter);
    void onRowChosen();
    [[nodiscard]] QString remarksOfChosen() const;
    void showShots(const std::vector<core::project::ShotId>& shots);
    void say(const QString& sentence);
    void fitToSize();
    void fitLine();
    [[nodiscard]] const core::findings::Comparison& comparison() const;

    core::project::Store& m_store;
    bridge::FindingsKeeper& m_keeper;
    core::findings::FindingsPtr m_findings;
    FindingsBar* m_bar;
    QLabel* m_answer;
    QLabel* m_message;
    QWidget* m_line;  ///< instead of the side panel, in a small window
    QLabel* m_lineWords;
    QString m_said;  ///< of the chosen row
    QToolButton* m_sideSwitch;
    SidePanel* m_side;
    QTabWidget* m_tabs;
    QSet<int> m_toFill;  ///< tabs that show older findings; filled when they are turned to
    RankingPanel* m_ranking;
    PairsView* m_pairs;
    TableView* m_hitters;
    PlotView* m_drift;
    PlotView* m_attributes;
    PlotView* m_agreement;
    QPlainTextEdit* m_method;
    QStackedWidget* m_pages;
    style::EmptyPage* m_empty;
    QLabel* m_waiting;
    bool m_isLookToCount{false};
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::findings
