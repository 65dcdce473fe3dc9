#include "ui/plan/settings_panel.h"

#include <QComboBox>
#include <QFormLayout>
#include <QGroupBox>
#include <QHBoxLayout>
#include <QLineEdit>
#include <QPushButton>
#include <QRandomGenerator>
#include <QSpinBox>
#include <QVBoxLayout>

#include "core/base/number.h"
#include "core/findings/settings.h"
#include "ui/models/clip_words.h"
#include "ui/models/number_text.h"
#include "ui/plan/plan_desk.h"
#include "ui/style/rank.h"

namespace ui::plan {
namespace {

using core::plan::Plan;

constexpr double kMillisecondsPerSecond = 1000.0;
constexpr double kMostTyped = 1e9;

QComboBox* choice(const char* name, const QStringList& items, const QString& tip) {
    auto* box = new QComboBox;
    box->setObjectName(QLatin1String{name});
    box->addItems(items);
    box->setToolTip(tip);
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(12);
    return box;
}

/// A number is as wide as it needs, however wide the window is.
void keepNarrow(QWidget* field) {
    field->setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
}

QString shownNumber(const std::optional<double>& value, double scale = 1.0) {
    return value ? models::shortDecimal(*value * scale) : QString{};
}

void put(QLineEdit* field, const QString& text) {
    if (field->text() != text) {
        field->setText(text);
        field->setCursorPosition(0);  // long words are read from their beginning
    }
}

void put(QSpinBox* box, int value) {
    const QSignalBlocker quiet{box};
    box->setValue(value);
}

/// A field of a number that may be unknown: stored when it is left, refused when it is none.
void bindNumber(PlanDesk& desk, QLineEdit* field, double scale,
                std::function<std::optional<double>&(Plan&)> place) {
    QObject::connect(field, &QLineEdit::editingFinished, field, [&desk, field, scale, place] {
        Plan now = desk.plan();
        if (field->text() == shownNumber(place(now), scale)) {
            return;
        }
        const auto value = models::typedNumber(field->text(), kMostTyped);
        if (!value) {
            desk.say(QString::fromStdString(value.error().message));
            return;
        }
        desk.change([&](Plan& plan) {
            place(plan) = value.value() ? std::optional{*value.value() / scale} : std::nullopt;
        });
    });
}

void bindCount(PlanDesk& desk, QSpinBox* box, int Plan::*member) {
    QObject::connect(box, &QSpinBox::valueChanged, box, [&desk, member](int value) {
        desk.change([member, value](Plan& plan) { plan.*member = value; });
    });
}

void bindText(PlanDesk& desk, QLineEdit* field, std::string Plan::*member) {
    QObject::connect(field, &QLineEdit::editingFinished, field, [&desk, field, member] {
        desk.change([&](Plan& plan) { plan.*member = field->text().trimmed().toStdString(); });
    });
}

}  // namespace

SettingsPanel::SettingsPanel(PlanDesk& desk, QWidget* parent) : QWidget{parent}, m_desk{desk} {
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 4, 0);
    makeShots();
    makeBall();
    makeCamera();
    layout->addStretch();
    connectFields();
    connect(&desk, &PlanDesk::changed, this, &SettingsPanel::refresh);
    refresh();
}

QFormLayout* SettingsPanel::group(const QString& title) {
    auto* box = new QGroupBox{title};
    layout()->addWidget(box);
    auto* form = new QFormLayout{box};
    form->setFieldGrowthPolicy(QFormLayout::AllNonFixedFieldsGrow);
    return form;
}

QSpinBox* SettingsPanel::number(const char* name, int most, const QString& tip) {
    auto* box = new QSpinBox;
    box->setObjectName(QLatin1String{name});
    box->setRange(1, most);
    box->setKeyboardTracking(false);
    box->setToolTip(tip);
    keepNarrow(box);
    return box;
}

QLineEdit* SettingsPanel::line(const char* name, const QString& placeholder, const QString& tip) {
    auto* field = new QLineEdit;
    field->setObjectName(QLatin1String{name});
    field->setPlaceholderText(placeholder);
    field->setToolTip(tip);
    return field;
}

