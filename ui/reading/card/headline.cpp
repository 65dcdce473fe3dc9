#include "ui/reading/card/headline.h"

#include <cmath>

#include "core/base/kept_words.h"
#include "core/base/words.h"
#include "core/intake/agreed_readings.h"
#include "core/intake/refuted_clock.h"
#include "ui/models/number_text.h"
#include "ui/models/spin_unit.h"
#include "ui/reading/pictures/proposal_words.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/tr.h"

namespace ui::reading {
namespace {

using core::project::ReadingMethod;
using core::spin::fit::CandidateKind;

QString intervalText(const core::Interval<core::Rpm>& interval, double sigma) {
    return tr("95 %: %1 to %2 rpm")
        .arg(valueText(interval.low.rpm, sigma), valueText(interval.high.rpm, sigma));
}

/// In the other unit that the person chose, on a line of its own.
QString otherUnit(core::Rpm rate, core::Rpm sigma) {
    const QString words = models::besideRpm(rate, sigma);
    return words.isEmpty() ? words : QLatin1Char{'\n'} + words;
}

QString nameOfSource(Method method) {
    return method == Method::Pictures ? tr("from the pictures") : tr("from your marks");
}

bool isSameAs(const core::project::Reading& kept, const MethodNumber& number, Method method) {
    const bool isSameWay =
        (kept.method == ReadingMethod::RotationFit) == (method == Method::Pictures);
    return isSameWay && kept.rate.value == number.rate;
}

/// The two rates that a refused fit names in its reason; none where it names no two.
QList<double> rivalRates(const ShotView& view) {
    if (!view.proposal || !view.proposal->outcome) {
        return {};
    }
    const auto& read = view.proposal->outcome.value();
    QList<double> rates;
    for (const auto& candidate : read.fit.candidates) {
        const bool isMinimum =
            candidate.kind == CandidateKind::Best || candidate.kind == CandidateKind::Minimum;
        if (isMinimum &&
            QString::fromStdString(read.reason).contains(fixedText(candidate.rate.rpm, 0))) {
            rates << candidate.rate.rpm;
        }
    }
    return rates.size() >= 2 ? rates : QList<double>{};
}

}  // namespace

std::optional<MethodNumber> numberOf(const ShotView& view, Method method) {
    if (method == Method::Marks) {
        return view.reading ? std::optional{MethodNumber{view.reading->estimate,
                                                         view.reading->standardUncertainty,
                                                         view.reading->interval95}}
                            : std::nullopt;
    }
    const auto* read = view.pictureReading();
    return read != nullptr ? std::optional{MethodNumber{read->rate->value, read->rate->sigma,
                                                        *read->interval95}}
                           : std::nullopt;
}

std::optional<Method> methodToKeep(const ShotView& view, std::optional<Method> chosen) {
    if (chosen && numberOf(view, *chosen)) {
        return chosen;
    }
    const auto& marks = view.shot.marks;
    if (!marks.returns.empty() || marks.angles.size() >= 2 || !view.trouble.isEmpty()) {
        return numberOf(view, Method::Marks) ? std::optional{Method::Marks} : std::nullopt;
    }
    return numberOf(view, Method::Pictures) ? std::optional{Method::Pictures} : std::nullopt;
}

Headline headlineOf(const ShotView& view, const core::project::Reading* kept,
                    std::optional<Method> toKeep) {
    Headline headline;
    const auto number = toKeep ? numberOf(view, *toKeep) : std::nullopt;
    if (kept != nullptr) {
        const double sigma = kept->rate.sigma.rpm;
        headline.number = valueText(kept->rate.value.rpm, sigma);
        headline.interval =
            intervalText(kept->interval95, sigma) + otherUnit(kept->rate.value, kept->rate.sigma);
        const bool isFit = kept->method == ReadingMethod::RotationFit;
        headline.source =
            tr("Kept, %1").arg(nameOfSource(isFit ? Method::Pictures : Method::Marks));
        headline.isKept = true;
        headline.isSaidOtherwise = number && !isSameAs(*kept, *number, *toKeep);
    } else if (number) {
        headline.number = valueText(number->rate.rpm, number->sigma.rpm);
        headline.interval = intervalText(number->interval95, number->sigma.rpm) +
                            otherUnit(number->rate, number->sigma);
        QString source = nameOfSource(*toKeep);
        source[0] = source[0].toUpper();
        headline.source = tr("%1, not kept yet").arg(source);
    } else {
        headline.words =
            view.isReadingPictures && view.trouble.isEmpty() ? tr("Being read…") : tr("No reading");
    }
    return headline;
}

QString whyNoNumber(const ShotView& view) {
    QStringList sentences;
    if (!view.trouble.isEmpty()) {
        sentences << view.trouble;
    } else if (view.isReadingPictures) {
        return tr("The pictures are being read.");
    } else if (const QString refusal = refusalText(view); !refusal.isEmpty()) {
        sentences << refusal;
    }
    // While the clock is refuted no mark gives a number that holds.
    const bool isRefuted = view.proposal && !view.isReadingPictures && view.proposal->outcome &&
                           view.proposal->outcome.value().isClockRefuted();
    if (const QString next = nextStepOf(view); !next.isEmpty() && !isRefuted) {
        sentences << next;
    }
    return sentences.join(QLatin1Char('\n'));
}

QList<Help> helpsFor(const ShotView& view, const core::project::Session* facts,
                     std::size_t sameClock) {
    QList<Help> helps;
    if (!view.clip.clock) {
        return {{Help::Kind::Clock, tr("Enter the rate")}};
    }
    if (view.isReadingPictures || !view.proposal || view.kept) {
        return helps;
    }
    if (!view.proposal->outcome) {
        return {{Help::Kind::PointAtBall, tr("Point at the ball")}};
    }
    const auto& read = view.proposal->outcome.value();
    if (read.rate) {
        return helps;
    }
    if (read.isClockRefuted()) {
        if (const auto refuted = core::intake::refutedClock(read)) {
            helps << Help{
                Help::Kind::UseFlightRate,
                tr("Use %1 for %2")
                    .arg(models::numberText(refuted->likelier.fps.toDouble()))
                    .arg(QString::fromStdString(core::counted(sameClock, "clip", "clips")))};
        }
        return helps << Help{Help::Kind::Clock, tr("Settle the clock")};
    }
    for (const double rpm : rivalRates(view)) {
        helps << Help{Help::Kind::UseRate, tr("Lay out %1 rpm").arg(fixedText(rpm, 0)), rpm};
    }
    helps << Help{Help::Kind::PointAtBall, tr("Point at the ball")};
    if (facts != nullptr && !facts->readoutSeconds) {
        helps << Help{Help::Kind::SetUp, tr("Enter the readout")};
    }
    if (facts != nullptr && !facts->fieldOfViewDeg) {
        helps << Help{Help::Kind::SetUp, tr("Enter the field of view")};
    }
    return helps;
}

std::optional<Remark> agreementOf(const ShotView& view) {
    const auto pictures = numberOf(view, Method::Pictures);
    const auto marks = numberOf(view, Method::Marks);
    if (!pictures || !marks) {
        return std::nullopt;
    }
    const double difference = pictures->rate.rpm - marks->rate.rpm;
    const double sigma = std::hypot(pictures->sigma.rpm, marks->sigma.rpm);
    if (core::intake::doAgree({pictures->rate, pictures->sigma}, {marks->rate, marks->sigma})) {
        return Remark{Remark::Kind::Agrees, tr("The two agree.")};
    }
    return Remark{
        Remark::Kind::LooksAlike,
        tr("The pictures give %1 rpm %2 than the marks: %3 times the uncertainty of the "
           "difference. Look at both again.")
            .arg(valueText(std::abs(difference), sigma), difference > 0.0 ? tr("more") : tr("less"),
                 fixedText(std::abs(difference) / sigma, 1))};
}

}  // namespace ui::reading
