#include "ui/findings/findings_facts.h"

#include <QStringList>
#include <algorithm>

#include "core/report/number_format.h"
#include "core/words/findings.h"
#include "ui/findings/tr.h"

namespace ui::findings {
namespace {

using core::findings::Findings;
using core::stats::JudgedEstimate;
using core::words::sentence;

QString factText(const std::string& utf8) {
    return QString::fromStdString(utf8);
}

std::vector<core::project::ShotId> shotsOfCells(
    const Findings& findings, core::project::ImplementId implement,
    std::initializer_list<core::project::HitterId> hitters) {
    std::vector<core::project::ShotId> shots;
    for (const auto& cell : findings.cells) {
        const bool isWanted = hitters.size() == 0 || std::find(hitters.begin(), hitters.end(),
                                                               cell.row.hitter) != hitters.end();
        if (cell.row.implement != implement || !isWanted) {
            continue;
        }
        for (const auto& reading : cell.row.readings) {
            shots.push_back(reading.shot);
        }
    }
    return shots;
}

QString signedRpm(double value, double sigma) {
    return (value > 0.0 ? QStringLiteral("+") : QString{}) +
           factText(core::report::withDigitsOf(value, sigma));
}

QString verdictWord(const std::optional<core::stats::StepVerdict>& verdict, double p) {
    if (!verdict) {
        return p < 0.05 ? tr("differs") : tr("not shown");
    }
    switch (*verdict) {
        case core::stats::StepVerdict::DiffersByAtLeast:
            return tr("at least the step");
        case core::stats::StepVerdict::DiffersByLess:
            return tr("less than the step");
        case core::stats::StepVerdict::Equivalent:
            return tr("equivalent");
        case core::stats::StepVerdict::NotSettled:
            return tr("not settled");
    }
    return {};
}

QStringList differenceCells(const QString& what, const QString& who,
                            const core::findings::Said<JudgedEstimate>& difference,
                            const std::optional<core::stats::StepVerdict>& verdict) {
    if (!difference) {
        return {what, who, QStringLiteral("–"), QStringLiteral("–"), tr("cannot be said")};
    }
    const double sigma = difference->standardError;
    return {what, who, signedRpm(difference->estimate, sigma),
            factText(core::report::intervalText(difference->interval.low, difference->interval.high,
                                                sigma)),
            verdictWord(verdict, difference->pValue)};
}

}  // namespace

QString hitterSummary(const Findings& findings) {
    QStringList sentences{factText(sentence(findings.hitters))};
    for (const auto& cell : findings.hitters.interaction) {
        sentences.append(factText(sentence(findings.hitters.groupOf(cell))));
    }
    sentences.removeDuplicates();  // cells of one implement share what is said of them
    if (!findings.hitters.missing.empty()) {
        sentences.append(factText(core::words::missingSentence(findings.hitters)));
    }
    return sentences.join(QStringLiteral("\n"));
}

SentenceRows hitterRows(const Findings& findings) {
    SentenceRows rows;
    for (const auto& pair : findings.hitters.pairs) {
        rows.push_back(
            {differenceCells(
                 factText(pair.implementName),
                 tr("%1 less %2").arg(factText(pair.firstName), factText(pair.secondName)),
                 pair.difference, pair.verdict),
             factText(sentence(pair, findings.noticeableStep)),
             shotsOfCells(findings, pair.implement, {pair.first, pair.second})});
    }
    for (const auto& contrast : findings.conditions) {
        auto shots = shotsOfCells(findings, contrast.first, {});
        const auto others = shotsOfCells(findings, contrast.second, {});
        shots.insert(shots.end(), others.begin(), others.end());
        rows.push_back({differenceCells(factText(contrast.name),
                                        tr("%1 less %2")
                                            .arg(factText(contrast.firstCondition),
                                                 factText(contrast.secondCondition)),
                                        contrast.difference, contrast.verdict),
                        factText(sentence(contrast, findings.noticeableStep)), std::move(shots)});
    }
    return rows;
}

std::vector<PlotPage> driftPages(const Findings& findings) {
    std::vector<PlotPage> pages;
    for (const auto& drift : findings.drifts) {
        PlotPage page;
        page.title = tr("filming day %1, hitter %2")
                         .arg(factText(drift.sessionName), factText(drift.hitterName));
        page.plot.xLabel = tr("shot of the filming day");
        page.plot.yLabel = tr("above its cell, rpm");
        for (const auto& point : drift.points) {
            page.plot.points.push_back(
                {point.x, point.y,
                 tr("shot %1, %2: %3 rpm above its cell")
                     .arg(point.x)
                     .arg(factText(point.name), factText(core::report::fixed(point.y, 0))),
                 point.shot ? point.shot->value : 0});
        }
        page.plot.trends = {{drift.centre, 0.0, 0.0, true}};
        if (drift.isShown()) {
            page.plot.trends = {{drift.centre, 0.0, drift.perShot->estimate, false},
                                {drift.centre, 0.0, drift.perShot->interval.low, true},
                                {drift.centre, 0.0, drift.perShot->interval.high, true}};
        }
        page.sentence = factText(sentence(drift));
        pages.push_back(std::move(page));
    }
    return pages;
}

QString driftWords(const Findings& findings) {
    QStringList sentences;
    for (const auto& control : findings.controls) {
        sentences.append(factText(sentence(control)));
    }
    for (const auto& link : findings.sessions) {
        sentences.append(factText(sentence(link)));
    }
    if (findings.drifts.empty()) {
        sentences.prepend(tr("No kept shots yet, so nothing can have drifted."));
    }
    return sentences.join(QStringLiteral("\n"));
}

std::vector<PlotPage> attributePages(const Findings& findings) {
    std::vector<PlotPage> pages;
    for (const auto& attribute : findings.attributes) {
        PlotPage page;
        page.title = factText(attribute.attribute);
        page.plot.xLabel = page.title;
        page.plot.yLabel = tr("mean spin, rpm");
        for (const auto& point : attribute.points) {
            page.plot.points.push_back({point.x, point.y,
                                        tr("%1: %2, %3 rpm")
                                            .arg(factText(point.name))
                                            .arg(point.x)
                                            .arg(factText(core::report::fixed(point.y, 0))),
                                        point.implement ? point.implement->value : 0});
        }
        page.sentence = factText(sentence(attribute));
        pages.push_back(std::move(page));
    }
    return pages;
}

QString attributeWords(const Findings& findings) {
    const QString speed = factText(sentence(findings.speed));
    return findings.attributes.empty()
               ? tr("No attribute is a number for three compared implements. Give the "
                    "implements attributes such as thickness or mass.\n") +
                     speed
               : speed;
}

std::vector<PlotPage> agreementPages(const Findings& findings) {
    const auto& methods = findings.agreement.methods;
    if (!methods.limits) {
        return {};
    }
    PlotPage page;
    page.title = tr("marks against the pictures");
    page.plot.xLabel = tr("mean of both, rpm");
    page.plot.yLabel = tr("marks less pictures, rpm");
    for (const auto& shot : methods.shots) {
        const double difference = shot.firstRpm - shot.secondRpm;
        page.plot.points.push_back({0.5 * (shot.firstRpm + shot.secondRpm), difference,
                                    tr("marks %1 rpm, pictures %2 rpm")
                                        .arg(factText(core::report::fixed(shot.firstRpm, 0)),
                                             factText(core::report::fixed(shot.secondRpm, 0))),
                                    shot.shot.value});
    }
    page.plot.trends = {{0.0, methods.limits->meanDifference, 0.0, false},
                        {0.0, methods.limits->lower.value, 0.0, true},
                        {0.0, methods.limits->upper.value, 0.0, true}};
    page.sentence = factText(sentence(methods));
    return {page};
}

QString agreementWords(const Findings& findings) {
    QStringList sentences;
    if (!findings.agreement.methods.limits) {
        sentences.append(factText(sentence(findings.agreement.methods)));
    }
    for (const auto& repeat : findings.agreement.repeats) {
        sentences.append(factText(sentence(repeat)));
    }
    sentences.append(factText(sentence(findings.agreement.readers)));
    for (const auto& pair : findings.agreement.readerPairs) {
        sentences.append(factText(sentence(pair)));
    }
    return sentences.join(QStringLiteral("\n"));
}

QString methodText(const Findings& findings) {
    QStringList paragraphs;
    for (const auto& words : core::words::methodSentences(findings)) {
        paragraphs.append(factText(words));
    }
    const auto odd = findings.oddShots();
    if (!odd.empty()) {
        paragraphs.append(tr("Odd shots:"));
        for (const auto& shot : odd) {
            paragraphs.append(factText(sentence(shot)));
        }
    }
    return paragraphs.join(QStringLiteral("\n\n"));
}

}  // namespace ui::findings
