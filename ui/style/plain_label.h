#pragma once

#include <QLabel>

namespace ui::style {

/// Makes a label show sentences about whatever people named: never as markup, in lines that wrap,
/// and as wide as the place it has, however long one word may be.
inline void showPlainWords(QLabel* label) {
    label->setTextFormat(Qt::PlainText);
    label->setWordWrap(true);
    QSizePolicy policy = label->sizePolicy();
    policy.setHorizontalPolicy(QSizePolicy::Ignored);
    label->setSizePolicy(policy);
}

}  // namespace ui::style
