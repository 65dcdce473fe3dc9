#include "core/findings/words.h"

#include <fmt/format.h>

#include <cmath>

#include "core/report/number_format.h"
#include "core/stats/comparison/noticeable_step.h"

namespace core::findings::words {

std::string bareRpm(double value, double sigma) {
    return report::withDigitsOf(value, sigma);
}

std::string rpm(double value, double sigma) {
    return bareRpm(value, sigma) + " rpm";
}

std::string between(Interval<double> interval, double sigma) {
    return report::intervalText(interval.low, interval.high, sigma) + " rpm";
}

std::string chance(double share) {
    if (share < 0.01) {
        return "below 1 %";
    }
    return share > 0.99 ? "above 99 %" : fmt::format("{:.0f} %", 100.0 * share);
}

std::string reader(const std::string& name) {
    return name.empty() ? "a reader who is not named" : name;
}

std::string p(double value) {
    if (value < 0.001) {
        return "p < 0.001";
    }
    return value < 0.1 ? fmt::format("p = {:.3f}", value) : fmt::format("p = {:.2f}", value);
}

std::string joined(const std::vector<std::string>& items) {
    std::string text;
    for (std::size_t i = 0; i < items.size(); ++i) {
        text += (i == 0 ? "" : i + 1 == items.size() ? " and " : ", ") + items[i];
    }
    return text;
}

std::string difference(const stats::JudgedEstimate& estimate) {
    return fmt::format("{} {} (95 %: {})", rpm(std::abs(estimate.estimate), estimate.standardError),
                       estimate.estimate < 0.0 ? "less" : "more",
                       between(estimate.interval, estimate.standardError));
}

std::string verdict(const std::optional<stats::StepVerdict>& verdict, Rpm step) {
    if (!verdict) {
        return {};
    }
    const std::string size = report::fixed(step.rpm, step.rpm == std::floor(step.rpm) ? 0 : 1);
    switch (*verdict) {
        case stats::StepVerdict::DiffersByAtLeast:
            return fmt::format("That is at least the noticeable step of {} rpm.", size);
        case stats::StepVerdict::DiffersByLess:
            return fmt::format("They differ, by less than the noticeable step of {} rpm.", size);
        case stats::StepVerdict::Equivalent:
            return fmt::format("They are equivalent within the noticeable step of {} rpm.", size);
        case stats::StepVerdict::NotSettled:
            return fmt::format(
                "Whether the difference reaches the noticeable step of {} rpm is "
                "not settled.",
                size);
    }
    return {};
}

}  // namespace core::findings::words
