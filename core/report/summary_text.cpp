#include <algorithm>

#include "core/base/words.h"
#include "core/report/number_format.h"
#include "core/report/summary.h"

namespace core::report {
namespace {

/// Number of characters a person sees; names may hold any UTF-8.
std::size_t shownWidth(const std::string& text) {
    return static_cast<std::size_t>(std::count_if(text.begin(), text.end(), [](char c) {
        return (static_cast<unsigned char>(c) & 0xC0U) != 0x80U;
    }));
}

std::string padded(const std::string& text, std::size_t width) {
    const std::size_t shown = shownWidth(text);
    return shown < width ? text + std::string(width - shown, ' ') : text;
}

std::string leftPadded(const std::string& text, std::size_t width) {
    const std::size_t shown = shownWidth(text);
    return shown < width ? std::string(width - shown, ' ') + text : text;
}

std::string numbersText(std::size_t kept, const std::optional<GroupMean>& mean) {
    std::string text = leftPadded(std::to_string(kept), 4);
    if (!mean) {
        return text + leftPadded("–", 10) + leftPadded("–", 8) + leftPadded("–", 18);
    }
    const double sigma = mean->standardUncertaintyRpm.value_or(0.0);
    text += leftPadded(withDigitsOf(mean->meanRpm, sigma), 10);
    text += leftPadded(mean->standardDeviationRpm ? withDigitsOf(*mean->standardDeviationRpm, sigma)
                                                  : std::string{"–"},
                       8);
    text += leftPadded(mean->interval95 ? intervalText(mean->interval95->low.rpm,
                                                       mean->interval95->high.rpm, sigma)
                                        : std::string{"–"},
                       18);
    return text;
}

std::string numberHeader() {
    return leftPadded("n", 4) + leftPadded(said("mean"), 10) + leftPadded(said("sd"), 8) +
           leftPadded(said("95 % interval"), 18);
}

}  // namespace

std::string summaryText(const Summary& summary) {
    std::size_t width = 9;
    for (const auto& row : summary.cells) {
        width = std::max(width, shownWidth(row.implementName) + 2);
    }
    const std::string implement = saidOf(1, "implement", "implements");
    std::string text = said("Spin rate per implement, rpm (average of its hitters)") + '\n';
    text += padded(implement, width) + padded(said("condition"), 11) + numberHeader() + '\n';
    for (const auto& row : summary.implements) {
        text += padded(row.implementName, width) + padded(row.condition, 11) +
                numbersText(row.counts.kept, row.mean) + '\n';
    }
    text += '\n' + said("Per implement and hitter, rpm") + '\n';
    text += padded(implement, width) + padded(saidOf(1, "hitter", "hitters"), 11) + numberHeader() +
            leftPadded(said("open"), 7) + leftPadded(said("aside"), 7) + '\n';
    for (const auto& row : summary.cells) {
        text += padded(row.implementName, width) + padded(row.hitterName, 11) +
                numbersText(row.counts.kept, row.mean) +
                leftPadded(std::to_string(row.counts.open), 7) +
                leftPadded(std::to_string(row.counts.setAside), 7) + '\n';
    }
    const auto loose =
        summary.unassigned.kept + summary.unassigned.open + summary.unassigned.setAside;
    if (loose > 0) {
        text += saidOf(loose, "\n{} shot is without implement and hitter, in no row above.\n",
                       "\n{} shots are without implement and hitter, in no row above.\n", loose);
    }
    for (const LeftOutClip& clip : summary.leftOut) {
        text += '\n' + leftOutSentence(clip) + '\n';
    }
    text += said(
        "\nn: kept shots. sd: scatter of the shots. The interval holds the mean of these hitters "
        "and\nthis specimen with 95 % confidence; the clock's shared uncertainty is in it.\n");
    return text;
}

}  // namespace core::report