void SettingsPanel::makeShots() {
    m_session = line("session", tr("what the day is called"),
                     tr("Stands on the shot list and on every slate card"));
    m_hitters = line("hitters", tr("names with commas between"),
                     tr("Who swings; several names with commas between them"));
    m_shotsPerCell = number("shots_per_cell", core::plan::kMaxShotsPerCell,
                            tr("Shots of every hitter with every implement"));
    m_shotsPerVisit = number("shots_per_visit", core::plan::kMaxShotsPerCell,
                             tr("Shots in a row before the implement changes"));
    m_order = choice("order",
                     {tr("random"), tr("implement by implement"),
                      tr("balanced places (Latin square)"), tr("balanced (Williams)")},
                     tr("So that fatigue and practice do not favour one implement"));
    m_seed = line("seed", {}, tr("The same seed gives the same order on every machine"));
    m_newSeed = new QPushButton{tr("Draw")};
    style::setRank(m_newSeed, style::Rank::Quiet);
    m_newSeed->setObjectName(QStringLiteral("new_seed"));
    m_newSeed->setShortcut(QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_D});
    m_newSeed->setToolTip(tr("Draws another order (Ctrl+Shift+D)"));
    m_control = choice("control", {},
                       tr("Repeated by every hitter at start, middle and end, to see "
                          "a drift over the day"));
    m_controlShots = number("control_shots", core::plan::kMaxShotsPerCell,
                            tr("Control shots of every hitter, each time"));
    m_swings = number("swings", core::plan::kMaxPlannedShots,
                      tr("Swings of one hitter before a rest; twenty is common practice"));
    m_rest = number("rest", 24 * 60, tr("Minutes of rest"));
    auto* seed = new QHBoxLayout;
    seed->addWidget(m_seed);
    seed->addWidget(m_newSeed);
    seed->addStretch(1);
    auto* form = group(tr("Shots and their order"));
    form->addRow(tr("Filming &day"), m_session);
    form->addRow(tr("H&itters"), m_hitters);
    form->addRow(tr("&Shots per cell"), m_shotsPerCell);
    form->addRow(tr("In a &row"), m_shotsPerVisit);
    form->addRow(tr("&Order"), m_order);
    form->addRow(tr("Seed"), seed);
    form->addRow(tr("&Control"), m_control);
    form->addRow(tr("Control shots"), m_controlShots);
    form->addRow(tr("S&wings between rests"), m_swings);
    form->addRow(tr("Rest, minutes"), m_rest);
}

void SettingsPanel::makeBall() {
    m_ball = line("ball", tr("make, age, pressure"), tr("Which ball is filmed"));
    m_marking = choice("marking",
                       {tr("three quarters dark"), tr("half dark"),
                        tr("band (alike after half a turn)"), tr("band with one dot"), tr("other")},
                       tr("How the ball is marked with the pen"));
    auto* form = group(tr("Ball"));
    form->addRow(tr("&Ball"), m_ball);
    form->addRow(tr("&Marking"), m_marking);
}

void SettingsPanel::makeCamera() {
    const QString unknown = tr("not known");
    m_captureRate = line("capture_rate", unknown, tr("Frames per second that the camera takes"));
    m_exposure = line("exposure", unknown, tr("Milliseconds the shutter is open: 1 for 1/1000 s"));
    m_expected = line("expected", unknown, tr("Spin you expect, in turns per minute"));
    m_scatter = line("scatter", unknown,
                     tr("Standard deviation from shot to shot that you expect; the readings of "
                        "this project replace it"));
    m_step = line("step", unknown,
                  tr("Difference in spin that matters to a player; Findings uses it too"));
    for (QLineEdit* field : {m_captureRate, m_exposure, m_expected, m_scatter, m_step, m_seed}) {
        keepNarrow(field);
    }
    auto* form = group(tr("Camera and what shall be seen"));
    form->addRow(tr("Cap&ture rate, per s"), m_captureRate);
    form->addRow(tr("&Exposure, ms"), m_exposure);
    form->addRow(tr("E&xpected spin, rpm"), m_expected);
    form->addRow(tr("Scatter, rpm"), m_scatter);
    form->addRow(tr("&Noticeable step, rpm"), m_step);
}

