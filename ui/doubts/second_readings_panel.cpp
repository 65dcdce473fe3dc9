#include "ui/doubts/second_readings_panel.h"

#include <QFormLayout>
#include <QHBoxLayout>
#include <QLabel>
#include <QPushButton>
#include <QSpinBox>

#include "core/base/words.h"
#include "core/doubts/second_sample.h"
#include "ui/style/hold_back.h"
#include "ui/style/plain_label.h"
#include "ui/style/rank.h"

namespace ui::doubts {
namespace {

constexpr int kUsualSample = 10;
constexpr int kMostSeed = 999'999;

}  // namespace

SecondReadingsPanel::SecondReadingsPanel(core::project::Store& store, QWidget* parent)
    : QWidget{parent},
      m_store{store},
      m_count{new QSpinBox},
      m_seed{new QSpinBox},
      m_words{new QLabel},
      m_draw{new QPushButton{tr("Draw the sample")}},
      m_goOn{new QPushButton{tr("Read the next one blind")}} {
    m_count->setObjectName(QStringLiteral("secondCount"));
    m_count->setRange(1, 1);
    m_count->setToolTip(tr("How many kept shots are read a second time"));
    m_seed->setRange(1, kMostSeed);
    m_seed->setToolTip(tr("The same number draws the same shots in the same order"));
    m_draw->setObjectName(QStringLiteral("drawSample"));
    m_draw->setToolTip(tr("Draws the shots; those that still wait from before are forgotten"));
    m_goOn->setObjectName(QStringLiteral("readNextBlind"));
    m_goOn->setToolTip(tr("Without names, marks and numbers; the reader named above reads (W)"));
    style::showPlainWords(m_words);
    for (QSpinBox* number : {m_count, m_seed}) {
        number->setSizePolicy(QSizePolicy::Maximum, QSizePolicy::Fixed);
    }
    auto* form = new QFormLayout;
    form->addRow(tr("Shots"), m_count);
    form->addRow(tr("Seed"), m_seed);
    auto* buttons = new QHBoxLayout;
    buttons->addWidget(m_draw);
    buttons->addWidget(m_goOn);
    buttons->addStretch(1);
    auto* layout = new QVBoxLayout{this};
    layout->addLayout(form);
    layout->addLayout(buttons);
    layout->addWidget(m_words);
    layout->addStretch(1);
    connect(m_draw, &QPushButton::clicked, this, &SecondReadingsPanel::draw);
    connect(m_goOn, &QPushButton::clicked, this, &SecondReadingsPanel::blindWanted);
    style::holdBack({m_draw, m_goOn}, QString::fromStdString(store.readOnlyReason()));
    m_listening = store.listen([this](const auto&) { refresh(); });
    refresh();
    m_count->setValue(kUsualSample);
}

void SecondReadingsPanel::refresh() {
    const auto snapshot = m_store.snapshot();
    const auto shots = static_cast<int>(core::doubts::shotsToSample(*snapshot));
    const auto waiting = core::project::waitingSecondReadings(*snapshot).size();
    const auto done = snapshot->secondReadings.size() - waiting;
    m_title = done + waiting == 0 ? tr("Second readings")
                                  : tr("Second readings %1/%2").arg(done).arg(done + waiting);
    Q_EMIT titleChanged();
    m_count->setMaximum(std::max(1, shots));
    m_draw->setEnabled(shots > 0);
    m_goOn->setEnabled(waiting > 0);
    using style::Rank;
    style::setRank(m_goOn, waiting > 0 ? Rank::Primary : Rank::Secondary);
    style::setRank(m_draw, waiting > 0 ? Rank::Secondary : Rank::Primary);
    QString words = shots == 0
                        ? tr("No shot is kept yet: there is nothing to read a second time.")
                        : tr("%1 of %2 second readings are done.").arg(done).arg(done + waiting);
    if (shots > 0 && snapshot->secondReadings.isEmpty()) {
        words = tr("A second reading without names and earlier numbers tells how well readings "
                   "repeat. Draw some of the %1 kept shots.")
                    .arg(shots);
    } else if (shots > 0 && waiting == 0) {
        words += QLatin1Char{' '} +
                 tr("Findings shows under Agreement how well readings and readers repeat. A second "
                    "reading counts only after you press \"Use this reading\".");
    }
    m_words->setText(words);
}

void SecondReadingsPanel::draw() {
    const auto sample = core::doubts::drawSecondSample(*m_store.snapshot(),
                                                       static_cast<std::size_t>(m_count->value()),
                                                       static_cast<std::uint64_t>(m_seed->value()));
    const auto done =
        sample ? m_store.orderSecondReadings(sample.value()) : core::Result<void>{sample.error()};
    Q_EMIT said(done ? tr("Drawn: %1.")
                           .arg(QString::fromStdString(
                               core::counted(sample.value().size(), "shot", "shots")))
                     : QString::fromStdString(done.error().message));
}

}  // namespace ui::doubts
