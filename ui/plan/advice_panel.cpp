#include "ui/plan/advice_panel.h"

#include <QGroupBox>
#include <QLabel>
#include <QVBoxLayout>

#include "core/findings/settings.h"
#include "core/plan/advice.h"
#include "core/plan/cautions.h"
#include "core/plan/schedule.h"
#include "core/report/summary.h"
#include "ui/plan/plan_desk.h"

namespace ui::plan {
namespace {

QLabel* wrapped(const char* name) {
    auto* label = new QLabel;
    label->setObjectName(QLatin1String{name});
    label->setWordWrap(true);
    label->setTextFormat(Qt::PlainText);
    label->setTextInteractionFlags(Qt::TextSelectableByMouse);
    return label;
}

QString bullet(const std::string& text) {
    return QStringLiteral("• %1").arg(QString::fromStdString(text));
}

}  // namespace

AdvicePanel::AdvicePanel(PlanDesk& desk, QWidget* parent)
    : QWidget{parent}, m_desk{desk}, m_advice{wrapped("advice")} {
    auto* advice = new QGroupBox{tr("What this plan can show")};
    (new QVBoxLayout{advice})->addWidget(m_advice);
    auto* cautions = new QGroupBox{QString::fromStdString(core::plan::cautionsHeading())};
    auto* words = wrapped("cautions");
    QStringList lines;
    for (const auto& caution : core::plan::filmingCautions()) {
        lines << bullet(caution);
    }
    words->setText(lines.join(QLatin1Char('\n')));
    (new QVBoxLayout{cautions})->addWidget(words);
    auto* layout = new QVBoxLayout{this};
    layout->setContentsMargins(0, 0, 4, 0);
    layout->addWidget(cautions);  // first: in view however long the advice is
    layout->addWidget(advice);
    layout->addStretch();
    connect(&desk, &PlanDesk::changed, this, &AdvicePanel::refresh);
    refresh();
}

void AdvicePanel::refresh() {
    const auto step = core::findings::noticeableStep(*m_desk.snapshot());
    core::plan::AdviceFacts facts;
    if (step && step.value()) {
        facts.noticeableStepRpm = step.value()->rpm;
    }
    if (const auto summary = core::report::summarise(*m_desk.snapshot())) {
        facts.measuredScatterRpm = core::report::measuredScatterRpm(summary.value());
    }
    QStringList lines;
    if (const auto schedule = core::plan::scheduleOf(m_desk.plan())) {
        for (const auto& remark : schedule.value().remarks) {
            lines << bullet(remark);
        }
    }
    for (const auto& line : core::plan::adviceFor(m_desk.plan(), facts).lines) {
        // A sign and not a colour alone tells a warning.
        lines << (line.isWarning ? QStringLiteral("⚠ %1").arg(QString::fromStdString(line.text))
                                 : bullet(line.text));
    }
    m_advice->setText(lines.join(QLatin1Char('\n')));
}

}  // namespace ui::plan
