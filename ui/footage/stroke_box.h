#pragma once

#include <QComboBox>

#include "core/project/model.h"
#include "ui/footage/tr.h"

namespace ui::footage {

/// A choice of the sense in which strokes turn the ball; its index is the stroke.
inline QComboBox* makeStrokeBox() {
    auto* box = new QComboBox;
    box->addItem(tr("not known, or both"));
    box->addItem(tr("topspin"));
    box->addItem(tr("backspin"));
    box->setAccessibleName(tr("Stroke"));
    box->setToolTip(
        tr("Decides where the pictures leave two senses of turning; a shot may say "
           "otherwise (its menu in Reading)"));
    return box;
}

}  // namespace ui::footage
