#pragma once

#include <QWidget>
#include <vector>

#include "ui/reading/shot/shot_facts.h"
#include "ui/reading/shot/shot_groups.h"
#include "ui/reading/shot/shot_list_model.h"

class QLabel;
class QListView;
class QMenu;
class QProgressBar;
class QToolButton;

namespace ui::reading {

class ShotBatch;
class ShotFilterBar;

/// The shots to read, each with its ball, its spin and its state; what of them is shown; what can
/// be done with several that are chosen (Ctrl or Shift and click). Confined.
class ShotStrip : public QWidget {
    Q_OBJECT

public:
    explicit ShotStrip(core::project::Store& store, QWidget* parent = nullptr);

    /// Puts the switches for reading ahead and for hiding names below the list.
    void showSwitches(QAction& readAhead, QAction& hideNames);
    void setShotsToGo(std::size_t count);

    [[nodiscard]] ShotListModel& model() noexcept { return m_model; }
    /// The rows of the list.
    [[nodiscard]] const ShotGroups& rows() const noexcept { return m_rows; }
    [[nodiscard]] ShotFacts& facts() noexcept { return m_facts; }
    [[nodiscard]] QListView& list() noexcept { return *m_list; }
    void setFilter(ShotListModel::Filter filter);
    void showOnly(core::project::ImplementId implement);
    void setNamesHidden(bool hidden);
    void setInDoubt(std::set<core::project::ShotId> shots);
    /// Shows which shot is open and scrolls to it.
    void setCurrent(core::project::ShotId shot);
    void update(const core::project::Store::Change& change);
    /// In the order of the list.
    [[nodiscard]] std::vector<core::project::ShotId> chosenShots() const;
    /// Of two that are chosen the one that is not open.
    [[nodiscard]] std::optional<core::project::ShotId> chosenOther() const;
    /// At the row of the open shot, for keys.
    void showMenuOfCurrent();

    [[nodiscard]] QSize sizeHint() const override { return {230, 560}; }

Q_SIGNALS:
    void shotChosen(core::project::ShotId shot);
    /// Beside the open one.
    void besideWanted(core::project::ShotId shot);
    /// Kept shots that rest on what was changed here.
    void readAgainWanted(const std::vector<core::project::ShotId>& shots);

private:
    void showCurrent();
    void showEmptiness();
    void showChoice();
    void showMenu(const QPoint& at);
    void fillMenu(QMenu& menu);

    ShotFacts m_facts;
    ShotListModel m_model;
    ShotGroups m_rows;
    ShotFilterBar* m_filter;
    QListView* m_list;
    QLabel* m_empty;
    ShotBatch* m_batch;
    QToolButton* m_chosen;  ///< what can be done with several; hidden for one
    QProgressBar* m_bar;
    QLabel* m_toGo;
    std::size_t m_mostToGo{};  ///< since reading ahead was at rest
    core::project::ShotId m_current;
    bool m_isShowing{false};
    bool m_isBeingChosen{false};  ///< by the pointer, in the list
};

}  // namespace ui::reading
