#pragma once

#include <QWidget>
#include <vector>

#include "core/project/store.h"

class QComboBox;
class QLabel;
class QPushButton;

namespace ui::footage {

/// Says whose the chosen shots are: implement and hitter, chosen or typed anew. Confined.
class AssignPanel : public QWidget {
    Q_OBJECT

public:
    explicit AssignPanel(core::project::Store& store, QWidget* parent = nullptr);

    /// The shots that the button will assign, and what to call them ("2 clips, 12 shots").
    void setShots(std::vector<core::project::ShotId> shots, const QString& what);
    /// Whether its first button is what the footage needs next.
    void setLeads(bool leads);

private:
    void refreshNames();
    void assign();

    core::project::Store& m_store;
    std::vector<core::project::ShotId> m_shots;
    QComboBox* m_implement;
    QComboBox* m_hitter;
    QPushButton* m_assign;
    QLabel* m_message;
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
