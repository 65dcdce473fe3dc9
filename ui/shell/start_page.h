#pragma once

#include <QWidget>

class QLabel;
class QPushButton;

namespace ui::shell {

/// What is seen while no project is open: the ways to get one, and the cautions. Confined.
class StartPage : public QWidget {
    Q_OBJECT

public:
    explicit StartPage(QWidget* parent = nullptr);

    void showTrouble(const QString& text);
    /// Not while it is being made.
    void setDemoEnabled(bool enabled);

Q_SIGNALS:
    void demoWanted();
    void newWanted();
    void openWanted();

private:
    QLabel* m_trouble;
    QPushButton* m_demo{};
};

}  // namespace ui::shell
