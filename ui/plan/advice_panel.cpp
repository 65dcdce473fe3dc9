#include "ui/plan/advice_panel.h"

#include <QGroupBox>
#include <QLabel>
#include <QVBoxLayout>

#include "core/base/words.h"
#include "core/findings/advice_facts.h"
#include "core/plan/cautions.h"
#include "core/plan/schedule.h"
#include "ui/chart/scatter_chart.h"
#include "ui/plan/plan_desk.h"
#include "ui/style/text_font.h"

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

/// A sign and not a colour alone tells a warning.
QString warning(const std::string& text) {
    return QStringLiteral("⚠ %1").arg(QString::fromStdString(text));
}

}  // namespace

AdvicePanel::AdvicePanel(PlanDesk& desk, QWidget* parent)
    : QWidget{parent},
      m_desk{desk},
      m_advice{wrapped("advice")},
      m_curveTitle{new QLabel{tr("Smallest difference, rpm")}},
      m_curve{new chart::ScatterChart} {
    style::setTextSize(m_curveTitle, style::TextSize::Small);

    m_curve->setObjectName(QStringLiteral("smallest_steps"));
    auto* advice = new QGroupBox{tr("What this plan can show")};
    auto* adviceLayout = new QVBoxLayout{advice};
    adviceLayout->addWidget(m_curveTitle);
    adviceLayout->addWidget(m_curve);
    adviceLayout->addWidget(m_advice);
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
    connect(m_curve, &chart::ScatterChart::activated, this, [this](qint64 shots) {
        m_desk.change([shots](auto& plan) { plan.shotsPerCell = static_cast<int>(shots); });
    });
    refresh();
}

void AdvicePanel::refresh() {
    const auto known = core::findings::adviceFacts(*m_desk.snapshot());
    const auto facts = known ? known.value() : core::plan::AdviceFacts{};
    QStringList lines;
    if (!known) {
        lines << warning(known.error().message);
    }
    if (const auto schedule = core::plan::scheduleOf(m_desk.plan())) {
        for (const auto& remark : schedule.value().remarks) {
            lines << bullet(remark);
        }
    }
    m_newest = core::plan::adviceFor(m_desk.plan(), facts);
    showCurve(facts);
    for (const auto& line : m_newest.lines) {
        lines << (line.isWarning ? warning(line.text) : bullet(line.text));
    }
    m_advice->setText(lines.join(QLatin1Char('\n')));
}

void AdvicePanel::showCurve(const core::plan::AdviceFacts& facts) {
    chart::ScatterPlot plot;
    plot.isCurve = true;
    plot.xLabel = tr("Shots per cell");
    plot.yLabel = m_curveTitle->text();
    for (const auto& [shots, rpm] : m_newest.smallestSteps) {
        plot.points.push_back(
            {static_cast<double>(shots), rpm,
             tr("%1: %2 rpm")
                 .arg(QString::fromStdString(core::counted(shots, "shot", "shots")),
                      QString::number(rpm, 'f', 0)),
             shots, shots == m_desk.plan().shotsPerCell});
    }
    if (facts.noticeableStepRpm) {
        const double step = *facts.noticeableStepRpm;
        plot.trends.push_back(
            {0.0, step, 0.0, true, tr("noticeable step %1 rpm").arg(QString::number(step))});
    }
    m_curveTitle->setVisible(!plot.points.empty());
    m_curve->setVisible(!plot.points.empty());
    m_curve->show(std::move(plot));
    m_curve->setToolTip(
        tr("Found between two implements of one hitter with a probability of %1 %. ← and → go "
           "from point to point; Enter or a double click plans so many shots.")
            .arg(qRound(100.0 * core::plan::kAdvisedPower)));
}

}  // namespace ui::plan
