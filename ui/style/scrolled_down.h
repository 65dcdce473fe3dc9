#pragma once

#include <QScrollArea>

namespace ui::style {

/// Content that is scrolled down where it is higher than its place, and never to the side: it is
/// given at least the width that it needs, beside the bar. Only what it holds takes the focus.
class ScrolledDown : public QScrollArea {
    Q_OBJECT

public:
    explicit ScrolledDown(QWidget* content);

    /// As high as the content.
    [[nodiscard]] QSize sizeHint() const override;
    [[nodiscard]] QSize minimumSizeHint() const override;

protected:
    bool eventFilter(QObject* watched, QEvent* event) override;
};

/// Scrolls whatever the widget stands in so that it is seen, once what has just been shown or
/// hidden has found its place.
void bringIntoView(QWidget& widget);

}  // namespace ui::style
