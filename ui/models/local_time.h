#pragma once

#include <QDateTime>
#include <QString>
#include <string>

namespace ui::models {

/// "2026-05-16 14:03" of a moment that is kept in UTC, in the time of the person who looks; a text
/// that is no moment stays as it is.
inline QString localTime(const std::string& utc,
                         const QString& form = QStringLiteral("yyyy-MM-dd HH:mm")) {
    const QString kept = QString::fromStdString(utc);
    const auto moment = QDateTime::fromString(kept, Qt::ISODate);
    return moment.isValid() ? moment.toLocalTime().toString(form) : kept;
}

}  // namespace ui::models
