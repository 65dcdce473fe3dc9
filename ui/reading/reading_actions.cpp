#include "ui/reading/reading_actions.h"

#include <QWidget>

namespace ui::reading {
namespace {

void refreshToolTip(QAction& action) {
    const QString help = action.whatsThis();
    const QString key = action.shortcut().toString(QKeySequence::NativeText);
    const QString tip = key.isEmpty() ? help : QStringLiteral("%1 (%2)").arg(help, key);
    if (action.toolTip() != tip) {
        action.setToolTip(tip);
    }
}

}  // namespace

ReadingActions::ReadingActions(QWidget& screen) : QObject{&screen} {
    addSteps(screen);
    addMarks(screen);
    addViews(screen);
    addDecisions(screen);
    previousFrame->setIconText(QStringLiteral("◂"));
    nextFrame->setIconText(QStringLiteral("▸"));
    longerRow->setIconText(QStringLiteral("+"));
    shorterRow->setIconText(QStringLiteral("−"));
    previousShot->setIconText(QStringLiteral("▴"));
    nextShot->setIconText(QStringLiteral("▾"));
    for (QAction* toggle :
         {dial, holdStill, beside, replay, doubtful, readAhead, hideNames, keys}) {
        toggle->setCheckable(true);
    }
    for (QAction* once :
         {start, returnHere, bracket, compare, replay, keep, otherMethod, setAside, doubtful}) {
        once->setAutoRepeat(false);  // a key held too long must not mark twice
    }
}

void ReadingActions::addSteps(QWidget& screen) {
    previousFrame =
        add(screen, "previous_frame", tr("Previous frame"), tr("One frame back"), {Qt::Key_Left});
    nextFrame = add(screen, "next_frame", tr("Next frame"), tr("One frame on"), {Qt::Key_Right});
    previousTurn = add(screen, "previous_turn", tr("Turn back"),
                       tr("One turn back at the present row length"), {Qt::Key_Up});
    nextTurn = add(screen, "next_turn", tr("Turn on"), tr("One turn on at the present row length"),
                   {Qt::Key_Down});
    previousShot = add(screen, "previous_shot", tr("Previous shot"), tr("Open the previous shot"),
                       {Qt::Key_PageUp});
    nextShot =
        add(screen, "next_shot", tr("Next shot"), tr("Open the next shot"), {Qt::Key_PageDown});
    nextUnread = add(screen, "next_unread", tr("Next to read"), tr("Open the next shot to read"),
                     {Qt::Key_N});
    nextDoubtful =
        add(screen, "next_doubtful", tr("Next doubtful"),
            tr("Open the next shot that is marked as doubtful"), {Qt::SHIFT | Qt::Key_N});
}

void ReadingActions::addMarks(QWidget& screen) {
    start = add(screen, "start", tr("Start"), tr("This frame is the start; again: it is not"),
                {Qt::Key_S});
    returnHere = add(screen, "return", tr("Return"),
                     tr("In this frame the mark is back; again: it is not"), {Qt::Key_R});
    bracket = add(screen, "bracket", tr("Bracket"),
                  tr("The mark is back between this frame and the next"), {Qt::Key_B});
    for (int digit = 0; digit <= 9; ++digit) {
        digits << add(
            screen, qPrintable(QStringLiteral("turns_%1").arg(digit)), tr("Turns %1").arg(digit),
            tr("Turn count of this return, or of the last one"), {QKeySequence{Qt::Key_0 + digit}});
    }
    dial = add(screen, "dial", tr("Dial"), tr("Lay the dial of orientation over the ball"),
               {Qt::Key_A});
    dialCounterClockwise =
        add(screen, "dial_counter_clockwise", tr("Hand counter-clockwise"),
            tr("Turn the dial's hand by 1° counter-clockwise"), {Qt::CTRL | Qt::Key_Left});
    dialClockwise = add(screen, "dial_clockwise", tr("Hand clockwise"),
                        tr("Turn the dial's hand by 1° clockwise"), {Qt::CTRL | Qt::Key_Right});
}

void ReadingActions::addViews(QWidget& screen) {
    compare = add(screen, "compare", tr("Compare"),
                  tr("Start and return side by side; again: blink; again: scene"), {Qt::Key_C});
    beside = add(screen, "beside", tr("Show beside"),
                 tr("The turn grid of the other chosen shot, or of the one before, beside this "
                    "one, with one time axis; again: this shot alone"),
                 {Qt::SHIFT | Qt::Key_C});
    longerRow = add(screen, "longer_row", tr("Longer row"), tr("Longer row, lower rate"),
                    {Qt::Key_Plus, Qt::Key_Equal});
    shorterRow = add(screen, "shorter_row", tr("Shorter row"), tr("Shorter row, higher rate"),
                     {Qt::Key_Minus});
    longerRowCoarse = add(screen, "longer_row_coarse", tr("Longer row, coarse"),
                          tr("Longer row in coarse steps"), {Qt::SHIFT | Qt::Key_Plus});
    shorterRowCoarse = add(screen, "shorter_row_coarse", tr("Shorter row, coarse"),
                           tr("Shorter row in coarse steps"), {Qt::SHIFT | Qt::Key_Minus});
    rowFromReading =
        add(screen, "row_from_reading", tr("From reading"),
            tr("Row length back to the rate of the marks, or of the pictures"), {Qt::Key_M});
    holdStill = add(screen, "hold_still", tr("Hold the ball still"),
                    tr("Turn every picture back by its phase: at the right rate all look alike"),
                    {Qt::Key_H});
    replay =
        add(screen, "replay", tr("Replay"), tr("Replay the reading in a loop"), {Qt::Key_Space});
    readAhead = add(screen, "read_ahead", tr("Read ahead"),
                    tr("Read the pictures of all shots to read in the background, then those of "
                       "the kept ones for Doubts; goes on when the project is opened again"),
                    {Qt::CTRL | Qt::Key_R});
    hideNames =
        add(screen, "hide_names", tr("Hide names"),
            tr("Read blind: implement, hitter and clip are hidden, and the shots come in an order "
               "that tells nothing of them; goes on when the project is opened again"),
            {Qt::CTRL | Qt::Key_H});
    keys = add(screen, "keys", tr("Keys"), tr("Show the keys of this screen"),
               {Qt::SHIFT | Qt::Key_F1});
}

void ReadingActions::addDecisions(QWidget& screen) {
    keep = add(screen, "keep", tr("Keep, next"), tr("Keep this reading and open the next shot"),
               {Qt::Key_Return, Qt::Key_Enter});
    otherMethod =
        add(screen, "other_method", tr("The other reading"),
            tr("Keep would keep the other reading: from the pictures, or from your marks"),
            {Qt::Key_V});
    setAside = add(screen, "set_aside", tr("Set aside…"),
                   tr("Leave this shot out of the summary, with a reason"), {Qt::Key_O});
    doubtful = add(screen, "doubtful", tr("Doubtful"),
                   tr("This shot deserves a second look; again: it does not"), {Qt::Key_Q});
}

QAction* ReadingActions::add(QWidget& screen, const char* name, const QString& text,
                             const QString& help, const QList<QKeySequence>& keySequences) {
    auto* action = new QAction{text, this};
    action->setObjectName(QStringLiteral("reading.") + QLatin1String(name));
    action->setShortcuts(keySequences);
    action->setShortcutContext(Qt::WidgetWithChildrenShortcut);
    action->setWhatsThis(help);
    refreshToolTip(*action);
    connect(action, &QAction::changed, this, [action] { refreshToolTip(*action); });
    screen.addAction(action);
    m_all.append(action);
    return action;
}

QList<QAction*> ReadingActions::edits() const {
    return digits + QList<QAction*>{start,         returnHere, bracket,  dialCounterClockwise,
                                    dialClockwise, keep,       setAside, doubtful,
                                    readAhead};
}

}  // namespace ui::reading
