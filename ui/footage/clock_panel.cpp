#include "ui/footage/clock_panel.h"

#include <QCheckBox>
#include <QLabel>
#include <QLineEdit>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>
#include <array>

#include "core/base/number.h"
#include "core/base/words.h"
#include "core/intake/clock_evidence.h"
#include "ui/footage/tr.h"
#include "ui/models/clip_words.h"
#include "ui/models/number_text.h"
#include "ui/style/hold_back.h"
#include "ui/style/rank.h"
#include "ui/style/rows_layout.h"
#include "ui/style/tokens.h"

namespace ui::footage {
namespace {

using core::project::Clip;

QLabel* wrappedLabel() {
    auto* label = new QLabel;
    label->setWordWrap(true);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse | Qt::TextSelectableByKeyboard);
    label->setTextFormat(Qt::PlainText);
    return label;
}

QString bulleted(const QStringList& lines) {
    QStringList shown;
    for (const QString& line : lines) {
        shown << QStringLiteral("• ") + line;
    }
    return shown.join(QLatin1Char('\n'));
}

QString evidenceText(const Clip& clip) {
    QStringList lines;
    for (const auto& item : clip.evidence) {
        lines << QString::fromStdString(core::timebase::describe(item));
    }
    return bulleted(lines);
}

template <class Kind>
const Kind* firstOf(const Clip& clip) {
    for (const auto& item : clip.evidence) {
        if (const auto* found = std::get_if<Kind>(&item)) {
            return found;
        }
    }
    return nullptr;
}

}  // namespace

