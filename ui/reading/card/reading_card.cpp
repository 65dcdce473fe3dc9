#include "ui/reading/card/reading_card.h"

#include <QEvent>
#include <QLabel>
#include <QScrollArea>
#include <QToolButton>
#include <QVBoxLayout>

#include "core/findings/settings.h"
#include "ui/reading/card/budget_table.h"
#include "ui/reading/card/fact_list.h"
#include "ui/reading/card/reading_words.h"
#include "ui/reading/card/reason_edit.h"
#include "ui/reading/card/remark_list.h"
#include "ui/reading/reading_actions.h"
#include "ui/reading/reading_look.h"
#include "ui/style/rank.h"
#include "ui/style/tabular_font.h"
#include "ui/style/text_font.h"

namespace ui::reading {
namespace {

QLabel* wrappingLabel(QWidget* parent) {
    auto* label = new QLabel{parent};
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    return label;
}

// A stored text that is no step is said in Findings.
std::optional<core::Rpm> noticeableStep(const core::project::Snapshot& snapshot) {
    const auto step = core::findings::noticeableStep(snapshot);
    return step ? step.value() : std::nullopt;
}

}  // namespace

ReadingCard::ReadingCard(ReadingDesk& desk, const ReadingActions& actions, QWidget* parent)
    : QWidget{parent}, m_desk{desk} {
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(10, 8, 10, 8);
    column->setSpacing(6);
    m_title = wrappingLabel(this);
    m_subtitle = wrappingLabel(this);
    m_state = wrappingLabel(this);
    column->addWidget(m_title);
    column->addWidget(m_subtitle);
    column->addWidget(m_state);
    m_scroll = new QScrollArea{this};
    m_scroll->setFrameShape(QFrame::NoFrame);
    m_scroll->setWidgetResizable(true);
    m_scroll->setHorizontalScrollBarPolicy(Qt::ScrollBarAlwaysOff);
    m_scroll->setFocusPolicy(Qt::NoFocus);
    m_scroll->setWidget(makeBody(actions));
    column->addWidget(m_scroll, 1);
    m_notice = wrappingLabel(this);
    m_notice->setObjectName(QStringLiteral("notice"));
    m_notice->hide();
    column->addWidget(m_notice);
    column->addWidget(makeReasonRow());
    column->addWidget(makeDecisions(actions));
    styleFonts();
    connect(&desk, &ReadingDesk::viewChanged, this, &ReadingCard::refresh);
    connect(&desk, &ReadingDesk::shotClosed, this, &ReadingCard::refresh);
    connect(&desk, &ReadingDesk::shotOpened, this, &ReadingCard::closeReason);
    connect(&desk, &ReadingDesk::failed, this, &ReadingCard::showNotice);
    refresh();
}

QWidget* ReadingCard::makeBody(const ReadingActions& actions) {
    auto* body = new QWidget;
    auto* column = new QVBoxLayout{body};
    column->setContentsMargins(0, 4, 4, 4);
    column->setSpacing(6);
    m_rate = new QLabel{body};
    m_rate->setObjectName(QStringLiteral("rate"));
    m_rate->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_rate->setFocusPolicy(Qt::NoFocus);
    m_interval = wrappingLabel(body);
    m_bar = new IntervalBar{body};
    m_nextStep = wrappingLabel(body);
    m_facts = new FactList{body};
    m_remarks = new RemarkList{body};
    m_proposal = new ProposalPanel{*actions.keepFit, body};
    m_proposal->hide();
    m_budget = new BudgetTable{body};
    m_budget->hide();
    m_budgetButton = makeBudgetButton(body);
    column->addWidget(m_rate);
    column->addWidget(m_interval);
    column->addWidget(m_bar);
    column->addWidget(m_nextStep);
    column->addWidget(m_facts);
    column->addWidget(m_remarks);
    column->addWidget(m_budgetButton, 0, Qt::AlignLeft);
    column->addWidget(m_budget);
    column->addWidget(m_proposal);
    column->addStretch(1);
    return body;
}

QToolButton* ReadingCard::makeBudgetButton(QWidget* parent) {
    auto* button = new QToolButton{parent};
    button->setText(tr("Uncertainty budget"));
    button->setToolTip(tr("Show what the uncertainty consists of"));
    button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    button->setArrowType(Qt::RightArrow);
    button->setAutoRaise(true);
    button->setCheckable(true);
    button->setFocusPolicy(Qt::TabFocus);
    connect(button, &QToolButton::toggled, this, [this, button](bool open) {
        button->setArrowType(open ? Qt::DownArrow : Qt::RightArrow);
        m_budget->setVisible(open && m_desk.hasShot() && m_desk.view().reading);
    });
    return button;
}

QWidget* ReadingCard::makeReasonRow() {
    m_reasonRow = new QWidget{this};
    auto* column = new QVBoxLayout{m_reasonRow};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(3);
    m_reason = new ReasonEdit{m_reasonRow};
    m_reason->setObjectName(QStringLiteral("reason"));
    m_reason->setPlaceholderText(tr("Why? For example: mishit"));
    auto* help = wrappingLabel(m_reasonRow);
    help->setText(tr("Enter sets the shot aside, Escape leaves it."));
    column->addWidget(m_reason);
    column->addWidget(help);
    m_reasonRow->hide();
    connect(m_reason, &ReasonEdit::given, this, [this](const QString& reason) {
        if (m_desk.setAside(reason)) {
            closeReason();
            Q_EMIT wasSetAside();
        }
    });
    connect(m_reason, &ReasonEdit::givenUp, this, &ReadingCard::closeReason);
    return m_reasonRow;
}

QWidget* ReadingCard::makeDecisions(const ReadingActions& actions) {
    auto* row = new QWidget{this};
    auto* grid = new QGridLayout{row};
    grid->setContentsMargins(0, 0, 0, 0);
    grid->setSpacing(6);
    const auto button = [&](QAction* action) {
        auto* made = new QToolButton{row};
        made->setDefaultAction(action);
        made->setFocusPolicy(Qt::TabFocus);
        made->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
        return made;
    };
    auto* keep = button(actions.keep);
    keep->setObjectName(QStringLiteral("keepButton"));
    style::setRank(keep, style::Rank::Primary);
    grid->addWidget(keep, 0, 0, 1, 2);
    grid->addWidget(button(actions.doubtful), 1, 0);
    grid->addWidget(button(actions.setAside), 1, 1);
    m_reopen = new QToolButton{row};
    m_reopen->setObjectName(QStringLiteral("reopen"));
    m_reopen->setText(tr("Reopen"));
    m_reopen->setToolTip(tr("Take the decision back, so that the shot is to be read again"));
    m_reopen->setFocusPolicy(Qt::TabFocus);
    m_reopen->setAutoRaise(true);
    m_reopen->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
    connect(m_reopen, &QToolButton::clicked, &m_desk, &ReadingDesk::reopen);
    grid->addWidget(m_reopen, 2, 0, 1, 2);
    return row;
}

void ReadingCard::styleFonts() {
    using style::TextSize;
    m_title->setFont(style::textFont(font(), TextSize::Body, style::Weight::Strong));
    m_rate->setFont(
        style::textFont(style::tabularFont(font()), TextSize::Head, style::Weight::Strong));
}

void ReadingCard::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::FontChange) {
        styleFonts();
        refresh();
    }
}

