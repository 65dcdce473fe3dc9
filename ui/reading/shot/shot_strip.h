#pragma once

#include <QWidget>

#include "ui/reading/shot/shot_list_model.h"

class QComboBox;
class QLabel;
class QListView;

namespace ui::reading {

/// The shots to read, with their state, and a filter.
class ShotStrip : public QWidget {
    Q_OBJECT

public:
    explicit ShotStrip(const core::project::Store& store, QWidget* parent = nullptr);

    /// Puts the switches for reading ahead and for hiding names below the list.
    void showSwitches(QAction& readAhead, QAction& hideNames);
    void setShotsToGo(std::size_t count);

    [[nodiscard]] ShotListModel& model() noexcept { return m_model; }
    [[nodiscard]] QListView& list() noexcept { return *m_list; }
    void setFilter(ShotListModel::Filter filter);
    void setNamesHidden(bool hidden);
    /// Shows which shot is open and scrolls to it.
    void setCurrent(core::project::ShotId shot);
    void update(const core::project::Store::Change& change);

    [[nodiscard]] QSize sizeHint() const override { return {178, 560}; }

Q_SIGNALS:
    void shotChosen(core::project::ShotId shot);

private:
    void showCurrent();
    void showEmptiness();

    ShotListModel m_model;
    QListView* m_list;
    QComboBox* m_filter;
    QLabel* m_empty;
    QLabel* m_toGo;
    core::project::ShotId m_current;
    bool m_isShowing{false};
};

}  // namespace ui::reading
