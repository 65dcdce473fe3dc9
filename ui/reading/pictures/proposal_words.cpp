#include "ui/reading/pictures/proposal_words.h"

#include <QStringList>
#include <cmath>

#include "core/spin/fit/spin_words.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/tr.h"

namespace ui::reading {
namespace {

constexpr double kAgree = 2.0;  // standard uncertainties of the difference

QString agreementText(const ShotView& view, const core::reading::PictureReading& read) {
    if (!view.reading) {
        return {};
    }
    const double difference = read.rate->value.rpm - view.reading->estimate.rpm;
    const double sigma = std::hypot(read.rate->sigma.rpm, view.reading->standardUncertainty.rpm);
    if (std::abs(difference) <= kAgree * sigma) {
        return tr("Agrees with the marks.");
    }
    return tr("%1 rpm %2 the marks: %3 times the uncertainty of the difference. Look at both "
              "again.")
        .arg(valueText(std::abs(difference), sigma), difference > 0.0 ? tr("above") : tr("below"),
             fixedText(std::abs(difference) / sigma, 1));
}

QString spinText(const core::reading::PictureReading& read) {
    const auto& frames = read.track.frames;
    const core::spin::fit::Vector3 flight =
        read.flight
            ? core::spin::fit::Vector3{read.flight->velocity.x, read.flight->velocity.y,
                                       read.flight->velocity.z}
            : core::spin::fit::Vector3{frames.back().centre.x - frames.front().centre.x,
                                       frames.back().centre.y - frames.front().centre.y, 0.0};
    const auto words = core::spin::fit::describeSpin(read.fit.angularVelocity, flight);
    return words ? QString::fromStdString(words.value().text) : QString{};
}

}  // namespace

QString proposalText(const ShotView& view) {
    if (view.isReadingPictures) {
        return tr("Reading the pictures…");
    }
    if (!view.proposal) {
        return {};
    }
    if (!view.proposal->outcome) {
        return tr("No reading. %1")
            .arg(QString::fromStdString(view.proposal->outcome.error().message));
    }
    const auto& read = view.proposal->outcome.value();
    if (!read.rate) {
        return tr("No reading. %1").arg(QString::fromStdString(read.reason));
    }
    const double sigma = read.rate->sigma.rpm;
    return tr("%1 rpm · 95 %: %2 to %3 · u %4")
        .arg(valueText(read.rate->value.rpm, sigma), valueText(read.interval95->low.rpm, sigma),
             valueText(read.interval95->high.rpm, sigma), valueText(sigma, sigma));
}

QString proposalDetails(const ShotView& view) {
    const auto* read = view.pictureReading();
    if (read == nullptr) {
        return {};
    }
    QStringList lines;
    if (const QString spin = spinText(*read); !spin.isEmpty()) {
        QString line = spin;
        line[0] = line[0].toUpper();
        if (read->flight) {
            const auto& speed = read->flight->speed;
            line += tr(", ball at %1 m/s")
                        .arg(valueText(speed.value.metresPerSecond, speed.sigma.metresPerSecond));
        }
        lines << line + QLatin1Char('.');
    }
    if (const QString agreement = agreementText(view, *read); !agreement.isEmpty()) {
        lines << agreement;
    }
    for (const auto& warning : read->fit.warnings) {
        lines << QString::fromStdString(warning);
    }
    return lines.join(QLatin1Char('\n'));
}

}  // namespace ui::reading