void ReadingCard::refresh() {
    refreshHead();
    refreshRate();
    refreshFacts();
    if (m_desk.hasShot()) {
        m_proposal->show(m_desk.view());
    } else {
        m_proposal->hide();
    }
    refreshDecision();
}

QString ReadingCard::cellText(const ShotView& view) {
    if (view.second) {
        return tr("Whose shot it is, and what is known of it, is hidden.");
    }
    if (view.areNamesHidden) {
        return tr("Whose shot it is shows when Hide names is off.");
    }
    return view.cellName.isEmpty() ? tr("Not assigned: say on the Footage screen whose shot it is.")
                                   : view.cellName;
}

void ReadingCard::refreshHead() {
    if (!m_desk.hasShot()) {
        m_title->setText(tr("No shot"));
        m_subtitle->setText(tr("Choose a shot in the list, or add clips on the Footage screen."));
        return;
    }
    const ShotView& view = m_desk.view();
    m_title->setText(view.areNamesHidden ? view.name
                                         : tr("%1 of %2").arg(view.name, view.clipName));
    m_subtitle->setText(cellText(view));
}

void ReadingCard::refreshRate() {
    const bool hasReading = m_desk.hasShot() && m_desk.view().reading.has_value();
    m_rate->setText(rateText());
    m_rate->setVisible(m_desk.hasShot());
    m_interval->setVisible(hasReading);
    m_budgetButton->setVisible(hasReading);
    m_budget->setVisible(hasReading && m_budgetButton->isChecked());
    if (!hasReading) {
        m_bar->setContent(std::nullopt);
        return;
    }
    const auto& reading = *m_desk.view().reading;
    const double sigma = reading.standardUncertainty.rpm;
    m_interval->setText(tr("95 %: %1 to %2 rpm · u %3 rpm")
                            .arg(valueText(reading.interval95.low.rpm, sigma),
                                 valueText(reading.interval95.high.rpm, sigma),
                                 valueText(sigma, sigma)));
    m_bar->setContent(IntervalBar::Content{reading.estimate, reading.interval95, reading.bounds,
                                           noticeableStep(*m_desk.store().snapshot())});
    m_budget->setBudget(reading.budget);
}

