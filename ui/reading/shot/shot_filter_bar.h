#pragma once

#include <QWidget>

#include "ui/reading/shot/shot_list_model.h"

class QLabel;
class QLineEdit;
class QMenu;
class QToolButton;

namespace ui::style {
class ChipRow;
}

namespace ui::reading {

/// What the list of shots shows: words to look for, states with their counts, and a menu for
/// implement, hitter, clip and order. Confined.
class ShotFilterBar : public QWidget {
    Q_OBJECT

public:
    ShotFilterBar(const core::project::Store& store, ShotListModel& model,
                  QWidget* parent = nullptr);

    void setFilter(ShotListModel::Filter filter);
    /// All shots of an implement, and no others.
    void showOnly(core::project::ImplementId implement);
    /// Counts, and what is narrowed to, as they are now.
    void refresh();

Q_SIGNALS:
    void changed();

private:
    void fillMenu();
    void addSorts(QMenu& menu);
    void narrow(const std::function<void(ShotListModel::Narrowing&)>& edit);
    [[nodiscard]] QString narrowedText() const;

    const core::project::Store& m_store;
    ShotListModel& m_model;
    QLineEdit* m_words;
    QToolButton* m_more;
    QMenu* m_menu;
    style::ChipRow* m_chips{};
    QToolButton* m_narrowed;
};

}  // namespace ui::reading