void SettingsPanel::connectFields() {
    bindText(m_desk, m_session, &Plan::session);
    bindText(m_desk, m_ball, &Plan::ball);
    bindCount(m_desk, m_shotsPerCell, &Plan::shotsPerCell);
    bindCount(m_desk, m_shotsPerVisit, &Plan::shotsPerVisit);
    bindCount(m_desk, m_controlShots, &Plan::controlShots);
    bindCount(m_desk, m_swings, &Plan::swingsBetweenRests);
    bindCount(m_desk, m_rest, &Plan::restMinutes);
    bindNumber(
        m_desk, m_captureRate, 1.0, [](Plan & plan) -> auto& { return plan.filming.captureFps; });
    bindNumber(
        m_desk, m_exposure, kMillisecondsPerSecond,
        [](Plan & plan) -> auto& { return plan.filming.exposureSeconds; });
    bindNumber(
        m_desk, m_expected, 1.0, [](Plan & plan) -> auto& { return plan.filming.expectedRpm; });
    bindNumber(
        m_desk, m_scatter, 1.0, [](Plan & plan) -> auto& { return plan.assumedScatterRpm; });
    connect(m_hitters, &QLineEdit::editingFinished, this, &SettingsPanel::takeHitters);
    connect(m_step, &QLineEdit::editingFinished, this, &SettingsPanel::takeStep);
    connect(m_seed, &QLineEdit::editingFinished, this, &SettingsPanel::takeSeed);
    connect(m_newSeed, &QPushButton::clicked, this, [this] {
        const auto drawn = QRandomGenerator::global()->bounded(1, 1000000);
        m_desk.change([drawn](Plan& plan) { plan.seed = static_cast<std::uint64_t>(drawn); });
    });
    connect(m_order, &QComboBox::activated, this, [this](int index) {
        m_desk.change(
            [index](Plan& plan) { plan.order = static_cast<core::plan::OrderKind>(index); });
    });
    connect(m_marking, &QComboBox::activated, this, [this](int index) {
        m_desk.change(
            [index](Plan& plan) { plan.marking = static_cast<core::plan::BallMarking>(index); });
    });
    connect(m_control, &QComboBox::activated, this, [this](int index) {
        m_desk.change([index](Plan& plan) {
            plan.control =
                index == 0 ? std::nullopt : std::optional{static_cast<std::size_t>(index - 1)};
        });
    });
}

void SettingsPanel::takeHitters() {
    std::vector<std::string> names;
    for (const QString& name : m_hitters->text().split(QLatin1Char(','))) {
        if (!name.trimmed().isEmpty()) {
            names.push_back(name.trimmed().toStdString());
        }
    }
    m_desk.change([&names](Plan& plan) { plan.hitters = names; });
}

void SettingsPanel::takeStep() {
    const auto step = core::findings::parseStep(m_step->text().toStdString());
    const auto done = step ? core::findings::setNoticeableStep(m_desk.store(), step.value())
                           : core::Result<void>{step.error()};
    m_desk.say(done ? QString{} : QString::fromStdString(done.error().message));
}

void SettingsPanel::takeSeed() {
    bool isWhole = false;
    const quint64 seed = m_seed->text().trimmed().toULongLong(&isWhole);
    if (isWhole) {
        m_desk.change([seed](Plan& plan) { plan.seed = seed; });
    } else {
        m_desk.say(tr("The seed \"%1\" is not a whole number.").arg(m_seed->text()));
    }
}

void SettingsPanel::refresh() {
    const Plan& plan = m_desk.plan();
    put(m_session, QString::fromStdString(plan.session));
    QStringList hitters;
    for (const auto& hitter : plan.hitters) {
        hitters << QString::fromStdString(hitter);
    }
    put(m_hitters, hitters.join(QStringLiteral(", ")));
    put(m_shotsPerCell, plan.shotsPerCell);
    put(m_shotsPerVisit, plan.shotsPerVisit);
    m_shotsPerVisit->setEnabled(plan.order != core::plan::OrderKind::Blocked);
    m_order->setCurrentIndex(static_cast<int>(plan.order));
    put(m_seed, QString::number(plan.seed));
    m_control->clear();
    m_control->addItem(tr("none"));
    for (std::size_t i = 0; i < plan.implements.size(); ++i) {
        m_control->addItem(QString::fromStdString(core::plan::implementLabel(plan, i)));
    }
    m_control->setCurrentIndex(plan.control ? static_cast<int>(*plan.control) + 1 : 0);
    put(m_controlShots, plan.controlShots);
    m_controlShots->setEnabled(plan.control.has_value());
    put(m_swings, plan.swingsBetweenRests);
    put(m_rest, plan.restMinutes);
    put(m_ball, QString::fromStdString(plan.ball));
    m_marking->setCurrentIndex(static_cast<int>(plan.marking));
    put(m_captureRate, shownNumber(plan.filming.captureFps));
    put(m_exposure, shownNumber(plan.filming.exposureSeconds, kMillisecondsPerSecond));
    put(m_expected, shownNumber(plan.filming.expectedRpm));
    put(m_scatter, shownNumber(plan.assumedScatterRpm));
    const auto step = core::findings::noticeableStep(*m_desk.snapshot());
    put(m_step, step && step.value() ? models::shortDecimal(step.value()->rpm) : QString{});
}

}  // namespace ui::plan
