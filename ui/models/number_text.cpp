#include "ui/models/number_text.h"

#include <QRegularExpression>

#include "core/base/number.h"
#include "core/base/words.h"
#include "ui/models/tr.h"

namespace ui::models {

QString numberText(QString withPoints) {
    return withPoints.replace(QLatin1Char('.'), QLatin1Char(core::words::decimalSign()));
}

QString numberText(double value, char format, int precision) {
    return numberText(QString::number(value, format, precision));
}

core::Result<std::optional<double>> typedNumber(const QString& text, double most) {
    if (core::words::decimalSign() != ',') {
        return core::positiveNumberFrom(text.toStdString(), most);
    }
    static const QRegularExpression kThreeAfterOneSign{
        QStringLiteral("^(\\d{1,3})([.,])(\\d{3})$")};
    const auto found = kThreeAfterOneSign.match(text.trimmed());
    if (!found.hasMatch()) {
        return core::positiveNumberFrom(text.toStdString(), most);
    }
    const QString whole = found.captured(1);
    const QString rest = found.captured(3);
    if (found.captured(2) == QLatin1String{"."}) {
        return core::fail(core::ErrorCode::Contradiction,
                          tr("\"%1\" can be read in two ways. Write %2 or %3.")
                              .arg(text.trimmed(), whole + rest, whole + QLatin1Char(',') + rest)
                              .toStdString());
    }
    return core::positiveNumberFrom((whole + QLatin1Char('.') + rest).toStdString(), most);
}

}  // namespace ui::models
