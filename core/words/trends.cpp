#include <fmt/format.h>

#include "core/base/words.h"
#include "core/report/number_format.h"
#include "core/words/findings.h"
#include "core/words/pieces.h"

namespace core::words {
namespace {

std::string conditionWord(const std::string& condition) {
    return condition.empty() ? said("without a condition") : condition;
}

std::string correlationWords(const std::string& name,
                             const findings::Said<stats::Correlation>& correlation) {
    if (!correlation) {
        return name + ": " + whyNot(correlation.whyNot());
    }
    const std::string value = said("{} {:.2f}", name, correlation->coefficient);
    if (!correlation->interval) {
        return value;
    }
    const auto& interval = *correlation->interval;
    return value +
           (findings::holdsZero(*correlation)
                ? said(" (95 %: {:.2f} to {:.2f}, which holds zero)", interval.low, interval.high)
                : said(" (95 %: {:.2f} to {:.2f})", interval.low, interval.high));
}

std::string trendWords(const findings::AttributeFinding& attribute) {
    if (!attribute.trend) {
        return said("a connection with spin cannot be judged");
    }
    switch (*attribute.trend) {
        case findings::Trend::More:
            return said("the more of it, the more spin");
        case findings::Trend::Less:
            return said("the more of it, the less spin");
        case findings::Trend::None:
            break;
    }
    return attribute.pearson && !findings::holdsZero(*attribute.pearson)
               ? said(
                     "a connection with spin is not certain; the order of the implements does not "
                     "show it")
               : said("no connection with spin shown");
}

std::string slopeText(double value, double sigma) {
    return report::withDigitsOf(value, sigma);
}

}  // namespace

std::string sentence(const findings::ConditionContrast& contrast, std::optional<Rpm> step,
                     Advice advice) {
    const std::string which =
        said("{}, {} against {}", contrast.name, conditionWord(contrast.firstCondition),
             conditionWord(contrast.secondCondition));
    if (!contrast.difference) {
        return advice == Advice::Without
                   ? std::string{}
                   : said("{}: cannot be said, {}", which, whyNot(contrast.difference.whyNot()));
    }
    return fmt::format("{}: {}; {}.{}", which, difference(*contrast.difference),
                       contrast.differs ? said("they differ") : said("they cannot be told apart"),
                       step ? " " + verdict(contrast.verdict, *step) : "");
}

std::string sentence(const findings::AttributeFinding& attribute, Advice advice) {
    if (!attribute.spearman && advice == Advice::Without) {
        return {};
    }
    std::string text =
        fmt::format("{}: {} ({}; {}; {}).", attribute.attribute, trendWords(attribute),
                    correlationWords("Spearman", attribute.spearman),
                    correlationWords("Pearson", attribute.pearson),
                    counted(attribute.points.size(), "implement", "implements"));
    if (attribute.trend && *attribute.trend != findings::Trend::None) {
        text += said(
            " Attributes go together: another one that differs between the same implements may be "
            "the cause.");
    }
    if (attribute.lookedAt > 1) {
        text += said(" One of {} attributes that were looked at.", attribute.lookedAt);
    }
    return text;
}

std::string sentence(const findings::DriftFinding& drift, Advice advice) {
    const std::string where =
        said("Filming day {}, hitter {}", drift.sessionName, drift.hitterName);
    if (!drift.perShot) {
        return advice == Advice::Without ? std::string{}
                                         : said("{}: whether spin drifted cannot be said. {}",
                                                where, whyNot(drift.perShot.whyNot()));
    }
    const auto& slope = *drift.perShot;
    const double sigma = slope.standardError;
    const std::string numbers =
        said("{} rpm a shot (95 %: {} to {}, {})", slopeText(slope.estimate, sigma),
             slopeText(slope.interval.low, sigma), slopeText(slope.interval.high, sigma),
             pWords(slope.pValue));
    if (!drift.isShown()) {
        return said("{}: no drift shown, {}.", where, numbers);
    }
    return (slope.estimate < 0.0
                ? said("{}: spin fell from shot to shot, {}. Fatigue, practice or wear may be "
                       "behind it.",
                       where, numbers)
                : said("{}: spin rose from shot to shot, {}. Fatigue, practice or wear may be "
                       "behind it.",
                       where, numbers)) +
           (advice == Advice::With ? said(" Film the implements in a mixed order, and a control at "
                                          "the start, the middle and the end.")
                                   : std::string{});
}

std::string sentence(const findings::ControlFinding& control, Advice advice) {
    const std::string which = said("Control {} with hitter {}, filming day {}",
                                   control.implementName, control.hitterName, control.sessionName);
    if (!control.endLessStart) {
        return advice == Advice::Without
                   ? std::string{}
                   : fmt::format("{}: {}", which, whyNot(control.endLessStart.whyNot()));
    }
    return said(
        "{}: at the end {} than at the start; {}.", which, difference(*control.endLessStart),
        control.endLessStart->pValue < 0.05 ? said("spin drifted") : said("no drift shown"));
}

std::string sentence(const findings::SessionLink& link, Advice advice) {
    if (!link.difference) {
        return advice == Advice::Without ? std::string{}
               : link.sharedCells == 0
                   ? said("Filming days {} and {} cannot be linked: {}.", link.firstName,
                          link.secondName, whyNot(link.difference.whyNot()))
                   : whyNot(link.difference.whyNot());
    }
    return saidOf(link.sharedCells,
                  "Filming day {0} shows {1} than filming day {2} for the cell they share; {4}.",
                  "Filming day {} shows {} than filming day {} for the {} cells they share; {}.",
                  link.firstName, difference(*link.difference), link.secondName, link.sharedCells,
                  link.difference->pValue < 0.05
                      ? said("compare implements across the two with care")
                      : said("no difference shown"));
}

std::string sentence(const findings::SpeedFinding& speed, Advice advice) {
    if (!speed.analysis) {
        return advice == Advice::Without ? std::string{} : whyNot(speed.analysis.whyNot());
    }
    const auto& analysis = *speed.analysis;
    return said("One metre per second more goes with {} of spin; at equal ball speed {} ({}).",
                difference(analysis.slope),
                analysis.groups.pValue < 0.05 ? said("the implements differ")
                                              : said("no difference shown between the implements"),
                pWords(analysis.groups.pValue)) +
           (analysis.equalSlopes && analysis.equalSlopes->pValue < 0.05
                ? said(" The implements do not share one slope, so one number for all of them "
                       "hides differences.")
                : std::string{});
}

}  // namespace core::words
