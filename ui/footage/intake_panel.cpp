#include "ui/footage/intake_panel.h"

#include <QAbstractTextDocumentLayout>
#include <QCheckBox>
#include <QDate>
#include <QLabel>
#include <QLineEdit>
#include <QPlainTextEdit>
#include <QProgressBar>
#include <QPushButton>
#include <QVBoxLayout>
#include <algorithm>

#include "core/intake/intake_words.h"
#include "core/intake/session_for.h"
#include "ui/footage/film_filter.h"
#include "ui/footage/session_box.h"
#include "ui/footage/tr.h"
#include "ui/style/ask.h"
#include "ui/style/hold_back.h"
#include "ui/style/rank.h"
#include "ui/style/rows_layout.h"
#include "ui/style/tokens.h"

namespace ui::footage {
namespace {

constexpr int kReportLines = 6;  ///< of a longer report the rest is scrolled to
constexpr int kBarSteps = 1000;

QString wordsOf(const std::optional<core::intake::TakeInProgress>& progress, std::size_t waiting) {
    QString words = tr("Looking through the folders");
    if (progress) {
        const auto phase = core::intake::phaseWords(progress->phase);
        words = QString::fromUtf8(phase.data(), static_cast<qsizetype>(phase.size()));
        words[0] = words[0].toUpper();
        words = tr("%1: %2 of %3").arg(words).arg(progress->done).arg(progress->of);
        if (progress->secondsLeft) {
            words = tr("%1, about %2 left")
                        .arg(words, QString::fromStdString(
                                        core::intake::durationWords(*progress->secondsLeft)));
        }
    }
    if (waiting > 0) {
        words = tr("%1, %2 more waiting").arg(words).arg(waiting);
    }
    if (progress) {
        words += QStringLiteral(" · %1").arg(QString::fromStdString(progress->what));
    }
    return words;
}

QString sentencesOf(const IntakeRunner::Ended& ended) {
    QStringList sentences;
    for (const auto& line : core::intake::reportLines(ended.report, ended.request.options)) {
        const QString sentence = QString::fromStdString(line);
        sentences << (sentence.endsWith(QLatin1Char('.')) ? sentence : sentence + QLatin1Char('.'));
    }
    QString text = QStringLiteral("%1: %2").arg(QString::fromStdString(ended.request.session),
                                                sentences.join(QLatin1Char(' ')));
    if (ended.report.isCancelled) {
        text += QLatin1Char(' ') + tr("Cancelled. Add the same files again to go on from there.");
    }
    if (ended.requestsDropped > 0) {
        text += QLatin1Char(' ') + tr("What waited behind it was not begun.");
    }
    if (!ended.report.refused.empty()) {
        text += QLatin1Char('\n') + tr("Not done (%1):").arg(ended.report.refused.size());
    }
    for (const auto& each : ended.report.refused) {
        const QString what = QString::fromStdString(each.what);
        const QString reason = QString::fromStdString(each.reason);
        text += reason.startsWith(what) ? QStringLiteral("\n%1").arg(reason)
                                        : QStringLiteral("\n%1: %2").arg(what, reason);
    }
    return text;
}

}  // namespace

IntakePanel::IntakePanel(core::project::Store& store, bridge::JobRunner& jobs, QWidget* parent)
    : QWidget{parent}, m_store{store}, m_runner{new IntakeRunner{store, jobs, this}} {
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 0, 0);
    layout->addWidget(makeChoices());
    layout->addWidget(makeProgress());
    layout->addWidget(makeReport());
    connect(m_runner, &IntakeRunner::changed, this, &IntakePanel::refreshProgress);
    connect(m_runner, &IntakeRunner::ended, this, &IntakePanel::tell);
    m_listening = store.listen([this](const core::project::Store::Change& change) {
        if (change.structure || change.plans) {
            if (m_session->chooseAdded(m_awaited)) {
                m_awaited.clear();
            }
            refreshChoices();
        }
    });
    refreshChoices();
    refreshProgress();
    style::holdBack({m_addClips, m_addFolder, m_readCards, m_readAhead, m_newName},
                    QString::fromStdString(store.readOnlyReason()));
}

IntakePanel::~IntakePanel() = default;

