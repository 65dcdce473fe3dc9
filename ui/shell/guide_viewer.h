#pragma once

#include <QTextBrowser>

namespace ui::shell {

/// Shows one page of the guide in a column of a readable width, in the colours and the size of text
/// of the program. Confined.
class GuideViewer : public QTextBrowser {
    Q_OBJECT

public:
    explicit GuideViewer(QWidget* parent = nullptr);

    /// Null: nothing. name: of a page of core::guide.
    void showPage(const QString& name);
    /// To the section with this heading; to the beginning when there is none.
    void showSection(const QString& heading);

protected:
    /// Drawings and pictures come from core::guide, a drawing's lines and words in the colour of
    /// text.
    QVariant loadResource(int type, const QUrl& name) override;
    void resizeEvent(QResizeEvent* event) override;
    void changeEvent(QEvent* event) override;

private:
    void lay();
    /// At the same place.
    void layAgain();
    void setColumn();

    QString m_name;
};

}  // namespace ui::shell
