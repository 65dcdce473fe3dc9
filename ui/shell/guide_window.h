#pragma once

#include <QWidget>
#include <vector>

class QLineEdit;
class QListWidget;
class QListWidgetItem;
class QPushButton;

namespace ui::shell {

class GuideViewer;

/// The guide in a window of its own beside the work: contents or what a search found at the left,
/// the page at the right, and a way back. Blocks nothing. Confined.
class GuideWindow : public QWidget {
    Q_OBJECT

public:
    explicit GuideWindow(QWidget* parent = nullptr);

    /// name: of a page of core::guide; heading: of a section on it, or empty for its beginning.
    void showPage(const QString& name, const QString& heading = {});
    [[nodiscard]] QString pageName() const { return m_page; }

protected:
    void keyPressEvent(QKeyEvent* event) override;

private:
    /// A page as it was left.
    struct Place {
        QString page;
        int scrolled{};
    };
    void open(const QString& name);
    void goBack();
    void fillList();
    void onChosen(const QListWidgetItem* item);

    QLineEdit* m_search;
    QListWidget* m_list;
    QPushButton* m_back;
    GuideViewer* m_viewer;
    QString m_page;
    std::vector<Place> m_left;  ///< the latest last
};

}  // namespace ui::shell
