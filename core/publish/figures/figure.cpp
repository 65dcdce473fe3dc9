#include "core/publish/figures/figure.h"

#include <array>
#include <cstdint>
#include <map>

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
