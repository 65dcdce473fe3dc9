#pragma once

#include <QWidget>

#include "ui/reading/card/headline.h"
#include "ui/reading/reading_desk.h"

class QBoxLayout;
class QLabel;
class QPushButton;
class QScrollArea;
class QToolButton;

namespace ui::style {
class SignLabel;
}

namespace ui::reading {

class BudgetTable;
class DiameterQuestion;
class FactList;
class MethodRows;
class ReadingActions;
class ReasonEdit;
class RemarkList;
class ShotNote;
class SurfaceMap;

/// The reading of the shot: one number with its source, what each method says, what it rests on,
/// what could fool it, its budget, and the decision. Where there is no number, what would help.
class ReadingCard : public QWidget {
    Q_OBJECT

public:
    ReadingCard(ReadingDesk& desk, const ReadingActions& actions, QWidget* parent = nullptr);

    /// Opens the line for the reason and puts the cursor there.
    void askReason();
    /// Opens the question for the ball's diameter, where a reading is there to keep and nobody has
    /// answered it for this filming day; whether it did.
    bool askDiameterFirst();
    /// Shows everything anew, for example in another unit.
    void refresh();
    /// "1491 rpm", or "No reading".
    [[nodiscard]] QString rateText() const;
    [[nodiscard]] QString noticeText() const;

    [[nodiscard]] QSize sizeHint() const override { return {290, 560}; }

Q_SIGNALS:
    /// The shot was set aside with a reason.
    void wasSetAside();
    /// The line for the reason has closed.
    void reasonClosed();
    /// The set-up of the filming day of this clip is wanted.
    void setUpWanted(core::project::ClipId clip);
    /// The clock of this clip has to be settled.
    void clockWanted(core::project::ClipId clip);
    /// Every shot is decided.
    void findingsWanted();
    /// Kept shots that rest on a fact that was changed here.
    void readAgainWanted(const std::vector<core::project::ShotId>& shots);
    /// The ball's diameter is answered: what was to be kept can be kept.
    void diameterAnswered();
    void pointingWanted();

protected:
    void showEvent(QShowEvent* event) override;

private:
    QWidget* makeHead();
    QWidget* makeBody();
    QToolButton* makeFold(const QString& text, const QString& tip, QWidget* content,
                          QWidget* parent);
    QWidget* makeReasonRow();
    QWidget* makeDecisions(const ReadingActions& actions);
    [[nodiscard]] static QString cellText(const ShotView& view);
    [[nodiscard]] const core::project::Reading* keptReading() const;
    void refreshHead();
    void refreshState();
    void refreshHeadline();
    void refreshHelps();
    void refreshFolds();
    void refreshFacts();
    void refreshDecision();
    void help(const Help& what);
    void closeReason();
    void closeQuestion();
    void useFlightRate();
    void showNotice(const QString& text);
    void styleFonts();

    ReadingDesk& m_desk;
    const ReadingActions& m_actions;
    Headline m_headline;
    QLabel* m_title{};
    QLabel* m_subtitle{};
    style::SignLabel* m_stateSign{};
    QLabel* m_state{};
    QScrollArea* m_scroll{};
    QLabel* m_rate{};
    QLabel* m_unit{};
    QLabel* m_interval{};
    QLabel* m_source{};
    QLabel* m_why{};
    QWidget* m_helps{};
    MethodRows* m_methods{};
    FactList* m_facts{};
    ShotNote* m_note{};
    RemarkList* m_remarks{};
    QToolButton* m_budgetFold{};
    BudgetTable* m_budget{};
    QToolButton* m_mapFold{};
    SurfaceMap* m_map{};
    QLabel* m_notice{};
    QWidget* m_reasonRow{};
    ReasonEdit* m_reason{};
    DiameterQuestion* m_question{};
    QPushButton* m_primary{};
    QWidget* m_lower{};  ///< the two buttons below it
    QToolButton* m_reopen{};
};

}  // namespace ui::reading
