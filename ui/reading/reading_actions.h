#pragma once

#include <QAction>
#include <QList>
#include <QObject>

namespace ui::reading {

/// Everything the reviewer can do on the reading screen, as actions with their keys. The names of
/// the objects are stable, so that keys can be changed and kept; tooltips follow the keys.
class ReadingActions : public QObject {
    Q_OBJECT

public:
    /// The actions are added to the screen and work while it, or a part of it, has the focus.
    explicit ReadingActions(QWidget& screen);

    [[nodiscard]] QList<QAction*> all() const { return m_all; }
    /// Those that change the project.
    [[nodiscard]] QList<QAction*> edits() const;

    QAction* previousFrame{};
    QAction* nextFrame{};
    QAction* previousTurn{};
    QAction* nextTurn{};
    QAction* start{};
    QAction* returnHere{};
    QAction* bracket{};
    QList<QAction*> digits;  ///< 0 … 9
    QAction* dial{};
    QAction* dialCounterClockwise{};
    QAction* dialClockwise{};
    QAction* compare{};
    QAction* beside{};
    QAction* longerRow{};
    QAction* shorterRow{};
    QAction* longerRowCoarse{};
    QAction* shorterRowCoarse{};
    QAction* rowFromReading{};
    QAction* holdStill{};
    QAction* replay{};
    QAction* keep{};
    QAction* otherMethod{};
    QAction* setAside{};
    QAction* doubtful{};
    QAction* previousShot{};
    QAction* nextShot{};
    QAction* nextUnread{};
    QAction* nextDoubtful{};
    QAction* readAhead{};
    QAction* hideNames{};
    QAction* keys{};

private:
    void addSteps(QWidget& screen);
    void addMarks(QWidget& screen);
    void addViews(QWidget& screen);
    void addDecisions(QWidget& screen);
    QAction* add(QWidget& screen, const char* name, const QString& text, const QString& help,
                 const QList<QKeySequence>& keySequences);

    QList<QAction*> m_all;
};

}  // namespace ui::reading
