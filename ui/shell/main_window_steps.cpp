#include <QActionGroup>
#include <QTimer>
#include <array>

#include "ui/doubts/doubts_screen.h"
#include "ui/findings/findings_screen.h"
#include "ui/footage/footage_screen.h"
#include "ui/plan/plan_screen.h"
#include "ui/publish/publish_screen.h"
#include "ui/reading/reading_screen.h"
#include "ui/shell/jobs_button.h"
#include "ui/shell/main_window.h"
#include "ui/shell/project_button.h"
#include "ui/shell/step_band.h"

/// The steps of the work on the band: where they lead, and what is said of each.
namespace ui::shell {

void MainWindow::makeBand() {
    using style::Sign;
    constexpr std::array kSigns{Sign::Plan,   Sign::Footage,  Sign::Reading,
                                Sign::Doubts, Sign::Findings, Sign::Publish};
    const auto steps = m_screenActions->actions();
    for (qsizetype i = 0; i < steps.size(); ++i) {
        m_band->addStep(steps[i], kSigns.at(static_cast<std::size_t>(i)));
    }
    m_band->addRight(new JobsButton{*m_jobs}, m_reader, m_undo, m_redo);
    m_reader->setObjectName(QStringLiteral("reader"));
    connect(m_reader, &QToolButton::clicked, this, &MainWindow::askReader);
    setMenuWidget(m_band);
    setContextMenuPolicy(Qt::NoContextMenu);
}

void MainWindow::wantDoubtsElsewhere() {
    m_doubts->setWantedElsewhere(m_findings->isVisible() || m_publish->isVisible());
}

void MainWindow::connectPublish() {
    connect(m_findings, &findings::FindingsScreen::publishWanted, this,
            [this] { showScreen(Screen::Publish); });
    connect(m_findingsKeeper, &bridge::FindingsKeeper::changed, m_publish,
            [this] { m_publish->setFindings(m_findingsKeeper->findings()); });
    connect(m_publish, &publish::PublishScreen::published, m_steps, qOverload<>(&QTimer::start));
    connect(m_publish, &publish::PublishScreen::wayChosen, this,
            [this](publish::OpenPoint::Way way) {
                using Way = publish::OpenPoint::Way;
                showScreen(way == Way::Footage    ? Screen::Footage
                           : way == Way::Reading  ? Screen::Reading
                           : way == Way::Findings ? Screen::Findings
                                                  : Screen::Doubts);
            });
}

/// From a row of one screen to what another one says of it.
void MainWindow::connectRows() {
    const auto toDoubts = [this](auto whose) {
        showScreen(Screen::Doubts);
        m_doubts->showDoubtsOf(whose);
    };
    connect(m_footage, &footage::FootageScreen::doubtsWanted, this, toDoubts);
    connect(m_findings, &findings::FindingsScreen::doubtsWanted, this, toDoubts);
    connect(m_findings, &findings::FindingsScreen::doubtsOfShotWanted, this, toDoubts);
    connect(m_findings, &findings::FindingsScreen::readingWanted, this,
            [this](core::project::ImplementId implement) {
                m_reading->readShotsOf(implement);
                showScreen(Screen::Reading);
            });
}

QWidget* MainWindow::pageOf(Screen screen) const {
    switch (screen) {
        case Screen::Plan:
            return m_plan;
        case Screen::Footage:
            return m_footage;
        case Screen::Reading:
            return m_reading;
        case Screen::Doubts:
            return m_doubts;
        case Screen::Findings:
            return m_findings;
        case Screen::Publish:
            break;
    }
    return m_publish;
}

/// What the band says of each step. Doubts and findings as they were known last.
void MainWindow::refreshSteps() {
    if (!m_workspace.store) {
        return;
    }
    const auto snapshot = m_workspace.store->snapshot();
    const auto findings = m_findingsKeeper->findings();
    const auto set = [this](Screen screen, const StepState& state) {
        m_band->setState(static_cast<int>(screen), state);
    };
    set(Screen::Plan, planState(*snapshot));
    set(Screen::Footage, footageState(*snapshot));
    set(Screen::Reading, readingState(*snapshot));
    set(Screen::Doubts, doubtsState(m_doubts->doubts().get()));
    set(Screen::Findings, findingsState(*snapshot, findings.get()));
    set(Screen::Publish, publishState(*snapshot, findings.get()));
}

}  // namespace ui::shell
