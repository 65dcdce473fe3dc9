#pragma once

#include <QComboBox>

#include "core/project/model.h"
#include "ui/footage/tr.h"

namespace ui::footage {

/// A choice of what is drawn on the ball; its index is the marking.
inline QComboBox* makeMarkingBox() {
    auto* box = new QComboBox;
    box->addItem(tr("three quarters dark"));
    box->addItem(tr("half dark"));
    box->addItem(tr("band (looks the same after half a turn)"));
    box->addItem(tr("band with one dot"));
    box->addItem(tr("other"));
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(18);
    box->setAccessibleName(tr("Ball marking"));
    return box;
}

}  // namespace ui::footage