QWidget* IntakePanel::makeChoices() {
    m_addClips = new QPushButton{tr("Add clips…")};
    m_addClips->setObjectName(QStringLiteral("add_clips"));
    m_addClips->setToolTip(
        tr("Video files from the camera (Ctrl+Shift+A); they can also be dropped here"));
    m_addClips->setShortcut(QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_A});
    m_addFolder = new QPushButton{tr("Add a folder…")};
    m_addFolder->setObjectName(QStringLiteral("add_folder"));
    m_addFolder->setToolTip(
        tr("All clips in a folder and the folders in it, such as a memory card (Ctrl+Shift+F)"));
    m_addFolder->setShortcut(QKeySequence{Qt::CTRL | Qt::SHIFT | Qt::Key_F});
    m_session = new SessionBox{m_store, SessionBox::Offer::KnownAndNew};
    m_session->setObjectName(QStringLiteral("intake_session"));
    m_session->setToolTip(tr("The filming day that new clips belong to"));
    m_newName = new QLineEdit;
    m_newName->setObjectName(QStringLiteral("new_session"));
    m_newName->setAccessibleName(tr("Name of the new filming day"));
    m_readCards = new QCheckBox{tr("Read slate cards")};
    m_readCards->setObjectName(QStringLiteral("read_cards"));
    m_readCards->setToolTip(
        tr("Assigns shots by the slate cards in the clips; what is assigned already stays so"));
    m_readAhead = new QCheckBox{tr("Read the shots")};
    m_readAhead->setObjectName(QStringLiteral("read_ahead"));
    m_readAhead->setToolTip(
        tr("Reads each shot from its pictures, so that its proposal is there at once "
           "in Reading; takes some seconds a shot"));
    m_setUp = new QPushButton{tr("Set up the day…")};
    m_setUp->setObjectName(QStringLiteral("set_up_day"));
    m_setUp->setToolTip(tr(
        "Ball, capture rate and camera of the filming day, said once for all its clips (Ctrl+B)"));
    m_setUp->setShortcut(QKeySequence{Qt::CTRL | Qt::Key_B});
    connect(m_setUp, &QPushButton::clicked, this,
            [this] { Q_EMIT setUpWanted(m_session->session()); });
    connect(m_addClips, &QPushButton::clicked, this, &IntakePanel::chooseFiles);
    connect(m_addFolder, &QPushButton::clicked, this, &IntakePanel::chooseFolder);
    connect(m_session, &QComboBox::activated, this, &IntakePanel::refreshChoices);
    connect(m_readCards, &QCheckBox::clicked, this, [this] { m_isReadCardsChosen = true; });
    auto* into = new QLabel{tr("into")};
    into->setBuddy(m_session);
    auto* choices = new QWidget;
    auto* layout = new QVBoxLayout{choices};
    layout->setContentsMargins(0, 0, 0, 0);
    const auto addRow = [layout](const std::vector<QWidget*>& widgets) {
        auto* row = new QWidget;
        auto* places = new style::RowsLayout{row, style::RowsLayout::Rest::Free};
        places->setContentsMargins(0, 0, 0, 0);
        places->setSpacing(style::kBetweenPx);
        for (QWidget* widget : widgets) {
            places->addWidget(widget);
        }
        layout->addWidget(row);
    };
    addRow({m_addClips, m_addFolder, into, m_session, m_newName, m_setUp});
    addRow({new QLabel{tr("Also:")}, m_readCards, m_readAhead, makeTestClip()});
    return choices;
}

QWidget* IntakePanel::makeTestClip() {
    auto* test = new QPushButton{tr("Test clip…")};
    test->setObjectName(QStringLiteral("test_clip_wanted"));
    test->setToolTip(
        tr("Tells before the filming day whether a clip of a few strikes is filmed well enough"));
    style::setRank(test, style::Rank::Quiet);
    connect(test, &QPushButton::clicked, this, &IntakePanel::testClipWanted);
    return test;
}

QWidget* IntakePanel::makeProgress() {
    m_progressWords = new QLabel;
    m_progressWords->setObjectName(QStringLiteral("intake_progress"));
    m_progressWords->setTextFormat(Qt::PlainText);
    m_progressWords->setSizePolicy(QSizePolicy::Ignored, QSizePolicy::Preferred);
    m_bar = new QProgressBar;
    m_bar->setObjectName(QStringLiteral("intake_bar"));
    m_bar->setAccessibleName(tr("How far the intake is in this step"));
    m_bar->setRange(0, kBarSteps);
    m_bar->setFixedWidth(140);
    m_cancel = new QPushButton{tr("Cancel")};
    m_cancel->setObjectName(QStringLiteral("intake_cancel"));
    m_cancel->setToolTip(
        tr("Stops; what is in the project stays. Add the same files again to go on"));
    connect(m_cancel, &QPushButton::clicked, m_runner, &IntakeRunner::cancel);
    m_progress = new QWidget;
    auto* row = new QHBoxLayout{m_progress};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_progressWords, 1);
    row->addWidget(m_bar);
    row->addWidget(m_cancel);
    return m_progress;
}

