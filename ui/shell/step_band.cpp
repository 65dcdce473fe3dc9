#include "ui/shell/step_band.h"

#include <QAction>
#include <QEvent>
#include <QHBoxLayout>
#include <QMenuBar>
#include <QPainter>
#include <QTimer>
#include <algorithm>
#include <array>

#include "ui/shell/jobs_button.h"
#include "ui/shell/project_button.h"
#include "ui/style/tokens.h"
#include "ui/style/turn_mark.h"

namespace ui::shell {
namespace {

constexpr int kProgramIconPx = 30;
constexpr int kIconSidePx = 12;

}  // namespace

StepBand::StepBand(QWidget* parent)
    : QWidget{parent}, m_row{new QHBoxLayout{this}}, m_menus{new QMenuBar} {
    setObjectName(QStringLiteral("band"));
    m_row->setContentsMargins(kProgramIconPx + 2 * kIconSidePx, 0, style::kBetweenPx, 0);
    m_row->setSpacing(0);
    m_row->setSizeConstraint(QLayout::SetNoConstraint);  // words give way
    m_menus->setNativeMenuBar(false);
    setMinimumHeight(style::kBandHeightPx);
    m_menus->setSizePolicy(QSizePolicy::Minimum, QSizePolicy::Fixed);
    m_row->addWidget(m_menus, 0, Qt::AlignVCenter);
    m_row->addSpacing(style::kBetweenPx);
    colourChildren();
}

void StepBand::addStep(QAction* step, style::Sign sign) {
    auto* button = new StepButton{step, sign};
    connect(step, &QAction::toggled, this, &StepBand::fit);
    m_steps << button;
    m_row->addWidget(button);
}

void StepBand::addRight(JobsButton* jobs, ProjectButton* project, QAction* undo, QAction* redo) {
    m_jobs = jobs;
    m_project = project;
    m_row->addStretch(1);
    m_row->addWidget(jobs, 0, Qt::AlignVCenter);
    m_row->addWidget(project);
    for (const auto& [action, sign] :
         {std::pair{undo, style::Sign::Undo}, std::pair{redo, style::Sign::Redo}}) {
        auto* button = new QToolButton;
        button->setDefaultAction(action);
        button->setToolButtonStyle(Qt::ToolButtonIconOnly);
        button->setAutoRaise(true);
        button->setFocusPolicy(Qt::TabFocus);
        button->setAccessibleName(action->text());
        action->setIcon(style::signIcon(sign, *this));
        m_row->addWidget(button, 0, Qt::AlignVCenter);
    }
    connect(jobs, &JobsButton::resized, this, &StepBand::fit);
    fit();
}

void StepBand::setState(int step, const StepState& state) {
    m_steps.at(step)->setState(state);
    fit();
}

void StepBand::setStepsShown(bool areShown) {
    for (StepButton* step : m_steps) {
        step->setVisible(areShown);
    }
    if (m_project != nullptr) {
        m_project->setVisible(areShown);
    }
    fit();
}

/// The widest way in which everything has its place.
void StepBand::fit() {
    if (m_jobs == nullptr || m_steps.isEmpty()) {
        return;
    }
    using Fit = StepButton::Fit;
    constexpr int kUndoRedoPx = 72;
    const int fixed = kProgramIconPx + 2 * kIconSidePx + m_menus->sizeHint().width() +
                      2 * style::kBetweenPx + kUndoRedoPx;
    const auto widthOf = [&](Fit steps, bool isJobWide, bool hasProject) {
        int sum =
            fixed + m_jobs->widthFor(isJobWide) + (hasProject ? m_project->sizeHint().width() : 0);
        for (const StepButton* step : m_steps) {
            sum += step->widthFor(steps);
        }
        return sum;
    };
    struct Way {
        Fit steps;
        bool isJobWide;
        bool hasProject;
    };
    constexpr std::array kWays{Way{Fit::All, true, true}, Way{Fit::All, false, true},
                               Way{Fit::NoState, true, true}, Way{Fit::NoState, false, false},
                               Way{Fit::RingOnly, false, false}};
    const auto* way = std::find_if(kWays.begin(), kWays.end() - 1, [&](const Way& each) {
        return widthOf(each.steps, each.isJobWide, each.hasProject) <= width();
    });
    for (StepButton* step : m_steps) {
        step->setFit(way->steps);
    }
    m_jobs->setWide(way->isJobWide);
    m_project->setVisible(way->hasProject && !m_steps.front()->isHidden());
}

void StepBand::colourChildren() {
    const QPalette wanted = style::bandPalette();
    if (m_menus->palette() != wanted) {
        setPalette(wanted);
        for (QWidget* child : findChildren<QWidget*>(Qt::FindDirectChildrenOnly)) {
            child->setPalette(wanted);
        }
        update();
    }
}

void StepBand::changeEvent(QEvent* event) {
    QWidget::changeEvent(event);
    if (event->type() == QEvent::PaletteChange ||
        event->type() == QEvent::ApplicationPaletteChange) {
        QTimer::singleShot(0, this, &StepBand::colourChildren);
    } else if (event->type() == QEvent::FontChange) {
        QTimer::singleShot(0, this, &StepBand::fit);
    }
}

void StepBand::paintEvent(QPaintEvent*) {
    QPainter painter{this};
    painter.fillRect(rect(), colour(style::Token::Band, style::programPalette()));
    style::drawProgramIcon(painter,
                           {static_cast<double>(kIconSidePx), (height() - kProgramIconPx) / 2.0,
                            kProgramIconPx, kProgramIconPx});
}

void StepBand::resizeEvent(QResizeEvent* event) {
    QWidget::resizeEvent(event);
    fit();
}

}  // namespace ui::shell
