#include <QLabel>

#include "ui/reading/grid/beside_view.h"
#include "ui/reading/grid/compare_view.h"
#include "ui/reading/grid/turn_grid_panel.h"
#include "ui/reading/pictures/kept_switch.h"
#include "ui/reading/reading_screen.h"
#include "ui/reading/shot/shot_strip.h"

/// Other ways to read than shot after shot: with names hidden, a shot in doubt, a second time
/// blind, two shots beside each other.
namespace ui::reading {

using core::project::ShotId;

namespace {

constexpr const char* kNamesHiddenKey = "names_hidden";

/// Why the shot is here, and which rates the letters in the grid stand for.
QString doubtNotice(const ShotView& view, const QString& why) {
    QStringList rates;
    for (const auto& other : view.otherRates) {
        const QString rpm = QString::number(other.rpm, 'f', 0);
        rates << (other.letter == QLatin1String{"p"}
                      ? ReadingScreen::tr("%1 %2 rpm by the pictures").arg(other.letter, rpm)
                      : ReadingScreen::tr("%1 %2 rpm").arg(other.letter, rpm));
    }
    const QString ticks = rates.isEmpty() ? QString{}
                                          : ReadingScreen::tr(
                                                "Ticks in the grid show where the mark would be "
                                                "back: %1.")
                                                .arg(rates.join(QStringLiteral(", ")));
    return ReadingScreen::tr(
               "In doubt: %1 %2 C: side by side, blinking, or the scene. Ctrl+4 goes "
               "back to decide.")
        .arg(why, ticks);
}

}  // namespace

void ReadingScreen::connectHidingNames() {
    m_strip->showSwitches(*m_actions.readAhead, *m_actions.hideNames);
    connect(m_actions.hideNames, &QAction::triggered, this, [this](bool on) {
        KeptSwitch{m_store, kNamesHiddenKey}.keep(on);
        setNamesHidden(on);
    });
    const bool isOn = KeptSwitch{m_store, kNamesHiddenKey}.isOn();
    m_actions.hideNames->setChecked(isOn);
    setNamesHidden(isOn);
}

bool ReadingScreen::areNamesHidden() const {
    return m_actions.hideNames->isChecked();
}

void ReadingScreen::setNamesHidden(bool hidden) {
    m_strip->setNamesHidden(hidden);
    m_desk.setNamesHidden(hidden);
    m_beside->setNamesHidden(hidden);
    m_effort.setNamesHidden(hidden);
    if (m_pictureReader != nullptr) {
        m_pictureReader->setShuffled(hidden);
    }
    if (m_desk.hasShot()) {
        prepareNext();
    }
    Q_EMIT namesHiddenChanged();
}

QImage ReadingScreen::someBall() const {
    return m_strip->facts().someBall();
}

void ReadingScreen::setInDoubt(std::set<ShotId> shots) {
    m_strip->setInDoubt(std::move(shots));
}

void ReadingScreen::openNamedShot(ShotId shot) {
    openShot(shot);
    m_effort.noteNamesSeen();
}

void ReadingScreen::readShotsOf(core::project::ImplementId implement) {
    m_strip->showOnly(implement);
    if (m_strip->model().rowCount() > 0) {
        openNamedShot(m_strip->model().shotAt(0));
    }
}

void ReadingScreen::showNotice(const QString& text) {
    m_notice->setText(text);
    m_notice->setVisible(!text.isEmpty());
}

void ReadingScreen::showDoubt() {
    showNotice(doubtNotice(m_desk.view(), m_doubt));
}

void ReadingScreen::replayShot(ShotId shot, const QString& why) {
    openNamedShot(shot);
    if (m_desk.hasShot()) {
        m_doubt = why;
        showDoubt();
        m_gridPanel->grid().setOtherRatesShown(true);
        m_compare->setMode(CompareView::Mode::SideBySide);
        m_replay.setRunning(true);
    }
}

void ReadingScreen::readBlind() {
    const auto waiting = core::project::waitingSecondReadings(*m_store.snapshot());
    if (waiting.empty()) {
        m_strip->show();
        showNotice({});
        Q_EMIT blindEnded();
        return;
    }
    m_compare->setMode(CompareView::Mode::Off);
    m_beside->hideOther();
    m_strip->hide();
    m_desk.openSecond(waiting.front()->id);
    showNotice(tr("Second reading, %1 to go: names, earlier marks and numbers are hidden. Mark the "
                  "start and the returns; Enter keeps the reading and shows the next one, Esc "
                  "leaves. It counts only after \"Use this reading\" in Doubts.")
                   .arg(waiting.size()));
    setFocus();
}

void ReadingScreen::connectBeside() {
    connect(m_actions.beside, &QAction::triggered, this, &ReadingScreen::toggleBeside);
    connect(m_strip, &ShotStrip::besideWanted, m_beside, &BesideView::showOther);
    connect(m_beside, &BesideView::changed, m_actions.beside, &QAction::setChecked);
}

/// The chosen shot that is not open, else the one before, else the next.
void ReadingScreen::toggleBeside() {
    if (m_beside->other() != nullptr) {
        m_beside->hideOther();
        return;
    }
    const ShotId open = m_desk.view().shot.id;
    auto other = m_strip->chosenOther();
    for (const int step : {-1, 1}) {
        other = other ? other : m_strip->model().neighbour(open, step);
    }
    if (other) {
        m_beside->showOther(*other);
    }
    m_actions.beside->setChecked(m_beside->other() != nullptr);
}

}  // namespace ui::reading