QWidget* IntakePanel::makeReport() {
    m_reportText = new QPlainTextEdit;
    m_reportText->setObjectName(QStringLiteral("intake_report"));
    m_reportText->setAccessibleName(tr("Result of the intake"));
    m_reportText->setReadOnly(true);
    m_reportText->setTabChangesFocus(true);
    auto* dismiss = new QPushButton{tr("Dismiss")};
    dismiss->setObjectName(QStringLiteral("intake_dismiss"));
    style::setRank(dismiss, style::Rank::Quiet);
    dismiss->setToolTip(tr("Hides this report"));
    m_report = new QWidget;
    connect(m_reportText->document()->documentLayout(),
            &QAbstractTextDocumentLayout::documentSizeChanged, this, &IntakePanel::fitReport);
    connect(dismiss, &QPushButton::clicked, this, [this] {
        m_reportText->clear();
        m_report->hide();
    });
    auto* row = new QHBoxLayout{m_report};
    row->setContentsMargins(0, 0, 0, 0);
    row->addWidget(m_reportText, 1);
    row->addWidget(dismiss, 0, Qt::AlignTop);
    m_report->hide();
    return m_report;
}

void IntakePanel::refreshChoices() {
    const auto snapshot = m_store.snapshot();
    const bool isNew = !m_session->session().has_value();
    m_newName->setVisible(isNew);
    m_newName->setPlaceholderText(QString::fromStdString(
        core::intake::newSession(*snapshot, {},
                                 QDate::currentDate().toString(Qt::ISODate).toStdString())
            .name));
    if (!m_isReadCardsChosen) {
        m_readCards->setChecked(!core::project::planOf(*snapshot).isEmpty());
    }
    m_setUp->setEnabled(!snapshot->sessions.isEmpty());
}

void IntakePanel::chooseFiles() {
    style::askForFiles(*this, {tr("Add clips"), {}, filmFilter()},
                       [this](const QStringList& files) { takeIn(files); });
}

void IntakePanel::chooseFolder() {
    style::askForFolder(*this, {tr("Add a folder of clips")},
                        [this](const QString& folder) { takeIn({folder}); });
}

void IntakePanel::takeIn(const QStringList& sources) {
    if (sources.isEmpty() || !m_store.readOnlyReason().empty()) {
        return;
    }
    IntakeRunner::Request request;
    for (const QString& source : sources) {
        request.sources.emplace_back(source.toStdString());
    }
    const auto chosen = m_session->session();
    const auto snapshot = m_store.snapshot();
    const auto* session = chosen ? snapshot->sessions.find(*chosen) : nullptr;
    const QString typed = m_newName->text().trimmed();
    request.session = session != nullptr
                          ? session->name
                          : (typed.isEmpty() ? m_newName->placeholderText() : typed).toStdString();
    m_awaited = session == nullptr ? request.session : std::string{};
    request.options = {.findShots = true,
                       .readCards = m_readCards->isChecked(),
                       .readPictures = m_readAhead->isChecked()};
    m_runner->add(std::move(request));
}

void IntakePanel::refreshProgress() {
    m_progress->setVisible(m_runner->isRunning());
    const auto progress = m_runner->progress();
    m_progressWords->setText(wordsOf(progress, m_runner->waiting()));
    m_progressWords->setToolTip(m_progressWords->text());
    m_bar->setValue(progress ? static_cast<int>(kBarSteps * progress->share) : 0);
}

void IntakePanel::tell(const IntakeRunner::Ended& ended) {
    // The newest on top; what was not dismissed stays below it.
    const QString before = m_reportText->toPlainText();
    const QString text = sentencesOf(ended);
    m_reportText->setPlainText(before.isEmpty() ? text : text + QStringLiteral("\n\n") + before);
    m_report->show();
    Q_EMIT statusChanged(text.section(QLatin1Char('\n'), 0, 0));
}

void IntakePanel::fitReport() {
    const int wanted = static_cast<int>(m_reportText->document()->size().height());
    const int lines = std::clamp(wanted, 1, kReportLines);
    m_reportText->setVerticalScrollBarPolicy(wanted > kReportLines ? Qt::ScrollBarAlwaysOn
                                                                   : Qt::ScrollBarAlwaysOff);
    m_reportText->setFixedHeight(
        lines * m_reportText->fontMetrics().lineSpacing() +
        2 * (m_reportText->frameWidth() +
             static_cast<int>(m_reportText->document()->documentMargin())));
}

void IntakePanel::setLeads(bool leads) {
    style::setRank(m_addClips, leads ? style::Rank::Primary : style::Rank::Secondary);
}

}  // namespace ui::footage
