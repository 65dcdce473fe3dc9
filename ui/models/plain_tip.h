#pragma once

#include <QString>
#include <QTextDocument>

namespace ui::models {

/// A tool tip that shows its text as it is: names that look like markup would be taken for it.
inline QString plainTip(const QString& text) {
    return Qt::mightBeRichText(text) ? Qt::convertFromPlainText(text) : text;
}

}  // namespace ui::models
