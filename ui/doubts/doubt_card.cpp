#include "ui/doubts/doubt_card.h"

#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/words.h"
#include "core/doubts/decisions.h"
#include "core/project/clock_refutation.h"
#include "core/words/doubts.h"
#include "ui/doubts/doubt_delegate.h"
#include "ui/doubts/doubt_figures.h"
#include "ui/doubts/doubt_past.h"
#include "ui/doubts/doubt_rates.h"
#include "ui/doubts/text.h"
#include "ui/models/number_text.h"
#include "ui/reading/card/reason_edit.h"
#include "ui/style/hold_back.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/rows_layout.h"
#include "ui/style/scrolled_down.h"
#include "ui/style/sign_label.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::doubts {

DoubtCard::DoubtCard(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_sign{new style::SignLabel{style::Sign::Note, style::Token::Quiet}},
      m_why{new QLabel},
      m_title{new QLabel},
      m_reasons{new QLabel},
      m_figures{new DoubtFigures{store, jobs}},
      m_past{new DoubtPast{store}},
      m_reason{new reading::ReasonEdit} {
    m_why->setObjectName(QStringLiteral("doubtWhy"));
    m_title->setObjectName(QStringLiteral("doubtTitle"));
    m_reasons->setObjectName(QStringLiteral("doubtReasons"));
    m_reason->setObjectName(QStringLiteral("doubtReason"));
    layOut();
    const QString readOnly = text(store.readOnlyReason());
    for (QPushButton* button : m_shotButtons.mid(1)) {  // all but the replay
        style::holdBack({button}, readOnly);
    }
    style::holdBack({m_keep, m_filmAgain, m_doubtCell, m_useRate, m_overrule}, readOnly);
    show(nullptr, nullptr);
    // What was read and what counts is shown at once; the reasons follow when they are computed.
    m_listening = store.listen([this](const core::project::Store::Change& change) {
        const bool concerns =
            m_item && m_item->shot &&
            (change.allShots || std::find(change.shots.begin(), change.shots.end(),
                                          *m_item->shot) != change.shots.end());
        if (concerns) {
            m_figures->show(&*m_item);
            m_past->show(m_item->shot);
        }
    });
}

QWidget* DoubtCard::makeHead() {
    style::setTextSize(m_why, style::TextSize::Title, style::Weight::Strong);
    style::setTextSize(m_sign, style::TextSize::Title);
    m_title->setForegroundRole(QPalette::PlaceholderText);
    auto* head = new QWidget;
    auto* row = new QHBoxLayout{head};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(style::kBetweenPx);
    row->addWidget(m_sign, 0, Qt::AlignTop);
    auto* lines = new QVBoxLayout;
    lines->setSpacing(0);
    lines->addWidget(m_why);
    lines->addWidget(m_title);
    row->addLayout(lines, 1);
    return head;
}

QWidget* DoubtCard::makeBody() {
    m_reason->hide();
    auto* body = new QWidget;
    auto* column = new QVBoxLayout{body};
    column->setContentsMargins(0, 0, style::kBetweenPx, 0);
    column->setSpacing(style::kCardsPx);
    column->addWidget(makeHead());
    column->addWidget(m_reason);
    column->addWidget(m_reasons);
    column->addWidget(m_figures);
    column->addWidget(m_past);
    column->addStretch(1);
    return body;
}

void DoubtCard::layOut() {
    for (QLabel* label : {m_why, m_title, m_reasons}) {
        style::showPlainWords(label);
        label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    }
    auto* row = new QWidget;
    auto* buttons = new style::RowsLayout{row, style::RowsLayout::Rest::Free};
    buttons->setContentsMargins(0, 0, 0, 0);
    buttons->setSpacing(style::kBetweenPx);
    addButtons(*buttons);
    auto* whole = new QVBoxLayout{this};
    whole->setContentsMargins(style::kCardsPx, style::kBetweenPx, 0, 0);
    whole->addWidget(new style::ScrolledDown{makeBody()}, 1);
    whole->addWidget(row);
    connect(m_reason, &reading::ReasonEdit::given, this, &DoubtCard::give);
    connect(m_reason, &reading::ReasonEdit::givenUp, this, [this] {
        m_reason->hide();
        Q_EMIT said({});
    });
}

/// What leads on first, what is rare last.
void DoubtCard::addButtons(QLayout& buttons) {
    m_useRate = addButton(buttons, {},
                          tr("Uses the capture rate that the flight fits, for every clip with the "
                             "same wrong rate; their kept shots are read again"),
                          &DoubtCard::useRate);
    m_useRate->setObjectName(QStringLiteral("doubtUseRate"));
    m_blind =
        addButton(buttons, tr("Read again blind"),
                  tr("Opens the shot without its marks and numbers (W)"), &DoubtCard::readBlind);
    m_keep = addButton(
        buttons, tr("Keep as it is"),
        tr("Keeps the number; the shot is settled until something new speaks against it (K)"),
        &DoubtCard::keepAsIs);
    m_shotButtons << addButton(buttons, tr("Replay"),
                               tr("Opens the shot in Reading, replaying its marks (Enter)"),
                               &DoubtCard::replay);
    m_shotButtons << m_blind;
    m_shotButtons << addButton(buttons, tr("Use this reading"),
                               tr("The reading that is chosen in the table counts then (L)"),
                               &DoubtCard::letCount);
    m_overrule = addButton(buttons, tr("Overrule the flight…"),
                           tr("Keeps the capture rate, with a reason that is published; the shots "
                              "of the clip count again"),
                           &DoubtCard::askOverrule);
    m_overrule->setObjectName(QStringLiteral("doubtOverrule"));
    style::setRank(m_overrule, style::Rank::Quiet);
    m_shotButtons << addButton(buttons, tr("Set aside…"),
                               tr("Leaves the shot out of the summary, with a reason (O)"),
                               &DoubtCard::askAside);
    style::setRank(m_shotButtons.last(), style::Rank::Quiet);
    m_filmAgain =
        addButton(buttons, tr("Film again…"),
                  tr("Sets the shot, or the kept shots of the cell, aside and puts the cell on "
                     "the list to film (F)"),
                  &DoubtCard::askFilmAgain);
    m_doubtCell =
        addButton(buttons, tr("Mark the cell as doubtful"),
                  tr("Marks every kept shot of the cell as doubtful (D)"), &DoubtCard::doubtCell);
    style::setRank(m_doubtCell, style::Rank::Quiet);
}

QPushButton* DoubtCard::addButton(QLayout& row, const QString& text, const QString& tip,
                                  void (DoubtCard::*act)()) {
    auto* button = new QPushButton{text};
    button->setToolTip(tip);
    button->setAutoDefault(false);
    connect(button, &QPushButton::clicked, this, act);
    row.addWidget(button);
    return button;
}

void DoubtCard::show(core::doubts::DoubtsPtr doubts, const core::doubts::Doubted* item) {
    const bool isAnother =
        !m_item || item == nullptr || m_item->shot != item->shot || m_item->cell != item->cell;
    m_doubts = std::move(doubts);
    m_item = item != nullptr ? std::optional{*item} : std::nullopt;
    if (isAnother) {
        m_reason->hide();
    }
    for (QPushButton* button : m_shotButtons) {
        button->setEnabled(m_item && m_item->shot);
        button->setVisible(m_item && m_item->shot);
    }
    m_keep->setEnabled(m_item && !m_item->isSettled);
    m_keep->setVisible(m_item.has_value());
    m_filmAgain->setEnabled(m_item.has_value());
    m_filmAgain->setVisible(m_item.has_value());
    m_doubtCell->setEnabled(m_item && m_item->cell);
    m_doubtCell->setVisible(m_item && m_item->cell);
    const bool isShot = !m_item || m_item->shot;
    showRate();
    style::setRank(m_useRate, style::Rank::Primary);
    style::setRank(m_blind, isShot && !m_refuted ? style::Rank::Primary : style::Rank::Secondary);
    style::setRank(m_filmAgain, isShot ? style::Rank::Quiet : style::Rank::Primary);
    showReasons();
    m_figures->show(m_item ? &*m_item : nullptr);
    m_past->show(m_item ? m_item->shot : std::nullopt);
}

QString DoubtCard::name() const {
    const auto snapshot = m_store.snapshot();
    QString cell =
        m_item->cell ? text(core::project::cellName(*snapshot, *m_item->cell)) : QString{};
    if (!m_item->shot) {
        return cell;
    }
    const auto* shot = snapshot->shots.find(*m_item->shot);
    const QString name =
        shot != nullptr ? text(core::project::shotName(*snapshot, *shot)) : tr("shot");
    return cell.isEmpty() ? name : tr("%1, %2").arg(name, cell);
}

void DoubtCard::showReasons() {
    m_sign->setVisible(m_item.has_value());
    m_title->setVisible(m_item.has_value());
    m_reasons->setVisible(m_item.has_value());
    if (!m_item) {
        m_why->setText(tr("Nothing is chosen."));
        m_title->clear();
        m_reasons->clear();
        return;
    }
    const auto [sign, token] = signOf(*m_item);
    m_sign->setSign(sign, token);
    const auto snapshot = m_store.snapshot();
    const QString numbers = numbersText(*snapshot, CellRates{*snapshot, m_item->cell}, *m_item);
    m_why->setText(numbers.isEmpty() ? reasonText(*m_item)
                                     : tr("%1: %2").arg(reasonText(*m_item), numbers));
    m_title->setText(m_item->isSettled ? tr("%1 (settled)").arg(name()) : name());
    QStringList lines;
    for (const auto& doubt : m_item->doubts) {
        const QString point = m_item->doubts.size() > 1 ? QStringLiteral("• ") : QString{};
        lines << point + text(core::words::sentence(doubt));
    }
    m_reasons->setText(lines.join(QLatin1Char{'\n'}));
}

void DoubtCard::showRate() {
    const auto snapshot = m_store.snapshot();
    const bool isRefuted =
        m_item && m_item->shot && m_item->has(core::doubts::Reason::ClockRefuted);
    const auto* shot = isRefuted ? snapshot->shots.find(*m_item->shot) : nullptr;
    m_refuted = shot != nullptr ? core::intake::refutedClock(m_store, shot->clip) : std::nullopt;
    m_useRate->setVisible(m_refuted.has_value());
    const auto* clip = shot != nullptr ? snapshot->clips.find(shot->clip) : nullptr;
    m_overrule->setVisible(clip != nullptr && core::project::isLeftOut(*snapshot, *clip));
    if (m_refuted) {
        m_clipsOfTheSameClock = core::intake::clipsOfTheSameClock(*snapshot, shot->clip);
        m_useRate->setText(
            tr("Use %1 for %2")
                .arg(models::numberText(m_refuted->likelier.fps.toDouble()))
                .arg(text(core::counted(m_clipsOfTheSameClock.size(), "clip", "clips"))));
    }
}

void DoubtCard::useRate() {
    if (!m_refuted) {
        return;
    }
    const double fps = m_refuted->likelier.fps.toDouble();
    const auto clips = m_clipsOfTheSameClock;
    const auto done = core::intake::useRate(m_store, m_refuted->likelier, clips);
    if (!done) {
        Q_EMIT said(text(done.error().message));
        return;
    }
    Q_EMIT said(tr("%1 frames per second for %2.")
                    .arg(models::numberText(fps))
                    .arg(text(core::counted(clips.size(), "clip", "clips"))));
    Q_EMIT readAgainWanted(done.value());
}

void DoubtCard::replay() {
    if (m_item && m_item->shot) {
        Q_EMIT replayWanted(*m_item->shot);
    }
}

void DoubtCard::keepAsIs() {
    if (m_item && !m_item->isSettled) {
        report(core::doubts::keepAsIs(m_store, *m_doubts, *m_item),
               tr("Kept as it is: %1").arg(name()));
    }
}

void DoubtCard::readBlind() {
    if (!m_item || !m_item->shot) {
        return;
    }
    // Those that wait stay in their order, behind this one.
    std::vector<core::project::ShotId> shots{*m_item->shot};
    for (const auto* waiting : core::project::waitingSecondReadings(*m_store.snapshot())) {
        if (waiting->shot != *m_item->shot) {
            shots.push_back(waiting->shot);
        }
    }
    if (report(m_store.orderSecondReadings(shots), {})) {
        Q_EMIT blindWanted();
    }
}

void DoubtCard::letCount() {
    const auto reading = m_past->chosenReading();
    if (m_item && m_item->shot && reading) {
        report(m_store.setCounting(*m_item->shot, *reading), tr("This reading counts now."));
    }
}

void DoubtCard::askAside() {
    ask(tr("Why is it set aside? Enter sets it aside, Esc leaves it"), Reason::Aside);
}

void DoubtCard::askFilmAgain() {
    ask(tr("Why is it to be filmed again? Enter puts it on the list, Esc leaves it"),
        Reason::FilmAgain);
}

void DoubtCard::askOverrule() {
    ask(tr("Why is the capture rate right? Enter keeps it, Esc leaves it"), Reason::Overrule);
}

core::Result<void> DoubtCard::overrule(const std::string& why) {
    const auto snapshot = m_store.snapshot();
    const auto* shot = snapshot->shots.find(*m_item->shot);
    return shot != nullptr ? core::doubts::overruleFlight(m_store, shot->clip, why) : core::ok();
}

/// A cell is filmed again; all else is asked about a shot.
bool DoubtCard::mayAsk(Reason about) const {
    return m_item && (m_item->shot || (m_item->cell && about == Reason::FilmAgain));
}

void DoubtCard::ask(const QString& what, Reason about) {
    if (!mayAsk(about)) {
        return;
    }
    m_asksAbout = about;
    m_reason->clear();
    m_reason->setPlaceholderText(what);
    m_reason->show();
    m_reason->setFocus();
}

void DoubtCard::give(const QString& reason) {
    if (!mayAsk(m_asksAbout)) {
        return;
    }
    const std::string why = reason.trimmed().toStdString();
    const QString who = name();
    bool isDone = false;
    switch (m_asksAbout) {
        case Reason::Aside:
            isDone = report(m_store.setAside(*m_item->shot, why), tr("Set aside: %1").arg(who));
            break;
        case Reason::FilmAgain:
            isDone = report(m_item->shot ? core::doubts::filmAgain(m_store, *m_item->shot, why)
                                         : core::doubts::filmAgain(m_store, *m_item->cell, why),
                            tr("On the list to film again: %1").arg(who));
            break;
        case Reason::Overrule:
            isDone = report(overrule(why), tr("The capture rate is kept. Its shots count again."));
            break;
    }
    if (isDone) {
        m_reason->hide();
    }
}

void DoubtCard::doubtCell() {
    if (m_item && m_item->cell) {
        report(core::doubts::doubtCell(m_store, *m_item->cell),
               tr("Every kept shot of the cell is marked as doubtful."));
    }
}

bool DoubtCard::report(const core::Result<void>& done, const QString& words) {
    Q_EMIT said(done ? words : text(done.error().message));
    return done.has_value();
}

}  // namespace ui::doubts
