#pragma once

#include <QWidget>
#include <vector>

#include "core/project/store.h"

class QLabel;
class QPushButton;
class QBoxLayout;
class QTableView;

namespace ui::plan {

class AdvicePanel;
class DayModel;
class ImplementModel;
class PlanDesk;

/// A filming day before it is filmed: implements, hitters, order and advice, the shot list and the
/// slate cards on paper; and counts that were made elsewhere. Confined.
class PlanScreen : public QWidget {
    Q_OBJECT

public:
    explicit PlanScreen(core::project::Store& store, QWidget* parent = nullptr);
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

protected:
    void resizeEvent(QResizeEvent* event) override;

private:
    void fitColumns();
    [[nodiscard]] static QString tableFilter();
    [[nodiscard]] QWidget* makeTables();
    [[nodiscard]] QWidget* makeFacts();
    [[nodiscard]] QWidget* makeImplementBar();
    [[nodiscard]] QWidget* makeHead();
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
    void write(const QString& file, const core::Result<std::string>& pdf);

    core::project::Store& m_store;
    PlanDesk* m_desk;
    AdvicePanel* m_advice{};
    QBoxLayout* m_head{};
    QBoxLayout* m_facts{};  ///< settings and advice
    ImplementModel* m_implements;
    DayModel* m_day;
    QTableView* m_implementView{};
    QTableView* m_dayView{};
    QLabel* m_trouble{};
    QLabel* m_answer{};   ///< how much is planned
    QLabel* m_meaning{};  ///< of the difference that the answer names
    QLabel* m_dayTitle{};
    QPushButton* m_fromProject{};
    std::vector<QPushButton*> m_needPlan;  ///< enabled once there is something to film
};

}  // namespace ui::plan
