#include "ui/reading/card/reading_words.h"

#include <QStringList>
#include <algorithm>

#include "core/base/words.h"
#include "core/words/flight.h"
#include "ui/models/number_text.h"
#include "ui/reading/reading_look.h"
#include "ui/reading/tr.h"

namespace ui::reading {

using core::spin::BudgetRow;
using core::spin::Distribution;
using core::spin::LookAlike;
using core::spin::ReturnMark;
using core::timebase::FrameIndex;

namespace {

QString otherReadingText(const LookAlike& twin) {
    const QString rate = fixedText(twin.rate.rpm, 0);
    if (twin.kind == LookAlike::Kind::TurnCount) {
        return tr("If the last return were turn %1, it would be %2 rpm.")
            .arg(twin.multiple)
            .arg(rate);
    }
    return tr("The marking looks the same after 1/%1 of a turn: it could be %2 rpm.")
        .arg(twin.multiple)
        .arg(rate);
}

/// All aliases in one line: they have one cause.
QString aliasText(const std::vector<LookAlike>& lookAlikes) {
    QStringList rates;
    for (const LookAlike& twin : lookAlikes) {
        if (twin.kind == LookAlike::Kind::Alias) {
            const QString rate = fixedText(twin.rate.rpm, 0);
            rates << (twin.turnsOtherWay ? tr("%1 in the opposite direction").arg(rate) : rate);
        }
    }
    return rates.isEmpty()
               ? QString{}
               : tr("These rates would give the same pictures: %1 rpm.").arg(rates.join(tr(", ")));
}

QString notAssessedText(const core::spin::UncertaintyBudget& budget) {
    QStringList names;
    for (const BudgetRow& row : budget.rows) {
        if (row.distribution == Distribution::NotAssessed) {
            names << QString::fromStdString(core::saidText(row.name));
        }
    }
    return names.isEmpty() ? QString{} : tr("Not assessed: %1.").arg(names.join(tr(", ")));
}

void addClipRemarks(QList<Remark>& remarks, const ShotView& view) {
    for (const auto& remark : allRemarks(view.clip)) {
        if (!remark.frame || view.contains(*remark.frame)) {
            remarks << Remark{Remark::Kind::Note, QString::fromStdString(remark.message)};
        }
    }
}

/// What makes the number neither wrong nor doubtful: the interval holds it, or only the axis
/// suffers.
bool saysLittle(core::spin::MarksWarning::Kind kind) {
    using Kind = core::spin::MarksWarning::Kind;
    return kind == Kind::Stroboscope || kind == Kind::TurnsInferred ||
           kind == Kind::AssumedNeighbour || kind == Kind::UnknownReadout;
}

}  // namespace

QList<Remark> remarksOf(const ShotView& view) {
    QList<Remark> remarks;
    if (!view.trouble.isEmpty()) {
        remarks << Remark{Remark::Kind::Warning, view.trouble};
    }
    if (view.reading) {
        for (const auto& warning : view.reading->warnings) {
            remarks << Remark{saysLittle(warning.kind) ? Remark::Kind::Note : Remark::Kind::Warning,
                              QString::fromStdString(warning.message)};
        }
        for (const LookAlike& twin : view.reading->lookAlikes) {
            if (twin.kind != LookAlike::Kind::Alias) {
                remarks << Remark{Remark::Kind::LooksAlike, otherReadingText(twin)};
            }
        }
        if (const QString aliases = aliasText(view.reading->lookAlikes); !aliases.isEmpty()) {
            remarks << Remark{Remark::Kind::LooksAlike, aliases};
        }
        if (const auto blur = view.reading->blurPerExposure) {
            remarks << Remark{Remark::Kind::Note, tr("The mark turns by %1° during an exposure.")
                                                      .arg(fixedText(core::toDegrees(*blur), 0))};
        }
        if (const QString open = notAssessedText(view.reading->budget); !open.isEmpty()) {
            remarks << Remark{Remark::Kind::Note, open};
        }
    }
    addClipRemarks(remarks, view);
    return remarks;
}

QString nextStepOf(const ShotView& view) {
    const auto& marks = view.shot.marks;
    if (view.reading || !view.trouble.isEmpty()) {
        return {};
    }
    if (!marks.start && marks.angles.empty()) {
        return tr("Go to the first clear frame after the strike and press S: the start.");
    }
    if (!marks.start) {
        return tr(
            "Read the orientation in at least one more frame, or press S and R for start and "
            "return.");
    }
    return tr(
        "Now go to the frame where the mark is back in the orientation of the start and press "
        "R. The first column of the turn grid shows the candidates.");
}

QList<QPair<QString, QString>> factsOf(const ShotView& view) {
    QList<QPair<QString, QString>> facts;
    const auto& marks = view.shot.marks;
    if (marks.start) {
        facts.append({tr("Start"), frameText(view, marks.start->frame)});
    }
    if (!marks.returns.empty()) {
        facts.append({tr("Returns"), returnsText(view)});
    }
    if (!marks.angles.empty()) {
        facts.append({tr("Angles"), tr("in %1").arg(QString::fromStdString(
                                        core::counted(marks.angles.size(), "frame", "frames")))});
    }
    if (view.reading) {
        const auto& reading = *view.reading;
        if (!reading.returns.empty()) {
            facts.append({tr("Turns"), QString::number(reading.returns.back().turns)});
        }
        facts.append({tr("Frames a turn"), fixedText(reading.framesPerTurn, 2)});
        facts.append({tr("As marked"), tr("%1 rpm").arg(fixedText(reading.marked.rpm, 1))});
    }
    const auto* read = view.pictureReading();
    const auto diameter =
        read != nullptr ? view.proposal->request.facts.ballDiameter : std::nullopt;
    if (const auto flight =
            diameter ? core::reading::shotFlightOf(*read, *diameter) : std::nullopt) {
        for (const auto& line : core::words::linesOf(*flight)) {
            facts.append({QString::fromStdString(line.title), QString::fromStdString(line.text)});
        }
    }
    return facts;
}

QString frameText(const ShotView& view, FrameIndex frame) {
    return tr("%1 (%2)").arg(frame.value).arg(afterStrikeText(view.millisecondsAfterStrike(frame)));
}

QString returnsText(const ShotView& view) {
    QStringList parts;
    for (const ReturnMark& mark : view.shot.marks.returns) {
        auto turns = mark.turns;
        if (view.reading) {
            for (const auto& found : view.reading->returns) {
                turns = found.frame == mark.frame ? std::optional{found.turns} : turns;
            }
        }
        const QString place = mark.kind == ReturnMark::Kind::Bracket
                                  ? tr("%1–%2").arg(mark.frame.value).arg(mark.frameAfter.value)
                                  : QString::number(mark.frame.value);
        parts << (turns ? tr("%1 (turn %2)").arg(place).arg(*turns) : place);
    }
    return parts.join(tr(", "));
}

QString distributionText(const BudgetRow& row) {
    QString shape =
        QString::fromStdString(core::saidText(core::spin::distributionName(row.distribution)));
    shape.replace(QLatin1Char('_'), QLatin1Char(' '));
    if (row.distribution == Distribution::NotAssessed) {
        return shape;
    }
    const QString unit =
        row.unit == "1" ? QString{} : QLatin1Char(' ') + QString::fromStdString(row.unit);
    return row.halfWidth
               ? tr("%1, ± %2%3")
                     .arg(shape)
                     .arg(models::numberText(*row.halfWidth, 'g', 2))
                     .arg(unit)
               : tr("%1, u %2%3").arg(shape).arg(models::numberText(row.sigma, 'g', 2)).arg(unit);
}

}  // namespace ui::reading
