#include "ui/style/name_lines.h"

#include <QFontMetrics>

namespace ui::style {

QStringList nameLines(const QString& name, const QFontMetrics& one, const QFontMetrics& two,
                      int width) {
    const QString text = name.simplified();
    if (one.horizontalAdvance(text) <= width) {
        return {text};
    }
    qsizetype cut = -1;
    for (qsizetype at = text.indexOf(QLatin1Char{' '}); at >= 0;
         at = text.indexOf(QLatin1Char{' '}, at + 1)) {
        if (two.horizontalAdvance(text.left(at)) > width) {
            break;
        }
        cut = at;
    }
    const QString first = cut < 0 ? QString{} : text.left(cut);
    const QString rest = two.elidedText(text.mid(cut + 1), Qt::ElideLeft, width);
    return first.isEmpty() ? QStringList{rest} : QStringList{first, rest};
}

}  // namespace ui::style
