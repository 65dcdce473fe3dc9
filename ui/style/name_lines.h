#pragma once

#include <QString>
#include <QStringList>

class QFontMetrics;

namespace ui::style {

/// A name in one line, or in two where it is too long, broken between words. What still does not
/// fit loses its beginning.
[[nodiscard]] QStringList nameLines(const QString& name, const QFontMetrics& one,
                                    const QFontMetrics& two, int width);

}  // namespace ui::style
