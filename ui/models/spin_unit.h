#pragma once

#include <QSettings>
#include <QString>

#include "core/base/units.h"
#include "core/report/number_format.h"
#include "ui/models/tr.h"

namespace ui::models {

/// In what a spin is shown beside rpm; the person chooses it, for every project.
enum class SpinUnit { RpmOnly, TurnsPerSecond, RadiansPerSecond };

inline SpinUnit spinUnit() {
    const QString kept = QSettings{}.value(QStringLiteral("spin_unit")).toString();
    if (kept == QLatin1String{"turns_per_second"}) {
        return SpinUnit::TurnsPerSecond;
    }
    return kept == QLatin1String{"rad_per_s"} ? SpinUnit::RadiansPerSecond : SpinUnit::RpmOnly;
}

inline void setSpinUnit(SpinUnit unit) {
    QSettings{}.setValue(QStringLiteral("spin_unit"),
                         unit == SpinUnit::RpmOnly          ? QStringLiteral("rpm")
                         : unit == SpinUnit::TurnsPerSecond ? QStringLiteral("turns_per_second")
                                                            : QStringLiteral("rad_per_s"));
}

/// "40.0 ± 0.1 turns/s"; empty where rpm alone is wanted.
inline QString besideRpm(core::Rpm rate, core::Rpm sigma) {
    constexpr double kSecondsPerMinute = 60.0;
    switch (spinUnit()) {
        case SpinUnit::TurnsPerSecond:
            return tr("%1 turns/s")
                .arg(QString::fromStdString(core::report::plusMinus(
                    rate.rpm / kSecondsPerMinute, sigma.rpm / kSecondsPerMinute)));
        case SpinUnit::RadiansPerSecond:
            return tr("%1 rad/s")
                .arg(QString::fromStdString(
                    core::report::plusMinus(toRadiansPerSecond(rate).radiansPerSecond,
                                            toRadiansPerSecond(sigma).radiansPerSecond)));
        case SpinUnit::RpmOnly:
            break;
    }
    return {};
}

}  // namespace ui::models
