#pragma once

#include <QScrollArea>

class QStackedWidget;

namespace ui::shell {

/// The place of the pages. A page is given the room that there is; with larger text, which needs
/// more than a small window has, it is given more and scrolled, so that nothing of it is lost.
class PageArea : public QScrollArea {
    Q_OBJECT

public:
    explicit PageArea(QStackedWidget* pages);

    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
    void resizeEvent(QResizeEvent* event) override;

private:
    void fit();

    QStackedWidget* m_pages;
};

}  // namespace ui::shell
