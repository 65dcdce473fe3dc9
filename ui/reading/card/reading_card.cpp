#include "ui/reading/card/reading_card.h"

#include <QLabel>
#include <QPushButton>
#include <QTimer>
#include <QToolButton>
#include <QVBoxLayout>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/findings/settings.h"
#include "ui/reading/card/budget_table.h"
#include "ui/reading/card/diameter_question.h"
#include "ui/reading/card/fact_list.h"
#include "ui/reading/card/method_rows.h"
#include "ui/reading/card/reading_words.h"
#include "ui/reading/card/reason_edit.h"
#include "ui/reading/card/remark_list.h"
#include "ui/reading/card/shot_note.h"
#include "ui/reading/pictures/proposal_words.h"
#include "ui/reading/pictures/surface_map.h"
#include "ui/reading/reading_actions.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/shot/what_is_open.h"
#include "ui/style/rank.h"
#include "ui/style/rows_layout.h"
#include "ui/style/scrolled_down.h"
#include "ui/style/sign_label.h"
#include "ui/style/tabular_font.h"
#include "ui/style/text_font.h"

namespace ui::reading {
namespace {

using core::project::ShotStanding;

QLabel* wrappingLabel(QWidget* parent) {
    auto* label = new QLabel{parent};
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    return label;
}

QLabel* quietLabel(QWidget* parent) {
    auto* label = wrappingLabel(parent);
    label->setForegroundRole(QPalette::PlaceholderText);
    return label;
}

/// A name of a file without blanks, which may go on in the next line all the same; what kind of
/// file it is stays with the name.
QString breakable(QString name) {
    const QChar mayBreak{0x200b};
    const auto ending = name.lastIndexOf(QLatin1Char{'.'});
    const QString kind = ending < 0 ? QString{} : name.mid(ending);
    name.chop(kind.size());
    for (const QChar sign : {QLatin1Char{'_'}, QLatin1Char{'-'}, QLatin1Char{'.'}}) {
        name.replace(sign, QString{sign} + mayBreak);
    }
    return name + kind;
}

// A stored text that is no step is said in Findings.
std::optional<core::Rpm> noticeableStep(const core::project::Snapshot& snapshot) {
    const auto step = core::findings::noticeableStep(snapshot);
    return step ? step.value() : std::nullopt;
}

QList<Remark> allRemarksOf(const ShotView& view) {
    QList<Remark> remarks;
    if (const auto agreement = agreementOf(view)) {
        remarks << *agreement;
    }
    for (const QString& warning : fitWarnings(view)) {
        remarks << Remark{Remark::Kind::LooksAlike, warning};
    }
    return remarks + remarksOf(view);
}

}  // namespace

ReadingCard::ReadingCard(ReadingDesk& desk, const ReadingActions& actions, QWidget* parent)
    : QWidget{parent}, m_desk{desk}, m_actions{actions} {
    auto* column = new QVBoxLayout{this};
    column->setContentsMargins(style::kCardsPx, style::kBetweenPx, style::kCardsPx,
                               style::kBetweenPx);
    column->setSpacing(6);
    column->addWidget(makeHead());
    m_scroll = new style::ScrolledDown{makeBody()};
    column->addWidget(m_scroll, 1);
    m_notice = wrappingLabel(this);
    m_notice->setObjectName(QStringLiteral("notice"));
    m_notice->hide();
    column->addWidget(m_notice);
    column->addWidget(makeDecisions(actions));
    styleFonts();
    connect(&desk, &ReadingDesk::viewChanged, this, &ReadingCard::refresh);
    connect(&desk, &ReadingDesk::shotClosed, this, &ReadingCard::refresh);
    connect(&desk, &ReadingDesk::shotOpened, this, &ReadingCard::closeReason);
    connect(&desk, &ReadingDesk::failed, this, &ReadingCard::showNotice);
    connect(m_methods, &MethodRows::chosen, &desk, &ReadingDesk::chooseMethod);
    refresh();
    style::whenFontChanges(this, [this] { refresh(); });
}

QWidget* ReadingCard::makeHead() {
    auto* head = new QWidget{this};
    m_title = wrappingLabel(head);
    m_stateSign = new style::SignLabel{style::Sign::ToRead, style::Token::Quiet, head};
    m_state = wrappingLabel(head);
    m_state->setObjectName(QStringLiteral("shot_state"));
    m_state->setWordWrap(false);
    m_subtitle = wrappingLabel(head);
    auto* row = new QHBoxLayout;
    row->setSpacing(6);
    row->addWidget(m_title, 1);
    row->addWidget(m_stateSign, 0, Qt::AlignTop);
    row->addWidget(m_state, 0, Qt::AlignTop);
    auto* column = new QVBoxLayout{head};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(0);
    column->addLayout(row);
    column->addWidget(m_subtitle);
    return head;
}

QWidget* ReadingCard::makeBody() {
    auto* body = new QWidget;
    m_rate = new QLabel{body};
    m_rate->setObjectName(QStringLiteral("rate"));
    m_rate->setTextInteractionFlags(Qt::TextSelectableByMouse);
    m_rate->setFocusPolicy(Qt::NoFocus);
    m_unit = new QLabel{tr("rpm"), body};
    m_interval = quietLabel(body);
    m_source = quietLabel(body);
    m_source->setObjectName(QStringLiteral("source"));
    m_why = wrappingLabel(body);
    m_why->setObjectName(QStringLiteral("why_no_number"));
    m_helps = new QWidget{body};
    auto* helps = new QVBoxLayout{m_helps};
    helps->setContentsMargins(0, 0, 0, 0);
    helps->setSpacing(style::kPairPx);
    m_methods = new MethodRows{body};
    m_facts = new FactList{body};
    m_note = new ShotNote{m_desk, body};
    m_remarks = new RemarkList{body};
    m_budget = new BudgetTable{body};
    m_map = new SurfaceMap{body};
    m_budgetFold = makeFold(tr("Uncertainty budget"), tr("Show what the uncertainty consists of"),
                            m_budget, body);
    m_mapFold = makeFold(tr("Ball unrolled"),
                         tr("Show the surface of the ball, unrolled about its axis"), m_map, body);
    auto* number = new QHBoxLayout;
    number->setSpacing(6);
    number->addWidget(m_rate, 0, Qt::AlignBottom);
    number->addWidget(m_unit, 0, Qt::AlignBottom);
    number->addStretch(1);
    auto* column = new QVBoxLayout{body};
    column->setContentsMargins(0, 0, 4, 4);
    column->setSpacing(6);
    column->addLayout(number);
    auto* below = new QVBoxLayout;
    below->setSpacing(0);
    below->addWidget(m_interval);
    below->addWidget(m_source);
    column->addLayout(below);
    for (QWidget* part :
         std::initializer_list<QWidget*>{m_why, m_helps, m_methods, m_remarks, m_facts, m_note}) {
        column->addWidget(part);
    }
    column->addWidget(m_budgetFold, 0, Qt::AlignLeft);
    column->addWidget(m_budget);
    column->addWidget(m_mapFold, 0, Qt::AlignLeft);
    column->addWidget(m_map);
    column->addStretch(1);
    return body;
}

QToolButton* ReadingCard::makeFold(const QString& text, const QString& tip, QWidget* content,
                                   QWidget* parent) {
    auto* button = new QToolButton{parent};
    button->setText(text);
    button->setToolTip(tip);
    button->setToolButtonStyle(Qt::ToolButtonTextBesideIcon);
    button->setArrowType(Qt::RightArrow);
    button->setAutoRaise(true);
    button->setCheckable(true);
    button->setFocusPolicy(Qt::TabFocus);
    content->hide();
    connect(button, &QToolButton::toggled, this, [this, button](bool open) {
        button->setArrowType(open ? Qt::DownArrow : Qt::RightArrow);
        refreshFolds();
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
    auto* words = wrappingLabel(m_reasonRow);
    words->setText(tr("Enter sets the shot aside, Escape leaves it."));
    column->addWidget(m_reason);
    column->addWidget(words);
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
    auto* place = new QWidget{this};
    auto* column = new QVBoxLayout{place};
    column->setContentsMargins(0, 0, 0, 0);
    column->setSpacing(6);
    m_primary = new QPushButton{place};
    m_primary->setObjectName(QStringLiteral("keepButton"));
    m_primary->setFocusPolicy(Qt::TabFocus);
    m_primary->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Fixed);
    style::setRank(m_primary, style::Rank::Primary);
    for (const QAction* action : {actions.keep, actions.nextUnread}) {
        connect(action, &QAction::changed, this, &ReadingCard::refreshDecision);
    }
    connect(m_primary, &QPushButton::clicked, this, [this] {
        if (!m_primary->property("leadsOn").toBool()) {
            m_actions.keep->trigger();
        } else if (m_primary->property("isLast").toBool()) {
            Q_EMIT findingsWanted();
        } else {
            m_actions.nextUnread->trigger();
        }
    });
    m_lower = new QWidget{place};
    auto* row = new style::RowsLayout{m_lower};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(6);
    for (QAction* action : {actions.doubtful, actions.setAside}) {
        auto* made = new QToolButton{m_lower};
        made->setDefaultAction(action);
        made->setFocusPolicy(Qt::TabFocus);
        made->setSizePolicy(QSizePolicy::Expanding, QSizePolicy::Fixed);
        row->addWidget(made);
    }
    m_reopen = new QToolButton{m_lower};
    m_reopen->setObjectName(QStringLiteral("reopen"));
    m_reopen->setText(tr("Reopen"));
    m_reopen->setToolTip(tr("Makes this a shot to read again"));
    m_reopen->setFocusPolicy(Qt::TabFocus);
    m_reopen->setAutoRaise(true);
    connect(m_reopen, &QToolButton::clicked, &m_desk, &ReadingDesk::reopen);
    row->addWidget(m_reopen);
    column->addWidget(m_primary);
    column->addWidget(m_lower);
    column->addWidget(makeReasonRow());
    m_question = new DiameterQuestion{m_desk.store(), place};
    m_question->hide();
    column->addWidget(m_question);
    connect(m_question, &DiameterQuestion::givenUp, this, &ReadingCard::closeQuestion);
    connect(m_question, &DiameterQuestion::answered, this, [this](const auto& resting) {
        closeQuestion();
        Q_EMIT readAgainWanted(resting);
        Q_EMIT diameterAnswered();
    });
    return place;
}

void ReadingCard::styleFonts() {
    using style::TextSize;
    using style::Weight;
    m_title->setFont(style::textFont(font(), TextSize::Body, Weight::Strong));
    m_state->setFont(style::textFont(font(), TextSize::Small));
    m_rate->setFont(style::textFont(style::tabularFont(font()),
                                    m_headline.number.isEmpty() ? TextSize::Head : TextSize::Spin,
                                    Weight::Strong));
    m_unit->setFont(style::textFont(font(), TextSize::Title));
    // On the line of the number, whose letters reach lower.
    m_unit->setContentsMargins(0, 0, 0,
                               m_rate->fontMetrics().descent() - m_unit->fontMetrics().descent());
}

/// What was laid out before it was ever shown was reckoned with other fonts: lines would be cut.
void ReadingCard::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    QTimer::singleShot(0, this, [this] {
        for (QWidget* part : m_scroll->widget()->findChildren<QWidget*>()) {
            part->updateGeometry();
        }
    });
}

void ReadingCard::refresh() {
    m_headline =
        m_desk.hasShot() ? headlineOf(m_desk.view(), keptReading(), m_desk.method()) : Headline{};
    styleFonts();
    refreshHead();
    refreshState();
    refreshHeadline();
    refreshHelps();
    refreshFacts();
    refreshFolds();
    refreshDecision();
}

/// Of a second reading nothing earlier is shown.
const core::project::Reading* ReadingCard::keptReading() const {
    const auto& view = m_desk.view();
    const bool isKept = view.shot.standing == ShotStanding::Kept && view.shot.counting;
    return isKept && !view.second ? m_desk.store().snapshot()->readings.find(*view.shot.counting)
                                  : nullptr;
}

QString ReadingCard::cellText(const ShotView& view) {
    if (view.second) {
        return tr("Implement and hitter, and what is known of the shot, are hidden.");
    }
    if (view.areNamesHidden) {
        return tr("Implement and hitter appear when Hide names is off.");
    }
    return view.cellName.isEmpty() ? tr("Not assigned: choose implement and hitter in Footage.")
                                   : view.cellName;
}

void ReadingCard::refreshHead() {
    if (!m_desk.hasShot()) {
        m_title->setText(tr("No shot"));
        m_subtitle->setText(tr("Choose a shot in the list, or add clips in Footage."));
        return;
    }
    const ShotView& view = m_desk.view();
    m_title->setText(view.areNamesHidden ? view.name
                                         : tr("%1 of %2").arg(view.name, breakable(view.clipName)));
    m_subtitle->setText(cellText(view));
}

void ReadingCard::refreshState() {
    const bool hasShot = m_desk.hasShot();
    m_stateSign->setVisible(hasShot);
    m_state->setVisible(hasShot);
    if (hasShot) {
        const ShotState state = stateOf(m_desk.view().shot);
        const SignLook look = signOf(state);
        m_stateSign->setSign(look.sign, look.token);
        m_state->setText(nameOf(state));
    }
}

void ReadingCard::refreshHeadline() {
    const bool hasShot = m_desk.hasShot();
    const bool hasNumber = !m_headline.number.isEmpty();
    m_rate->setVisible(hasShot);
    m_unit->setVisible(hasNumber);
    m_rate->setText(hasNumber ? m_headline.number : m_headline.words);
    m_interval->setVisible(hasNumber);
    m_interval->setText(m_headline.interval);
    QString source = m_headline.source;
    if (hasShot) {
        if (m_headline.isSaidOtherwise) {
            source = tr("%1. Now read differently: keep again").arg(source);
        }
        const auto& shot = m_desk.view().shot;
        if (shot.standing == ShotStanding::SetAside) {
            source = tr("Set aside: %1").arg(QString::fromStdString(core::saidText(shot.reason)));
        }
        if (const QString spin = spinLine(m_desk.view()); !spin.isEmpty()) {
            source += QLatin1Char('\n') + spin;
        }
    }
    m_source->setText(source);
    m_source->setVisible(hasShot && !source.isEmpty());
}

void ReadingCard::refreshFolds() {
    const bool hasMarks = m_desk.hasShot() && m_desk.view().reading.has_value();
    m_budgetFold->setVisible(hasMarks);
    m_budget->setVisible(hasMarks && m_budgetFold->isChecked());
    if (hasMarks) {
        m_budget->setBudget(m_desk.view().reading->budget);
    }
    const auto* read = m_desk.hasShot() ? m_desk.view().pictureReading() : nullptr;
    m_mapFold->setVisible(read != nullptr);
    m_map->setVisible(read != nullptr && m_mapFold->isChecked());
    if (m_map->isVisibleTo(this)) {
        m_map->setReading(*read);
    }
}

void ReadingCard::refreshFacts() {
    const bool hasShot = m_desk.hasShot();
    if (hasShot) {
        m_methods->show(m_desk.view(), m_desk.method(), noticeableStep(*m_desk.store().snapshot()));
    }
    m_methods->setVisible(m_methods->isVisibleTo(this) && hasShot);
    m_facts->setFacts(hasShot ? factsOf(m_desk.view()) : QList<QPair<QString, QString>>{});
    m_remarks->setRemarks(hasShot ? allRemarksOf(m_desk.view()) : QList<Remark>{});
}

void ReadingCard::refreshDecision() {
    const bool isDecided = m_desk.hasShot() && m_desk.view().shot.standing != ShotStanding::Open;
    const bool leadsOn = isDecided && !m_headline.isSaidOtherwise && !m_desk.isBlind();
    const auto toKeep = m_desk.method();
    const auto number = toKeep ? numberOf(m_desk.view(), *toKeep) : std::nullopt;
    m_primary->setProperty("leadsOn", leadsOn);
    if (leadsOn) {
        const bool isLast = !isAnyToRead(*m_desk.store().snapshot());
        m_primary->setProperty("isLast", isLast);
        m_primary->setText(isLast ? tr("Go to Findings") : tr("Next shot to read"));
        m_primary->setToolTip(isLast ? tr("Every shot is decided")
                                     : m_actions.nextUnread->toolTip());
        m_primary->setEnabled(isLast || m_actions.nextUnread->isEnabled());
    } else {
        m_primary->setText(
            number ? tr("Keep %1 rpm, next").arg(valueText(number->rate.rpm, number->sigma.rpm))
                   : tr("Keep, next"));
        m_primary->setToolTip(m_actions.keep->toolTip());
        m_primary->setEnabled(m_actions.keep->isEnabled() && number.has_value());
    }
    m_reopen->setVisible(isDecided && !m_desk.isBlind());
    m_reopen->setEnabled(m_desk.store().readOnlyReason().empty());
}

QString ReadingCard::rateText() const {
    return m_headline.number.isEmpty() ? m_headline.words : tr("%1 rpm").arg(m_headline.number);
}

QString ReadingCard::noticeText() const {
    return m_notice->text();
}

void ReadingCard::askReason() {
    if (m_desk.hasShot()) {
        m_lower->hide();
        m_reasonRow->show();
        m_reason->setFocus(Qt::ShortcutFocusReason);
    }
}

void ReadingCard::closeReason() {
    closeQuestion();
    const bool wasOpen = !m_reasonRow->isHidden();
    m_reason->clear();
    m_reasonRow->hide();
    m_lower->show();
    if (wasOpen) {
        Q_EMIT reasonClosed();
    }
}

void ReadingCard::showNotice(const QString& text) {
    m_notice->setText(text);
    m_notice->setVisible(!text.isEmpty());
}

}  // namespace ui::reading
