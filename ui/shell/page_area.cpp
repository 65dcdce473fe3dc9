#include "ui/shell/page_area.h"

#include <QEvent>
#include <QLayout>
#include <QStackedWidget>
#include <algorithm>

#include "ui/style/text_font.h"

namespace ui::shell {
namespace {

/// Pages do with this where the text has its usual size: their lists give way.
constexpr QSize kSmallestPage{900, 440};

}  // namespace

PageArea::PageArea(QStackedWidget* pages) : m_pages{pages} {
    setFrameShape(QFrame::NoFrame);
    setFocusPolicy(Qt::NoFocus);
    setWidget(pages);
    pages->installEventFilter(this);
    connect(pages, &QStackedWidget::currentChanged, this, &PageArea::fit);
}

QSize PageArea::minimumSizeHint() const {
    return kSmallestPage;
}

bool PageArea::eventFilter(QObject* watched, QEvent* event) {
    if (watched == m_pages && event->type() == QEvent::LayoutRequest) {
        fit();
    }
    return QScrollArea::eventFilter(watched, event);
}

void PageArea::resizeEvent(QResizeEvent* event) {
    QScrollArea::resizeEvent(event);
    fit();
}

void PageArea::fit() {
    const QWidget* page = m_pages->currentWidget();
    const QSize needed = page != nullptr ? page->minimumSizeHint() : QSize{0, 0};
    const QSize bound = kSmallestPage * style::textScale();
    QSize size = needed.boundedTo(bound).expandedTo(viewport()->size());
    if (page != nullptr && page->layout() != nullptr && page->layout()->hasHeightForWidth()) {
        const int wrapped = page->layout()->minimumHeightForWidth(size.width());
        size.setHeight(std::max(size.height(), std::min(wrapped, bound.height())));
    }
    m_pages->resize(size);
}

}  // namespace ui::shell
