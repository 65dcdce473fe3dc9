#include "ui/reading/pictures/proposal_words.h"

#include "core/base/kept_words.h"
#include "core/spin/fit/spin_words.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/tr.h"

namespace ui::reading {
namespace {

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

QString refusalText(const ShotView& view) {
    if (!view.proposal) {
        return {};
    }
    const auto& outcome = view.proposal->outcome;
    if (!outcome) {
        return QString::fromStdString(outcome.error().message);
    }
    return outcome.value().rate ? QString{}
                                : QString::fromStdString(core::saidKept(outcome.value().reason));
}

QString spinLine(const ShotView& view) {
    const auto* read = view.pictureReading();
    QString line = read != nullptr ? spinText(*read) : QString{};
    if (line.isEmpty()) {
        return line;
    }
    line[0] = line[0].toUpper();
    if (read->flight) {
        const auto& speed = read->flight->speed;
        line = tr("%1, ball at %2 m/s")
                   .arg(line, valueText(speed.value.metresPerSecond, speed.sigma.metresPerSecond));
    }
    return line;
}

QStringList fitWarnings(const ShotView& view) {
    QStringList lines;
    if (const auto* read = view.pictureReading()) {
        for (const auto& warning : read->fit.warnings) {
            lines << QString::fromStdString(core::saidKept(warning));
        }
    }
    return lines;
}

}  // namespace ui::reading