ClockPanel::ClockPanel(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_summary{wrappedLabel()},
      m_flight{wrappedLabel()},
      m_useFlight{new QPushButton},
      m_evidence{wrappedLabel()},
      m_rate{new QLineEdit},
      m_distrust{new QCheckBox{tr("Count frames, not time stamps")}},
      m_tagIsWrong{new QCheckBox{tr("Do not use the file's rate")}},
      m_use{new QPushButton{tr("Use this rate")}},
      m_withdraw{new QPushButton{tr("Withdraw")}},
      m_trouble{wrappedLabel()},
      m_resting{wrappedLabel()},
      m_remarks{wrappedLabel()} {
    layOut();
    style::holdBack({m_rate, m_use, m_withdraw, m_tagIsWrong, m_distrust, m_useFlight},
                    QString::fromStdString(store.readOnlyReason()));
    connect(m_use, &QPushButton::clicked, this, &ClockPanel::useEntry);
    connect(m_useFlight, &QPushButton::clicked, this, &ClockPanel::useFlight);
    connect(m_rate, &QLineEdit::returnPressed, this, &ClockPanel::useEntry);
    connect(m_rate, &QLineEdit::textEdited, this, &ClockPanel::refreshResting);
    connect(m_withdraw, &QPushButton::clicked, this, [this] {
        m_rate->clear();
        m_tagIsWrong->setChecked(false);
        m_distrust->setChecked(false);
        sendWord(std::nullopt);
    });
    connect(m_tagIsWrong, &QCheckBox::clicked, this, &ClockPanel::useEntry);
    connect(m_distrust, &QCheckBox::clicked, this, &ClockPanel::useEntry);
    m_listening = m_store.listen([this](const core::project::Store::Change& change) {
        if (change.clips || change.structure) {
            refresh();
        }
    });
    refresh();
}

void ClockPanel::layOut() {
    m_rate->setObjectName(QStringLiteral("capture_rate"));
    m_flight->setObjectName(QStringLiteral("flight_says"));
    m_resting->setObjectName(QStringLiteral("rate_resting"));
    m_useFlight->setObjectName(QStringLiteral("use_flight"));
    m_useFlight->setToolTip(
        tr("Uses this capture rate for all these clips; one Undo takes it back"));
    m_tagIsWrong->setObjectName(QStringLiteral("tag_is_wrong"));
    m_withdraw->setObjectName(QStringLiteral("withdraw"));
    m_rate->setPlaceholderText(tr("for example 240"));
    m_rate->setAccessibleName(tr("Capture rate in frames per second"));
    m_rate->setToolTip(tr("Frames that the camera took in a second, whatever the file plays at"));
    m_use->setToolTip(tr("This rate will be used, and your entry recorded (Enter)"));
    m_withdraw->setToolTip(tr("Removes your entry; the other evidence decides"));
    m_distrust->setToolTip(
        tr("For a clip whose times an editor changed: frame i is then taken at i / capture rate, "
           "whatever its time stamp says"));

    m_tagIsWrong->setToolTip(tr("The tag is still shown but not used; your entry decides"));

    style::setRank(m_withdraw, style::Rank::Quiet);
    m_rate->setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
    auto* entry = new style::RowsLayout{nullptr, style::RowsLayout::Rest::Free};
    entry->setSpacing(style::kBetweenPx);
    entry->addWidget(new QLabel{tr("Capture rate, frames/s")});
    entry->addWidget(m_rate);
    entry->addWidget(m_use);
    entry->addWidget(m_withdraw);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(m_summary);
    layout->addWidget(m_flight);
    layout->addWidget(m_useFlight, 0, Qt::AlignLeft);
    layout->addWidget(m_evidence);
    layout->addLayout(entry);
    layout->addWidget(m_tagIsWrong);
    layout->addWidget(m_distrust);
    layout->addWidget(m_resting);
    layout->addWidget(m_trouble);
    layout->addWidget(m_remarks);
}

void ClockPanel::showClip(std::optional<core::project::ClipId> clip) {
    m_clip = clip;
    m_rate->clear();
    refresh();
}

void ClockPanel::setChosenClips(std::vector<core::project::ClipId> clips) {
    m_chosen = std::move(clips);
    refreshFlight();
}

/// The chosen ones where several are, else all that were filmed alike; only those of this clock.
std::vector<core::project::ClipId> ClockPanel::clipsOfFlight() const {
    auto clips = core::intake::clipsOfTheSameClock(*m_store.snapshot(), *m_clip);
    if (m_chosen.size() > 1) {
        std::erase_if(clips, [this](core::project::ClipId clip) {
            return std::find(m_chosen.begin(), m_chosen.end(), clip) == m_chosen.end();
        });
    }
    return clips;
}

void ClockPanel::refreshFlight() {
    m_refuted = m_clip ? core::intake::refutedClock(m_store, *m_clip) : std::nullopt;
    m_flight->setVisible(m_refuted.has_value());
    m_useFlight->setVisible(m_refuted.has_value());
    if (m_refuted) {
        m_flight->setText(QString::fromStdString(m_refuted->statement));
        m_useFlight->setText(tr("Use %1 for %2")
                                 .arg(models::shortDecimal(m_refuted->likelier.fps.toDouble()),
                                      QString::fromStdString(
                                          core::counted(clipsOfFlight().size(), "clip", "clips"))));
    }
    style::setRank(m_useFlight, m_refuted ? style::Rank::Primary : style::Rank::Secondary);
}

void ClockPanel::useFlight() {
    if (!m_clip || !m_refuted) {
        return;
    }
    const auto done = core::intake::useRate(m_store, m_refuted->likelier, clipsOfFlight());
    if (done) {
        Q_EMIT readAgainWanted(done.value());
    } else {
        showTrouble(QString::fromStdString(done.error().message));
    }
}

/// What would be read again at the rate that is being typed.
void ClockPanel::refreshResting() {
    m_resting->hide();
    const auto rate = entered();
    if (!m_clip || !rate || !rate.value()) {
        return;
    }
    const auto change = core::intake::rateChangeOf(m_store, *rate.value(), std::array{*m_clip});
    const auto snapshot = m_store.snapshot();
    const auto shots = change ? core::intake::keptShotsRestingOn(*snapshot, change.value())
                              : std::vector<core::project::ShotId>{};
    if (!shots.empty()) {
        m_resting->setText(
            tr("%1 on this rate: %2. They are read again with it.")
                .arg(QString::fromStdString(
                         core::counted(shots.size(), "kept shot rests", "kept shots rest")),
                     QString::fromStdString(core::intake::namesOfShots(*snapshot, shots, 1))));
        m_resting->show();
    }
}

void ClockPanel::refresh() {
    const auto snapshot = m_store.snapshot();
    const Clip* clip = m_clip ? snapshot->clips.find(*m_clip) : nullptr;
    setEnabled(clip != nullptr);
    showTrouble({});
    m_resting->hide();
    refreshFlight();
    if (clip == nullptr) {
        m_summary->setText(tr("Choose a clip to see its clock."));
        m_evidence->clear();
        m_remarks->clear();
        return;
    }
    const QString plays =
        clip->playbackRate
            ? tr("%1 frames/s").arg(models::shortDecimal(clip->playbackRate->fps.toDouble()))
            : tr("an unknown rate");
    const QString captured = models::captureRateText(*clip);
    m_summary->setText(clip->clock
                           ? tr("Plays at %1, captured at %2 (%3; %4)")
                                 .arg(plays, captured, models::clockKindText(*clip),
                                      models::clockSourceText(*clip))
                           : tr("Plays at %1, captured at %2: shots on it cannot be read yet")
                                 .arg(plays, captured));
    m_evidence->setText(evidenceText(*clip));
    m_evidence->setVisible(!clip->evidence.empty());  // that there is none, the remarks say
    const auto* entry = firstOf<core::timebase::ReviewerEntry>(*clip);
    const auto* tag = firstOf<core::timebase::ContainerTag>(*clip);
    const bool isCounted = clip->clock && clip->clock->kind == core::timebase::ClockKind::Counted;
    if (entry != nullptr) {
        m_rate->setText(models::shortDecimal(entry->rate.fps.toDouble()));
    }
    m_withdraw->setEnabled(entry != nullptr || isCounted || (tag != nullptr && tag->isSetAside));
    m_tagIsWrong->setVisible(tag != nullptr);
    m_tagIsWrong->setChecked(tag != nullptr && tag->isSetAside);
    m_distrust->setChecked(isCounted);
    QStringList remarks;
    for (const auto& remark : allRemarks(*clip)) {
        remarks << QString::fromStdString(remark.message);
    }
    if (clip->wasSearchedForShots) {
        remarks << tr("Shots were looked for by sound and movement.");
    }
    m_remarks->setText(remarks.isEmpty() ? tr("No faults were found in the time stamps.")
                                         : bulleted(remarks));
}

core::Result<std::optional<core::timebase::CaptureRate>> ClockPanel::entered() const {
    constexpr double kMostFps = 1e6;
    BOOST_OUTCOME_TRY(fps, models::typedNumber(m_rate->text(), kMostFps));
    if (!fps) {
        return std::optional<core::timebase::CaptureRate>{};
    }
    BOOST_OUTCOME_TRY(rate, core::timebase::captureRateFromDecimal(*fps));
    return std::optional{rate};
}

void ClockPanel::useEntry() {
    const auto rate = entered();
    style::setWrong(m_rate, !rate);
    if (rate) {
        sendWord(rate.value());
    } else {
        showTrouble(QString::fromStdString(rate.error().message));
    }
}

void ClockPanel::sendWord(std::optional<core::timebase::CaptureRate> rate) {
    if (!m_clip) {
        return;
    }
    const auto before = m_store.snapshot();
    const auto done = core::intake::setReviewersWord(
        m_store, *m_clip,
        {rate,
         m_distrust->isChecked() ? core::timebase::StampTrust::NotTrusted
                                 : core::timebase::StampTrust::Trusted,
         m_tagIsWrong->isChecked()});
    if (!done) {
        showTrouble(QString::fromStdString(done.error().message));
        return;
    }
    Q_EMIT readAgainWanted(core::intake::keptShotsRestingOnChange(*before, *m_store.snapshot()));
}

void ClockPanel::showTrouble(const QString& text) {
    m_trouble->setText(text);
    m_trouble->setVisible(!text.isEmpty());
}

void ClockPanel::setLeads(bool leads) {
    style::setRank(m_use, leads ? style::Rank::Primary : style::Rank::Secondary);
}

}  // namespace ui::footage
