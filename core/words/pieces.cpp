#include "core/words/pieces.h"

#include <fmt/format.h>

#include <cmath>

#include "core/base/words.h"
#include "core/report/number_format.h"
#include "core/stats/comparison/noticeable_step.h"

namespace core::words {

std::string bareRpm(double value, double sigma) {
    return report::withDigitsOf(value, sigma);
}

std::string rpm(double value, double sigma) {
    return said("{} rpm", bareRpm(value, sigma));
}

std::string between(Interval<double> interval, double sigma) {
    return said("{} rpm", report::intervalText(interval.low, interval.high, sigma));
}

std::string chance(double share) {
    if (share < 0.01) {
        return said("below 1 %");
    }
    return share > 0.99 ? said("above 99 %") : fmt::format("{:.0f} %", 100.0 * share);
}

std::string reader(const std::string& name) {
    return name.empty() ? said("a reader who is not named") : name;
}

std::string pWords(double value) {
    if (value < 0.001) {
        return said("p < 0.001");
    }
    return value < 0.1 ? said("p = {:.3f}", value) : said("p = {:.2f}", value);
}

std::string joined(const std::vector<std::string>& items) {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
        const bool isLast = i + 1 == items.size();
        text = i == 0   ? items[i]
               : isLast ? said("{} and {}", text, items[i])
                        : text + ", " + items[i];
    }
    return text;
}

std::string difference(const stats::JudgedEstimate& estimate) {
    const std::string size = rpm(std::abs(estimate.estimate), estimate.standardError);
    const std::string interval = between(estimate.interval, estimate.standardError);
    return estimate.estimate < 0.0 ? said("{} less (95 %: {})", size, interval)
                                   : said("{} more (95 %: {})", size, interval);
}

std::string verdict(const std::optional<stats::StepVerdict>& verdict, Rpm step) {
    if (!verdict) {
        return {};
    }
    const std::string size = report::fixed(step.rpm, step.rpm == std::floor(step.rpm) ? 0 : 1);
    switch (*verdict) {
        case stats::StepVerdict::DiffersByAtLeast:
            return said("That is at least the noticeable step of {} rpm.", size);
        case stats::StepVerdict::DiffersByLess:
            return said("They differ, by less than the noticeable step of {} rpm.", size);
        case stats::StepVerdict::Equivalent:
            return said("They are equivalent within the noticeable step of {} rpm.", size);
        case stats::StepVerdict::NotSettled:
            return said(
                "Whether the difference reaches the noticeable step of {} rpm is "
                "not settled.",
                size);
    }
    return {};
}

}  // namespace core::words
