#pragma once

#include <QWidget>

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace ui::style {

/// What a screen shows while it has nothing to show: the ball in the colour of edges, what is
/// missing, what to do, and a button that leads to where it is done.
class EmptyPage : public QWidget {
    Q_OBJECT

public:
    enum class Way { None, Footage, Reading };

    /// turn: of the ball, as a share of one turn.
    explicit EmptyPage(double turn, QWidget* parent = nullptr);
    void say(const QString& missing, const QString& next, Way way = Way::None);
    /// Below the rest, over the width of the words.
    void addBelow(QWidget* widget);

Q_SIGNALS:
    void wayChosen(ui::style::EmptyPage::Way way);

private:
    QLabel* m_missing;
    QLabel* m_next;
    QPushButton* m_lead;
    QVBoxLayout* m_column;
    Way m_way{Way::None};
};

}  // namespace ui::style
