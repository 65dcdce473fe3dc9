#pragma once

#include <QComboBox>

#include "core/project/model.h"

namespace ui::footage {

/// A choice of the sense in which strokes turn the ball; its index is the stroke.
inline QComboBox* makeStrokeBox() {
    auto* box = new QComboBox;
    box->addItem(QStringLiteral("not known, or both"));
    box->addItem(QStringLiteral("topspin"));
    box->addItem(QStringLiteral("backspin"));
    box->setAccessibleName(QStringLiteral("Stroke"));
    box->setToolTip(
        QStringLiteral("Decides where the pictures leave two senses of turning; a shot may say "
                       "otherwise (its menu in Reading)"));
    return box;
}

}  // namespace ui::footage