void ReadingCard::refreshFacts() {
    const bool hasShot = m_desk.hasShot();
    const QString next = hasShot ? nextStepOf(m_desk.view()) : QString{};
    m_nextStep->setText(next);
    m_nextStep->setVisible(!next.isEmpty());
    m_facts->setFacts(hasShot ? factsOf(m_desk.view()) : QList<QPair<QString, QString>>{});
    m_remarks->setRemarks(hasShot ? remarksOf(m_desk.view()) : QList<Remark>{});
}

void ReadingCard::refreshDecision() {
    m_reopen->setVisible(false);
    m_state->setVisible(m_desk.hasShot());
    if (!m_desk.hasShot()) {
        return;
    }
    const auto& shot = m_desk.view().shot;
    QString text = nameOf(stateOf(shot));
    if (shot.standing == core::project::ShotStanding::SetAside) {
        text = tr("set aside: %1").arg(QString::fromStdString(shot.reason));
    }
    const auto snapshot = m_desk.store().snapshot();
    const auto* kept = shot.counting ? snapshot->readings.find(*shot.counting) : nullptr;
    if (shot.standing == core::project::ShotStanding::Kept && kept != nullptr) {
        text = tr("kept: %1 rpm").arg(valueText(kept->rate.value.rpm, kept->rate.sigma.rpm));
        if (kept->method == core::project::ReadingMethod::RotationFit) {
            text += tr(", from the pictures");
        } else if (const auto& now = m_desk.view().reading;
                   !now || now->estimate != kept->rate.value) {
            text += tr(" (the marks say otherwise now: keep again)");
        }
        if (shot.doubtful) {
            text += tr(", doubtful");
        }
    }
    m_state->setText(text);
    m_reopen->setVisible(shot.standing != core::project::ShotStanding::Open);
}

QString ReadingCard::rateText() const {
    if (!m_desk.hasShot() || !m_desk.view().reading) {
        return tr("– rpm");
    }
    const auto& reading = *m_desk.view().reading;
    return tr("%1 rpm").arg(valueText(reading.estimate.rpm, reading.standardUncertainty.rpm));
}

QString ReadingCard::noticeText() const {
    return m_notice->text();
}

void ReadingCard::askReason() {
    if (m_desk.hasShot()) {
        m_reasonRow->show();
        m_reason->setFocus(Qt::ShortcutFocusReason);
    }
}

void ReadingCard::closeReason() {
    const bool wasOpen = !m_reasonRow->isHidden();
    m_reason->clear();
    m_reasonRow->hide();
    if (wasOpen) {
        Q_EMIT reasonClosed();
    }
}

void ReadingCard::showNotice(const QString& text) {
    m_notice->setText(text);
    m_notice->setVisible(!text.isEmpty());
}

}  // namespace ui::reading
