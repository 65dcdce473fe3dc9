#include "ui/footage/clock_check_panel.h"

#include <QComboBox>
#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QLineEdit>
#include <QListWidget>
#include <QPushButton>
#include <QShortcut>
#include <QVBoxLayout>
#include <algorithm>

#include "core/base/number.h"
#include "core/base/words.h"
#include "core/intake/clock_evidence.h"
#include "core/intake/day_setup.h"
#include "core/plan/cautions.h"
#include "ui/footage/clip_time_line.h"
#include "ui/models/number_text.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"
#include "ui/style/rows_layout.h"
#include "ui/style/tokens.h"

namespace ui::footage {
namespace {

using core::project::ClipId;
using core::timebase::ClockCheck;
using core::timebase::ClockCheckResult;
using core::timebase::ReferenceReading;

enum Kind { kStopwatch, kTurning };
enum Reach { kAlike, kChosen, kThis };

QLabel* plainLabel(const QString& text = {}) {
    auto* label = new QLabel{text};
    style::showPlainWords(label);
    return label;
}

QLineEdit* named(const char* name, const QString& accessibleName, const QString& tip) {
    auto* field = new QLineEdit;
    field->setObjectName(QLatin1String{name});
    field->setAccessibleName(accessibleName);
    field->setToolTip(tip);
    return field;
}

QPushButton* button(const char* name, const QString& text, const QString& tip) {
    auto* made = new QPushButton{text};
    made->setObjectName(QLatin1String{name});
    style::setRank(made, style::Rank::Quiet);
    made->setToolTip(tip);
    return made;
}

QString clipsText(std::size_t count) {
    return QString::fromStdString(core::counted(count, "clip", "clips"));
}

bool hasCheck(const core::project::Clip& clip) {
    return std::any_of(clip.evidence.begin(), clip.evidence.end(),
                       [](const auto& one) { return std::holds_alternative<ClockCheck>(one); });
}

}  // namespace

ClockCheckPanel::ClockCheckPanel(core::project::Store& store, ClipTimeLine& timeLine,
                                 QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_timeLine{timeLine},
      m_kind{new QComboBox},
      m_caution{plainLabel(QString::fromStdString(core::plan::rigCaution()))},
      m_speedLabel{new QLabel{tr("Speed, rpm")}},
      m_speed{named("check_speed", tr("Speed in turns per minute"),
                    tr("Turns per minute, for example 33 1/3"))},
      m_toleranceLabel{new QLabel},
      m_tolerance{named("check_tolerance", tr("How well it is known"), {})},
      m_frameLabel{new QLabel},
      m_shown{named("check_shown", tr("What is shown in this frame"),
                    tr("What the frame in the picture above shows (Enter marks it)"))},
      m_mark{button("check_mark", tr("Mark"),
                    tr("Marks the frame in the picture above with it (Enter)"))},
      m_list{new QListWidget},
      m_remove{button("check_remove", tr("Remove"),
                      tr("Removes the chosen frame from the check (Delete)"))},
      m_reach{new QComboBox},
      m_says{plainLabel()},
      m_use{button("check_use", tr("Use this check"),
                   tr("The clocks of these clips use it; Undo takes it back"))},
      m_withdraw{
          button("check_withdraw", tr("Withdraw checks"),
                 tr("Withdraws the clock checks of this clip, for all clips that have them"))} {
    m_kind->setObjectName(QStringLiteral("check_kind"));
    m_kind->setToolTip(tr("What was filmed, with the settings of your clips"));
    m_kind->addItem(tr("Stopwatch"));
    m_kind->addItem(tr("Turntable or spinning rig"));
    m_reach->setObjectName(QStringLiteral("check_reach"));
    m_reach->setToolTip(tr("The clips that were filmed with the same settings"));
    m_reach->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    m_reach->setMinimumContentsLength(14);
    m_list->setObjectName(QStringLiteral("check_list"));
    m_list->setAccessibleName(tr("Instants of the check"));
    m_says->setObjectName(QStringLiteral("check_says"));
    m_caution->setObjectName(QStringLiteral("check_caution"));
    m_speed->setText(QStringLiteral("33 1/3"));
    layOut();
    connect(m_kind, &QComboBox::currentIndexChanged, this, &ClockCheckPanel::changeKind);
    connect(m_shown, &QLineEdit::returnPressed, this, &ClockCheckPanel::markFrame);
    connect(m_mark, &QPushButton::clicked, this, &ClockCheckPanel::markFrame);
    connect(m_remove, &QPushButton::clicked, this, &ClockCheckPanel::removeMark);
    auto* removeKey = new QShortcut{QKeySequence::Delete, m_list};
    removeKey->setContext(Qt::WidgetShortcut);
    connect(removeKey, &QShortcut::activated, this, &ClockCheckPanel::removeMark);
    connect(m_speed, &QLineEdit::textEdited, this, &ClockCheckPanel::showMarks);
    connect(m_tolerance, &QLineEdit::textEdited, this, &ClockCheckPanel::showMarks);
    connect(m_use, &QPushButton::clicked, this, &ClockCheckPanel::use);
    connect(m_withdraw, &QPushButton::clicked, this, &ClockCheckPanel::withdraw);
    connect(&m_timeLine, &ClipTimeLine::frameChosen, this, &ClockCheckPanel::refresh);
    m_listening = m_store.listen([this](const core::project::Store::Change& change) {
        if (change.clips) {
            refresh();
        }
    });
    changeKind();
}

void ClockCheckPanel::layOut() {
    auto* form = new QFormLayout;
    form->setContentsMargins(0, 0, 0, 0);
    form->setRowWrapPolicy(QFormLayout::WrapLongRows);
    form->addRow(tr("Filmed"), m_kind);
    form->addRow(m_speedLabel, m_speed);
    form->addRow(m_toleranceLabel, m_tolerance);
    auto* entry = new QHBoxLayout;
    entry->addWidget(m_shown, 1);
    entry->addWidget(m_mark);
    form->addRow(m_frameLabel, entry);
    auto* marks = new QHBoxLayout;
    m_list->setFixedHeight(4 * m_list->fontMetrics().height());
    marks->addWidget(m_list, 1);
    marks->addWidget(m_remove, 0, Qt::AlignTop);
    form->addRow(tr("Marked"), marks);
    form->addRow(tr("Counts for"), m_reach);
    auto* decide = new style::RowsLayout{nullptr, style::RowsLayout::Rest::Free};
    decide->setSpacing(style::kBetweenPx);
    decide->addWidget(m_use);
    decide->addWidget(m_withdraw);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(plainLabel(
        tr("Film something of known speed with the settings of your clips, and mark two or more "
           "frames, far apart, with what they show.")));
    layout->addWidget(m_caution);
    layout->addLayout(form);
    layout->addWidget(m_says);
    layout->addLayout(decide);
}

bool ClockCheckPanel::isTurning() const {
    return m_kind->currentIndex() == kTurning;
}

void ClockCheckPanel::showClip(std::optional<ClipId> clip) {
    if (clip != m_clip) {
        m_marks.clear();
        m_shown->clear();
    }
    m_clip = clip;
    showMarks();
}

void ClockCheckPanel::setChosenClips(std::vector<ClipId> clips) {
    m_chosen = std::move(clips);
    refresh();
}

/// What the marks mean is another thing now, so they go.
void ClockCheckPanel::changeKind() {
    m_marks.clear();
    m_caution->setVisible(isTurning());
    m_speedLabel->setVisible(isTurning());
    m_speed->setVisible(isTurning());
    m_toleranceLabel->setText(isTurning() ? tr("Known to ± %") : tr("Read to ± s"));
    m_tolerance->setText(
        isTurning() ? models::numberText(100.0 * core::timebase::kNominalSpeedSigma, 'g', 2)
                    : models::numberText(core::timebase::kStopwatchHalfWidth.seconds));
    m_tolerance->setToolTip(
        isTurning() ? tr("Standard uncertainty of the speed in per cent; the proposal is for a "
                         "speed that nobody has measured")
                    : tr("How well a picture of the stopwatch tells an instant, in seconds; the "
                         "proposal is for a stopwatch on a screen"));
    m_shown->setPlaceholderText(isTurning() ? tr("turns made, 0 in the first frame")
                                            : tr("for example 12.34 or 1:02.50"));
    showMarks();
}

void ClockCheckPanel::refresh() {
    const auto snapshot = m_store.snapshot();
    const auto* clip = m_clip ? snapshot->clips.find(*m_clip) : nullptr;
    setEnabled(clip != nullptr && !isTally(*clip));
    m_frameLabel->setText(tr("Frame %1").arg(m_timeLine.frame()));
    m_withdraw->setEnabled(clip != nullptr && hasCheck(*clip));
    const int reach = std::max(m_reach->currentIndex(), 0);
    const auto alike = m_clip ? core::intake::clipsFilmedAlike(*snapshot, *m_clip).size() : 0;
    m_reach->clear();
    m_reach->addItem(tr("%1 of the day with the same settings").arg(clipsText(alike)));
    m_reach->addItem(tr("%1 chosen in the list").arg(clipsText(m_chosen.size())));
    m_reach->addItem(tr("this clip only"));
    m_reach->setCurrentIndex(reach);
}

void ClockCheckPanel::markFrame() {
    const std::string typed = m_shown->text().toStdString();
    const auto shown =
        isTurning() ? core::numberFrom(typed) : core::timebase::parseStopwatch(typed);
    if (!shown) {
        say(shown.error());
        return;
    }
    const ReferenceReading mark{{m_timeLine.frame()}, shown.value()};
    std::erase_if(m_marks, [&mark](const auto& other) { return other.frame == mark.frame; });
    m_marks.insert(std::upper_bound(m_marks.begin(), m_marks.end(), mark,
                                    [](const auto& a, const auto& b) { return a.frame < b.frame; }),
                   mark);
    m_shown->clear();
    showMarks();
}

void ClockCheckPanel::removeMark() {
    const int row = m_list->currentRow();
    if (row >= 0) {
        m_marks.erase(m_marks.begin() + row);
        showMarks();
    }
}

void ClockCheckPanel::showMarks() {
    const int row = m_list->currentRow();
    m_list->clear();
    for (const auto& mark : m_marks) {
        m_list->addItem(tr("frame %1: %2 %3")
                            .arg(mark.frame.value)
                            .arg(models::numberText(mark.shown, 'g', 9))
                            .arg(isTurning() ? tr("turns") : QStringLiteral("s")));
    }
    m_list->setCurrentRow(std::min(row, m_list->count() - 1));
    m_use->setEnabled(m_marks.size() >= 2);
    m_remove->setEnabled(!m_marks.empty());
    if (m_marks.size() < 2) {
        m_says->clear();
    } else {
        const auto made = check();
        say(made ? core::timebase::evaluateClockCheck(made.value()) : made.error());
    }
    refresh();
}

core::Result<ClockCheck> ClockCheckPanel::check() const {
    BOOST_OUTCOME_TRY(tolerance, core::numberFrom(m_tolerance->text().toStdString()));
    if (!isTurning()) {
        return core::timebase::stopwatchCheck(m_marks, {tolerance});
    }
    BOOST_OUTCOME_TRY(speed, core::timebase::parseSpeed(m_speed->text().toStdString()));
    return core::timebase::turningCheck(m_marks, speed, tolerance / 100.0);
}

std::vector<ClipId> ClockCheckPanel::countsFor() const {
    switch (m_reach->currentIndex()) {
        case kAlike:
            return core::intake::clipsFilmedAlike(*m_store.snapshot(), *m_clip);
        case kChosen:
            return m_chosen;
        default:
            return {*m_clip};
    }
}

void ClockCheckPanel::use() {
    if (!m_clip) {
        return;
    }
    const auto before = m_store.snapshot();
    const auto made = check();
    const auto done = made
                          ? core::intake::addClockCheck(m_store, *m_clip, made.value(), countsFor())
                          : core::Result<ClockCheckResult>{made.error()};
    if (done) {
        m_marks.clear();
        showMarks();
        Q_EMIT readAgainWanted(
            core::intake::keptShotsRestingOnChange(*before, *m_store.snapshot()));
    }
    say(done);
}

void ClockCheckPanel::withdraw() {
    const auto before = m_store.snapshot();
    const auto done = core::intake::withdrawClockChecks(m_store, *m_clip);
    if (!done) {
        say(done.error());
        return;
    }
    m_says->clear();
    Q_EMIT readAgainWanted(core::intake::keptShotsRestingOnChange(*before, *m_store.snapshot()));
}

void ClockCheckPanel::say(const core::Result<ClockCheckResult>& outcome) {
    m_says->setText(outcome ? tr("Captured at %1 ± %2 frames per second (standard "
                                 "uncertainty).")
                                  .arg(models::numberText(outcome.value().rateFps, 'g', 7))
                                  .arg(models::numberText(outcome.value().sigmaFps, 'g', 2))
                            : QString::fromStdString(outcome.error().message));
}

}  // namespace ui::footage
