#pragma once

#include <QWidget>
#include <memory>
#include <optional>

#include "core/doubts/find_doubts.h"
#include "core/intake/refuted_clock.h"
#include "core/project/store.h"
#include "ui/bridge/job_runner.h"

class QLabel;
class QLayout;
class QPushButton;

namespace ui::reading {
class ReasonEdit;
}

namespace ui::style {
class SignLabel;
}

namespace ui::doubts {

class DoubtFigures;
class DoubtPast;

/// One doubtful shot or cell: what speaks against it, in words and figures, how it was read so far,
/// what happened to it, and what can be decided. Confined to the thread of the store.
class DoubtCard : public QWidget {
    Q_OBJECT

public:
    /// Both must outlive the card.
    DoubtCard(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent = nullptr);

    /// doubts must live as long as it is shown; null: nothing is chosen.
    void show(core::doubts::DoubtsPtr doubts, const core::doubts::Doubted* item);

    // Decisions, as of the buttons and the keys of the screen. Nothing happens without a choice.
    void replay();
    void keepAsIs();
    void readBlind();
    void askAside();
    void askFilmAgain();
    void doubtCell();
    void letCount();
    /// Asks why the clock is kept although the flight speaks against it.
    void askOverrule();
    /// States the capture rate that the flight fits, for all clips of the same wrong clock.
    void useRate();

Q_SIGNALS:
    /// Kept shots that rest on a clock that was changed.
    void readAgainWanted(const std::vector<core::project::ShotId>& shots);
    void replayWanted(core::project::ShotId shot);
    void blindWanted();
    /// What was done or could not be done, in words.
    void said(const QString& text);

private:
    void layOut();
    [[nodiscard]] QWidget* makeHead();
    [[nodiscard]] QWidget* makeBody();
    void addButtons(QLayout& buttons);
    QPushButton* addButton(QLayout& row, const QString& text, const QString& tip,
                           void (DoubtCard::*act)());
    void showReasons();
    void showRate();
    enum class Reason { Aside, FilmAgain, Overrule };
    [[nodiscard]] bool mayAsk(Reason about) const;
    void ask(const QString& what, Reason about);
    core::Result<void> overrule(const std::string& why);
    void give(const QString& reason);
    bool report(const core::Result<void>& done, const QString& text);
    [[nodiscard]] QString name() const;

    core::project::Store& m_store;
    core::doubts::DoubtsPtr m_doubts;
    std::optional<core::doubts::Doubted> m_item;
    style::SignLabel* m_sign;  ///< of its weight
    QLabel* m_why;             ///< the worst reason with its numbers
    QLabel* m_title;           ///< whose it is
    QLabel* m_reasons;
    DoubtFigures* m_figures;
    DoubtPast* m_past;
    reading::ReasonEdit* m_reason;
    Reason m_asksAbout{Reason::Aside};
    QList<QPushButton*> m_shotButtons;  ///< that need a shot
    QPushButton* m_blind{};
    QPushButton* m_keep{};
    QPushButton* m_filmAgain{};
    QPushButton* m_doubtCell{};
    QPushButton* m_useRate{};
    QPushButton* m_overrule{};
    std::optional<core::intake::RefutedClock> m_refuted;  ///< of the clip of the shot
    std::vector<core::project::ClipId> m_clipsOfTheSameClock;
    std::shared_ptr<void> m_listening;  // last: silent before the rest goes
};

}  // namespace ui::doubts
