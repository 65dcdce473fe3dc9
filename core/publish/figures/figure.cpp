#include "core/publish/figures/figure.h"

#include <algorithm>
#include <array>
#include <cstdint>
#include <map>
#include <sstream>

#include "core/publish/drawing/utf8.h"

namespace core::publish {
namespace {

double letterWidthPt(char32_t letter, double sizePt) {
    const bool isWide = (letter >= 0x1100 && letter <= 0x115F) ||
                        (letter >= 0x2E80 && letter <= 0xA4CF) ||
                        (letter >= 0xAC00 && letter <= 0xD7A3) ||
                        (letter >= 0xF900 && letter <= 0xFAFF) || letter >= 0x1F000;
    return (isWide ? 1.15 : 0.56) * sizePt;
}

/// Length of the words that all names begin with, the blank behind them included.
std::size_t sharedWords(const std::vector<std::string>& names) {
    std::size_t shared = names.size() < 2 ? 0 : names.front().size();
    for (const auto& name : names) {
        const auto differs =
            std::mismatch(name.begin(), name.end(), names.front().begin(), names.front().end());
        shared = std::min(shared, static_cast<std::size_t>(differs.first - name.begin()));
    }
    const auto blank = shared == 0 ? std::string::npos : names.front().rfind(' ', shared - 1);
    return blank == std::string::npos ? 0 : blank + 1;
}

}  // namespace

Ink inkOf(report::SeriesColour colour) noexcept {
    constexpr std::array kInks{Ink::Series1, Ink::Series2, Ink::Series3,
                               Ink::Series4, Ink::Series5, Ink::Series6};
    return kInks[static_cast<std::size_t>(colour)];
}

double roughWidthPt(const std::string& text, double sizePt) {
    double width = 0.0;
    for (const char32_t letter : lettersOf(text)) {
        width += letterWidthPt(letter, sizePt);
    }
    return width;
}

std::string cutToWidth(const std::string& text, double widthPt, double sizePt) {
    std::string line = singleLine(text);
    if (roughWidthPt(line, sizePt) <= widthPt) {
        return line;
    }
    const double room = widthPt - letterWidthPt(U'…', sizePt);
    std::string cut;
    double width = 0.0;
    for (const char32_t letter : lettersOf(line)) {
        width += letterWidthPt(letter, sizePt);
        if (width > room) {
            break;
        }
        appendUtf8(cut, letter);
    }
    return cut + "…";
}

std::vector<std::string> wrapToWidth(const std::string& text, double widthPt, double sizePt) {
    std::vector<std::string> lines;
    std::istringstream words{singleLine(text)};
    for (std::string word; words >> word;) {
        const std::string longer = lines.empty() ? word : lines.back() + " " + word;
        if (!lines.empty() && roughWidthPt(longer, sizePt) <= widthPt) {
            lines.back() = longer;
        } else {
            lines.push_back(cutToWidth(word, widthPt, sizePt));
        }
    }
    return lines;
}

std::vector<std::string> namesToWidth(const std::vector<std::string>& names, double widthPt,
                                      double sizePt) {
    std::vector<std::string> shown;
    const std::size_t shared = widestPt(names, sizePt) > widthPt ? sharedWords(names) : 0;
    for (const auto& name : names) {
        const std::string own = shared > 0 ? "…" + name.substr(shared) : name;
        shown.push_back(cutToWidth(own, widthPt, sizePt));
    }
    return shown;
}

double widestPt(const std::vector<std::string>& texts, double sizePt) {
    double widest = 0.0;
    for (const auto& text : texts) {
        widest = std::max(widest, roughWidthPt(text, sizePt));
    }
    return widest;
}

std::vector<PointPt> cornersOf(const Marker& marker) {
    static const std::map<Shape, std::vector<PointPt>> kOutlines{
        {Shape::Square, {{-0.9, -0.9}, {0.9, -0.9}, {0.9, 0.9}, {-0.9, 0.9}}},
        {Shape::Diamond, {{0, -1.2}, {1.2, 0}, {0, 1.2}, {-1.2, 0}}},
        {Shape::TriangleUp, {{0, -1.1}, {1.1, 0.9}, {-1.1, 0.9}}},
        {Shape::TriangleDown, {{0, 1.1}, {1.1, -0.9}, {-1.1, -0.9}}},
        {Shape::Cross,
         {{-0.35, -1},
          {0.35, -1},
          {0.35, -0.35},
          {1, -0.35},
          {1, 0.35},
          {0.35, 0.35},
          {0.35, 1},
          {-0.35, 1},
          {-0.35, 0.35},
          {-1, 0.35},
          {-1, -0.35},
          {-0.35, -0.35}}}};
    const auto outline = kOutlines.find(marker.shape);
    std::vector<PointPt> corners;
    if (outline != kOutlines.end()) {
        for (const PointPt corner : outline->second) {
            corners.push_back({marker.at.x + corner.x * marker.sizePt / 2.0,
                               marker.at.y + corner.y * marker.sizePt / 2.0});
        }
    }
    return corners;
}

}  // namespace core::publish
