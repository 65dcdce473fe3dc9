#pragma once

#include <QWidget>

#include "ui/reading/card/interval_bar.h"
#include "ui/reading/pictures/proposal_panel.h"
#include "ui/reading/reading_desk.h"

class QLabel;
class QScrollArea;
class QToolButton;

namespace ui::reading {

class BudgetTable;
class FactList;
class ReadingActions;
class ReasonEdit;
class RemarkList;

/// The reading of the shot: rate with its interval, what it rests on, what could fool it, its
/// budget, and the decision.
class ReadingCard : public QWidget {
    Q_OBJECT

public:
    ReadingCard(ReadingDesk& desk, const ReadingActions& actions, QWidget* parent = nullptr);

    /// Opens the line for the reason and puts the cursor there.
    void askReason();
    /// "1491 rpm", or "no reading yet".
    [[nodiscard]] QString rateText() const;
    [[nodiscard]] QString noticeText() const;

    [[nodiscard]] QSize sizeHint() const override { return {290, 560}; }

Q_SIGNALS:
    /// The shot was set aside with a reason.
    void wasSetAside();
    /// The line for the reason has closed.
    void reasonClosed();

protected:
    void changeEvent(QEvent* event) override;

private:
    QWidget* makeBody(const ReadingActions& actions);
    QToolButton* makeBudgetButton(QWidget* parent);
    QWidget* makeReasonRow();
    QWidget* makeDecisions(const ReadingActions& actions);
    void refresh();
    [[nodiscard]] static QString cellText(const ShotView& view);
    void refreshHead();
    void refreshRate();
    void refreshFacts();
    void refreshDecision();
    void closeReason();
    void showNotice(const QString& text);
    void styleFonts();

    ReadingDesk& m_desk;
    QLabel* m_title{};
    QLabel* m_subtitle{};
    QLabel* m_state{};
    QScrollArea* m_scroll{};
    QLabel* m_rate{};
    QLabel* m_interval{};
    IntervalBar* m_bar{};
    QLabel* m_nextStep{};
    FactList* m_facts{};
    RemarkList* m_remarks{};
    ProposalPanel* m_proposal{};
    QToolButton* m_budgetButton{};
    BudgetTable* m_budget{};
    QLabel* m_notice{};
    QWidget* m_reasonRow{};
    ReasonEdit* m_reason{};
    QToolButton* m_reopen{};
};

}  // namespace ui::reading
