#pragma once

#include <QList>
#include <QWidget>

#include "ui/shell/recent_projects.h"

class QLabel;
class QPushButton;
class QVBoxLayout;

namespace ui::shell {

class StartArt;

/// What is seen while no project is open: projects that were open lately, the ways to get another
/// one, and the cautions. Confined.
class StartPage : public QWidget {
    Q_OBJECT

public:
    explicit StartPage(QWidget* parent = nullptr);

    /// ways: buttons below it, with what can be done; they are taken over.
    void showTrouble(const QString& text, const QList<QPushButton*>& ways = {});
    /// Not while it is being made.
    void setDemoEnabled(bool enabled);
    /// Looks again which projects were open lately.
    void refresh();

Q_SIGNALS:
    void demoWanted();
    void testClipWanted();
    void newWanted();
    void openWanted();
    void recentWanted(const QString& file);

protected:
    void resizeEvent(QResizeEvent* event) override;
    void showEvent(QShowEvent* event) override;

private:
    [[nodiscard]] QWidget* makeRight();
    [[nodiscard]] QWidget* makeDemo();
    [[nodiscard]] QWidget* makeTestClip();

    QList<RecentProject> m_recent;
    StartArt* m_art;
    QVBoxLayout* m_troublePlace{};
    QLabel* m_recentHead{};
    QVBoxLayout* m_rows{};
    QPushButton* m_openLast{};
    QPushButton* m_demo{};
};

}  // namespace ui::shell
