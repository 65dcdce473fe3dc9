#include "ui/footage/session_panel.h"

#include <QComboBox>
#include <QFormLayout>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/number.h"
#include "core/base/words.h"
#include "ui/footage/marking_box.h"
#include "ui/footage/stroke_box.h"
#include "ui/models/clip_words.h"
#include "ui/models/number_text.h"
#include "ui/style/hold_back.h"
#include "ui/style/let_go.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/remark_line.h"
#include "ui/style/rows_layout.h"
#include "ui/style/text_font.h"
#include "ui/style/tokens.h"

namespace ui::footage {
namespace {

using core::intake::DaySetUp;
using core::project::BallMarking;

constexpr int kNumberDigits = 9;
constexpr int kNameDigits = 28;
constexpr std::size_t kMostClipsNamed = 3;
constexpr double kLeastBallMm = 5.0;  // a marble is larger

struct FieldLook {
    const char* name;
    const char* label;
    const char* unit;
    const char* tip;
    double scale;  ///< from what is kept to what is shown
    double most;   ///< as shown
};

constexpr std::array<FieldLook, 5> kLooks{{
    {"day_diameter", QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "Ball diameter"),
     QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "mm"),
     QT_TRANSLATE_NOOP(
         "ui::footage::SessionPanel",
         "With it the fall of the ball checks the capture rate, and speeds are known"),
     1.0, 500.0},
    {"day_rate", QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "Capture rate"),
     QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "frames/s"),
     QT_TRANSLATE_NOOP(
         "ui::footage::SessionPanel",
         "At which the camera sampled, as its manual or menu says; slow motion plays slower"),
     1.0, 1e6},
    {"day_exposure", QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "Exposure"),
     QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "ms"),
     QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "How long the shutter is open: 1 for 1/1000 s"),
     1000.0, 1000.0},
    {"day_readout", QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "Shutter readout"),
     QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "ms"),
     QT_TRANSLATE_NOOP("ui::footage::SessionPanel",
                       "Time that a rolling shutter takes from the top row to the bottom row"),
     1000.0, 1000.0},
    {"day_field_of_view", QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "Field of view"), "°",
     QT_TRANSLATE_NOOP("ui::footage::SessionPanel", "Horizontal angle that the camera sees"), 1.0,
     179.0},
}};

QString shown(const std::optional<double>& value, double scale) {
    return value ? models::shortDecimal(*value * scale) : QString{};
}

QLabel* words() {
    auto* label = new QLabel;
    style::showPlainWords(label);
    return label;
}

QWidget* withUnit(QLineEdit* field, const QString& unit) {
    auto* place = new QWidget;
    auto* row = new QHBoxLayout{place};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(field);
    row->addWidget(new QLabel{unit});
    row->addStretch(1);
    return place;
}

}  // namespace

