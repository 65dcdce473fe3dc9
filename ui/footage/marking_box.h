#pragma once

#include <QComboBox>

#include "core/project/model.h"

namespace ui::footage {

/// A choice of what is drawn on the ball; its index is the marking.
inline QComboBox* makeMarkingBox() {
    auto* box = new QComboBox;
    box->addItem(QStringLiteral("three quarters dark"));
    box->addItem(QStringLiteral("half dark"));
    box->addItem(QStringLiteral("band (looks the same after half a turn)"));
    box->addItem(QStringLiteral("band with one dot"));
    box->addItem(QStringLiteral("other"));
    box->setSizeAdjustPolicy(QComboBox::AdjustToMinimumContentsLengthWithIcon);
    box->setMinimumContentsLength(18);
    box->setAccessibleName(QStringLiteral("Ball marking"));
    return box;
}

}  // namespace ui::footage
