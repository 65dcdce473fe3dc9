#include <QLabel>
#include <QPushButton>
#include <QVBoxLayout>

#include "core/intake/refuted_clock.h"
#include "ui/reading/card/diameter_question.h"
#include "ui/reading/card/reading_card.h"
#include "ui/reading/reading_look.h"
#include "ui/style/let_go.h"
#include "ui/style/rank.h"

/// What the card offers where there is no number, and what it asks before there is one to keep.
namespace ui::reading {

void ReadingCard::refreshHelps() {
    const bool isWithout = m_desk.hasShot() && m_headline.number.isEmpty();
    m_why->setText(isWithout ? whyNoNumber(m_desk.view()) : QString{});
    m_why->setVisible(isWithout && !m_why->text().isEmpty());
    auto* column = static_cast<QVBoxLayout*>(m_helps->layout());
    style::emptyLayout(*column);
    if (!isWithout) {
        m_helps->hide();
        return;
    }
    const auto snapshot = m_desk.store().snapshot();
    const auto& clip = m_desk.view().clip;
    const auto helps = helpsFor(m_desk.view(), snapshot->sessions.find(clip.session),
                                core::intake::clipsOfTheSameClock(*snapshot, clip.id).size());
    for (const Help& each : helps) {
        auto* button = new QPushButton{each.text, m_helps};
        button->setFocusPolicy(Qt::TabFocus);
        if (each.kind == Help::Kind::UseFlightRate) {
            button->setObjectName(QStringLiteral("use_flight_rate"));
            style::setRank(button, style::Rank::Primary);
        }
        connect(button, &QPushButton::clicked, this, [this, each] { help(each); });
        column->addWidget(button, 0, Qt::AlignLeft);
    }
    m_helps->setVisible(!helps.isEmpty());
}

void ReadingCard::help(const Help& what) {
    switch (what.kind) {
        case Help::Kind::PointAtBall:
            m_desk.advise(
                tr("Go to a frame in which the ball is clear, and click it in the "
                   "scene. Its path is looked for from there."));
            Q_EMIT pointingWanted();
            break;
        case Help::Kind::SetUp:
            Q_EMIT setUpWanted(m_desk.view().clip.id);
            break;
        case Help::Kind::Clock:
            Q_EMIT clockWanted(m_desk.view().clip.id);
            break;
        case Help::Kind::UseFlightRate:
            useFlightRate();
            break;
        case Help::Kind::UseRate:
            m_desk.setRowSeconds(60.0 / what.rpm);
            m_desk.advise(tr("One row is one turn at %1 rpm now. Where the columns agree the rate "
                             "is right: mark the start with S and the return with R.")
                              .arg(fixedText(what.rpm, 0)));
            break;
    }
}

/// The rate that the flight fits, for every clip with the same wrong clock.
void ReadingCard::useFlightRate() {
    const auto& view = m_desk.view();
    const auto refuted = view.proposal && view.proposal->outcome
                             ? core::intake::refutedClock(view.proposal->outcome.value())
                             : std::nullopt;
    if (!refuted) {
        return;
    }
    auto& store = m_desk.store();
    const auto clips = core::intake::clipsOfTheSameClock(*store.snapshot(), view.clip.id);
    const auto done = core::intake::useRate(store, refuted->likelier, clips);
    if (done) {
        Q_EMIT readAgainWanted(done.value());
    } else {
        m_desk.advise(QString::fromStdString(done.error().message));
    }
}

bool ReadingCard::askDiameterFirst() {
    const auto& store = m_desk.store();
    if (!m_desk.hasShot() || !m_desk.method() || !store.readOnlyReason().empty()) {
        return false;
    }
    const auto& clip = m_desk.view().clip;
    if (isTally(clip) || !core::intake::needsDiameter(*store.snapshot(), clip.session)) {
        return false;
    }
    m_lower->hide();
    m_reasonRow->hide();
    m_question->ask(clip.session);
    return true;
}

void ReadingCard::closeQuestion() {
    if (!m_question->isHidden()) {
        m_question->hide();
        m_lower->show();
        Q_EMIT reasonClosed();
    }
}

}  // namespace ui::reading
