#pragma once

#include <QWidget>
#include <vector>

#include "core/intake/slate_cards.h"
#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

class QLabel;
class QPushButton;
class QTableView;

namespace ui::plan {

class DayModel;
class ImplementModel;
class PlanDesk;

/// A filming day before and after: implements, hitters, order and advice, the shot list and the
/// slate cards on paper; then whose the shots are, by the cards or by the order, and counts that
/// were made elsewhere. Confined.
class PlanScreen : public QWidget {
    Q_OBJECT

public:
    PlanScreen(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);
    ~PlanScreen() override;

    /// Takes implements over from a table, as text. What is wrong with it is said.
    void takeTable(const QString& text);
    void takeTableFile(const QString& file);
    void printShotList(const QString& file);
    void printSlateCards(const QString& file);
    /// Asks what the columns hold, then imports.
    void importTally(const QString& file);

Q_SIGNALS:
    void statusChanged(const QString& text);

private:
    [[nodiscard]] static QString tableFilter();
    [[nodiscard]] QWidget* makeTables();
    [[nodiscard]] QWidget* makeFacts();
    [[nodiscard]] QWidget* makeImplementBar();
    [[nodiscard]] QWidget* makeBottomBar();
    QPushButton* button(const char* name, const QString& text, const QKeySequence& keys,
                        const QString& tip, void (PlanScreen::*act)());
    void refresh();
    void say(const QString& trouble);
    void pasteTable();
    void chooseTable();
    void addColumn();
    void removeChosen();
    void copyFromProject();
    void chooseShotList();
    void chooseSlateCards();
    void chooseTally();
    void assignByOrder();
    void assignByCards();
    void cardsCameHome(core::project::SessionId session,
                       const core::Result<std::vector<core::intake::ClipSlates>>& slates);
    void tellAssignment(const core::intake::AssignmentReport& report);
    void write(const QString& file, const core::Result<std::string>& pdf);
    [[nodiscard]] core::Result<core::project::SessionId> session(bool mayAdd);

    core::project::Store& m_store;
    bridge::JobRunner& m_jobs;
    PlanDesk* m_desk;
    ImplementModel* m_implements;
    DayModel* m_day;
    QTableView* m_implementView{};
    QTableView* m_dayView{};
    QLabel* m_trouble{};
    QLabel* m_dayTitle{};
    QPushButton* m_fromProject{};
    std::vector<QPushButton*> m_needPlan;  ///< enabled once there is something to film
};

}  // namespace ui::plan
