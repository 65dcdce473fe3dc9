#include "ui/style/let_go.h"

#include <QLayout>
#include <QWidget>
#include <memory>

namespace ui::style {

void letGo(QWidget* widget) {
    if (widget != nullptr) {
        widget->hide();
        widget->deleteLater();
    }
}

void emptyLayout(QLayout& layout) {
    while (const std::unique_ptr<QLayoutItem> item{layout.takeAt(0)}) {
        letGo(item->widget());
    }
}

}  // namespace ui::style
