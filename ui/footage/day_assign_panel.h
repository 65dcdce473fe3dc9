#pragma once

#include <QWidget>
#include <vector>

#include "core/intake/assign_by_plan.h"
#include "core/intake/slate_cards.h"
#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

class QLabel;
class QPushButton;

namespace ui::footage {

class SessionBox;

/// Says whose all shots of a filming day are, by its slate cards or by the order of the plan. Where
/// shots and plan do not fit together it says how, and asks in place whether to go on. Confined.
class DayAssignPanel : public QWidget {
    Q_OBJECT

public:
    DayAssignPanel(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);

private:
    using Slates = std::vector<core::intake::ClipSlates>;

    void refresh();
    void assignByOrder(core::intake::WhenCountsDiffer whenCountsDiffer);
    void assignByCards();
    void cardsCameHome(core::project::SessionId session, const core::Result<Slates>& slates);
    void tell(const core::Result<core::intake::AssignmentReport>& report);
    void say(const QString& text);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    SessionBox* m_session;
    QPushButton* m_byCards;
    QPushButton* m_byOrder;
    QLabel* m_message;
    QPushButton* m_anyway;  ///< shown after a refusal that may be overruled
    std::shared_ptr<void> m_listening;
};

}  // namespace ui::footage