SessionPanel::SessionPanel(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_title{words()},
      m_source{words()},
      m_marking{makeMarkingBox()},
      m_stroke{makeStrokeBox()},
      m_camera{new QLineEdit},
      m_message{words()},
      m_remarks{new QVBoxLayout},
      m_resting{words()},
      m_use{new QPushButton},
      m_close{new QPushButton{tr("Not now")}} {
    m_title->setObjectName(QStringLiteral("day_title"));
    style::setTextSize(m_title, style::TextSize::Title, style::Weight::Strong);
    m_source->setObjectName(QStringLiteral("day_source"));
    m_source->setForegroundRole(QPalette::PlaceholderText);
    m_message->setObjectName(QStringLiteral("day_trouble"));
    m_resting->setObjectName(QStringLiteral("day_resting"));
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(style::kCardsPx, style::kBetweenPx, style::kCardsPx,
                               style::kBetweenPx);
    layout->setSpacing(style::kBetweenPx);
    layout->addWidget(m_title);
    layout->addWidget(m_source);
    layout->addWidget(makeForm());
    layout->addWidget(m_message);
    layout->addLayout(m_remarks);
    layout->addWidget(m_resting);
    layout->addWidget(makeButtons());
    layout->addStretch(1);
    connectParts();
    style::holdBack({m_use}, QString::fromStdString(store.readOnlyReason()));
    refresh();
}

QWidget* SessionPanel::makeForm() {
    m_marking->setObjectName(QStringLiteral("day_marking"));
    m_stroke->setObjectName(QStringLiteral("day_stroke"));
    const int digit = fontMetrics().horizontalAdvance(QLatin1Char('0'));
    auto* place = new QWidget;
    auto* form = new QFormLayout{place};
    form->setContentsMargins(0, 0, 0, 0);
    form->setVerticalSpacing(style::kPairPx);
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    form->setLabelAlignment(Qt::AlignRight | Qt::AlignVCenter);
    form->setFieldGrowthPolicy(QFormLayout::ExpandingFieldsGrow);
    for (std::size_t i = 0; i < kLooks.size(); ++i) {
        const FieldLook& look = kLooks[i];
        auto* field = m_fields[i] = new QLineEdit;
        field->setObjectName(QLatin1String{look.name});
        field->setAccessibleName(QStringLiteral("%1, %2").arg(tr(look.label), tr(look.unit)));
        field->setPlaceholderText(tr("not known"));
        field->setToolTip(tr(look.tip));
        field->setFixedWidth(kNumberDigits * digit + 2 * style::kCardsPx);
        form->addRow(tr(look.label), withUnit(field, tr(look.unit)));
        if (i == kDiameter) {
            form->addRow(tr("Ball marking"), m_marking);
            form->addRow(tr("Stroke"), m_stroke);
        }
    }
    m_camera->setObjectName(QStringLiteral("day_camera"));
    m_camera->setPlaceholderText(tr("side camera, 26 mm, 8 m away"));
    m_camera->setToolTip(
        tr("In your words; published with the method, so that others can film alike"));
    m_camera->setMinimumWidth(kNameDigits * digit);
    form->addRow(tr("Camera, lens, distance"), m_camera);
    return place;
}

QWidget* SessionPanel::makeButtons() {
    m_use->setObjectName(QStringLiteral("day_use"));
    style::setRank(m_use, style::Rank::Primary);
    m_use->setToolTip(
        tr("Keeps it for every clip of the day, also for those that come later "
           "(Enter); undo takes it back"));
    m_close->setObjectName(QStringLiteral("day_close"));
    m_close->setToolTip(tr("Leaves the set-up as it is (Escape)"));
    m_close->setShortcut(Qt::Key_Escape);
    style::setRank(m_close, style::Rank::Quiet);
    auto* place = new QWidget;
    auto* row = new style::RowsLayout{place, style::RowsLayout::Rest::Free};
    row->setContentsMargins(0, 0, 0, 0);
    row->setSpacing(style::kBetweenPx);
    row->addWidget(m_use);
    row->addWidget(m_close);
    return place;
}

void SessionPanel::connectParts() {
    for (QLineEdit* field : m_fields) {
        connect(field, &QLineEdit::textEdited, this, &SessionPanel::refreshConsequences);
        connect(field, &QLineEdit::returnPressed, this, &SessionPanel::use);
    }
    connect(m_camera, &QLineEdit::returnPressed, this, &SessionPanel::use);
    connect(m_marking, &QComboBox::activated, this, &SessionPanel::refreshConsequences);
    connect(m_stroke, &QComboBox::activated, this, &SessionPanel::refreshConsequences);
    connect(m_use, &QPushButton::clicked, this, &SessionPanel::use);
    connect(m_close, &QPushButton::clicked, this, &SessionPanel::closed);
    m_listening = m_store.listen([this](const core::project::Store::Change&) {
        if (isVisible()) {  // else showing it does
            refresh();
        }
    });
}

void SessionPanel::showSession(std::optional<core::project::SessionId> session) {
    if (m_session != session) {
        m_session = session;
        m_kept.reset();
    }
    refresh();
}

void SessionPanel::begin() {
    QLineEdit* first = m_fields[kDiameter];
    for (QLineEdit* field : {m_fields[kDiameter], m_fields[kRate]}) {
        if (field->text().isEmpty()) {
            first = field;
            break;
        }
    }
    first->setFocus(Qt::OtherFocusReason);
    first->selectAll();
}

void SessionPanel::showEvent(QShowEvent* event) {
    QWidget::showEvent(event);
    refresh();
}

/// What is being typed stays while clips come in.
void SessionPanel::refresh() {
    const auto snapshot = m_store.snapshot();
    const auto kept =
        m_session ? core::intake::setUpOf(*snapshot, *m_session)
                  : core::fail(core::ErrorCode::NotFound, tr("No filming day.").toStdString());
    setEnabled(static_cast<bool>(kept));
    if (!kept) {
        m_title->setText(tr("Filming day"));
        return;
    }
    if (m_kept != kept.value()) {
        m_kept = kept.value();
        fill(core::intake::proposedSetUp(*snapshot, *m_kept));
    }
    refreshDifferences();
    refreshConsequences();
}

void SessionPanel::fill(const core::intake::ProposedSetUp& proposed) {
    m_filled = proposed.setUp;
    const auto& day = m_filled.session;
    m_title->setText(tr("Filming day: %1").arg(QString::fromStdString(day.name)));
    m_marking->setCurrentIndex(static_cast<int>(day.marking));
    m_stroke->setCurrentIndex(static_cast<int>(day.stroke));
    const std::array<std::optional<double>, kFieldCount> values{
        day.ballDiameterMm,
        m_filled.captureRate ? std::optional{m_filled.captureRate->fps.toDouble()} : std::nullopt,
        day.exposureSeconds, day.readoutSeconds, day.fieldOfViewDeg};
    for (std::size_t i = 0; i < m_fields.size(); ++i) {
        m_fields[i]->setText(shown(values[i], kLooks[i].scale));
        style::setWrong(m_fields[i], false);
    }
    m_camera->setText(QString::fromStdString(day.note));
    m_camera->setCursorPosition(0);  // long words are read from their beginning
    say({});
    QStringList sources;
    if (proposed.isFromPlan) {
        sources << tr("the plan");
    }
    if (!proposed.fromDayBefore.empty()) {
        sources << QString::fromStdString(proposed.fromDayBefore);
    }
    m_source->setText(sources.isEmpty()
                          ? tr("Said once for every clip of the day.")
                          : tr("Said once for every clip of the day. Filled in from %1: check that "
                               "it is right today.")
                                .arg(sources.size() == 1
                                         ? sources.front()
                                         : tr("%1 and %2").arg(sources[0], sources[1])));
}

std::optional<double> SessionPanel::numberIn(Field field, double most, bool& isWrong) {
    const std::string text = m_fields[field]->text().toStdString();
    const auto value = models::typedNumber(m_fields[field]->text(), most);
    const bool isTooSmall =
        value && value.value() && field == kDiameter && *value.value() < kLeastBallMm;
    // Zero is a readout too: all rows at once.
    const auto zero = field == kReadout ? core::numberFrom(text) : core::Result<double>{1.0};
    if (zero && zero.value() == 0.0) {
        style::setWrong(m_fields[field], false);
        return 0.0;
    }
    style::setWrong(m_fields[field], !value || isTooSmall);
    if (!value || isTooSmall) {
        isWrong = true;
        say(QStringLiteral("%1: %2").arg(
            tr(kLooks[field].label), isTooSmall ? tr("enter it in mm, %1 or more").arg(kLeastBallMm)
                                                : QString::fromStdString(value.error().message)));
        return std::nullopt;
    }
    return value.value();
}

std::optional<DaySetUp> SessionPanel::entered() {
    if (!m_kept) {
        return std::nullopt;
    }
    say({});
    DaySetUp next = m_filled;
    auto& day = next.session;
    bool isWrong = false;
    // A field that still shows what it was filled with leaves that number with all its digits.
    const auto take = [this, &isWrong](std::optional<double>& stored, Field field) {
        const FieldLook& look = kLooks[field];
        const auto typed = numberIn(field, look.most, isWrong);
        if (m_fields[field]->text() != shown(stored, look.scale)) {
            stored = typed ? std::optional{*typed / look.scale} : std::nullopt;
        }
    };
    day.marking = static_cast<BallMarking>(m_marking->currentIndex());
    day.stroke = static_cast<core::project::Stroke>(m_stroke->currentIndex());
    day.note = m_camera->text().trimmed().toStdString();
    take(day.ballDiameterMm, kDiameter);
    take(day.exposureSeconds, kExposure);
    take(day.readoutSeconds, kReadout);
    take(day.fieldOfViewDeg, kFieldOfView);
    std::optional<double> rate =
        next.captureRate ? std::optional{next.captureRate->fps.toDouble()} : std::nullopt;
    const auto before = rate;
    take(rate, kRate);
    if (isWrong) {
        return std::nullopt;
    }
    next.isDiameterNotKnown = !day.ballDiameterMm;
    if (rate != before) {
        next.captureRate.reset();
        if (rate) {
            const auto exact = core::timebase::captureRateFromDecimal(*rate);
            if (!exact) {
                style::setWrong(m_fields[kRate], true);
                say(QString::fromStdString(exact.error().message));
                return std::nullopt;
            }
            next.captureRate = exact.value();
        }
    }
    return next;
}

void SessionPanel::refreshConsequences() {
    m_resting->hide();
    m_use->setText(tr("Use for this day"));
    const auto next = entered();
    if (!next) {
        return;
    }
    const auto change = core::intake::factChangeOf(m_store, *next);
    if (!change) {
        say(QString::fromStdString(change.error().message));
        return;
    }
    const auto snapshot = m_store.snapshot();
    const auto shots = core::intake::keptShotsRestingOn(*snapshot, change.value());
    if (shots.empty()) {
        return;
    }
    m_use->setText(tr("Use, read %1 again").arg(shots.size()));
    m_resting->setText(
        tr("%1 on what you changed: %2. They are read again and stay kept with their "
           "new numbers; the old ones stay in the history.")
            .arg(QString::fromStdString(
                     core::counted(shots.size(), "kept shot rests", "kept shots rest")),
                 QString::fromStdString(
                     core::intake::namesOfShots(*snapshot, shots, kMostClipsNamed))));
    m_resting->show();
}

void SessionPanel::refreshDifferences() {
    style::emptyLayout(*m_remarks);
    const auto snapshot = m_store.snapshot();
    QStringList names;
    QString first;
    for (const auto& [clip, difference] : core::intake::differencesFromDay(*snapshot)) {
        if (snapshot->clips.find(clip)->session == m_session) {
            names << QString::fromStdString(core::project::clipName(*snapshot, clip));
            first = first.isEmpty() ? QString::fromStdString(difference) : first;
        }
    }
    if (names.isEmpty()) {
        return;
    }
    const auto count = static_cast<std::size_t>(names.size());
    QString named = names.mid(0, kMostClipsNamed).join(QStringLiteral(", "));
    if (count > kMostClipsNamed) {
        named = tr("%1 and %2 more").arg(named).arg(count - kMostClipsNamed);
    }
    m_remarks->addWidget(new style::RemarkLine{
        style::RemarkKind::Question,
        QString::fromStdString(core::counted(count, "clip differs", "clips differ")),
        QStringLiteral("%1. %2").arg(named, first)});
}

void SessionPanel::use() {
    const auto next = entered();
    if (!next || !m_store.readOnlyReason().empty()) {
        return;
    }
    const auto done = core::intake::setUpDay(m_store, *next);
    if (!done) {
        say(QString::fromStdString(done.error().message));
        return;
    }
    Q_EMIT readAgainWanted(done.value());
    Q_EMIT closed();
}

void SessionPanel::say(const QString& trouble) {
    m_message->setText(trouble);
    m_message->setVisible(!trouble.isEmpty());
}

}  // namespace ui::footage
