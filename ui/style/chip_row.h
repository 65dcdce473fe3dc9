#pragma once

#include <QList>
#include <QString>
#include <QWidget>

class QToolButton;

namespace ui::style {

/// Buttons side by side of which one is on: what a list shows, with how many it is. Confined.
class ChipRow : public QWidget {
    Q_OBJECT

public:
    struct Chip {
        QString text;
        QString tip;
    };
    explicit ChipRow(const QList<Chip>& chips, QWidget* parent = nullptr);

    /// "Kept 12": the words of a chip and its count.
    void setCount(int chip, int count);
    /// None when it is no chip of the row.
    void setOn(int chip);

Q_SIGNALS:
    void chosen(int chip);

private:
    QList<QString> m_texts;
    QList<QToolButton*> m_buttons;
};

}  // namespace ui::style
