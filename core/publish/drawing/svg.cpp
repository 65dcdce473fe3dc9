#include "core/publish/drawing/svg.h"

#include <fmt/format.h>

#include <cmath>
#include <string_view>

#include "core/publish/drawing/palette.h"
#include "core/publish/drawing/utf8.h"

namespace core::publish {
namespace {

/// Hundredths of a point, without trailing zeros.
std::string svgNumber(double value) {
    const double rounded = std::round(value * 100.0) / 100.0;
    return fmt::format("{}", rounded == 0.0 ? 0.0 : rounded);
}

std::string_view inkName(Ink ink) {
    return coloursOf(ink).name;
}

std::string markerShape(const Marker& marker) {
    if (marker.shape == Shape::Disc) {
        return fmt::format(R"(<circle cx="{}" cy="{}" r="{}")", svgNumber(marker.at.x),
                           svgNumber(marker.at.y), svgNumber(marker.sizePt / 2.0));
    }
    std::string points;
    for (const PointPt corner : cornersOf(marker)) {
        points += fmt::format("{}{},{}", points.empty() ? "" : " ", svgNumber(corner.x),
                              svgNumber(corner.y));
    }
    return fmt::format("<polygon points=\"{}\"", points);
}

/// Writes one drawn thing after the other.
struct SvgWriter {
    std::string out;

    void operator()(const Line& line) {
        out += fmt::format(
            "<line class=\"l-{}\" x1=\"{}\" y1=\"{}\" x2=\"{}\" y2=\"{}\" "
            "stroke-width=\"{}\"{}/>\n",
            inkName(line.ink), svgNumber(line.from.x), svgNumber(line.from.y), svgNumber(line.to.x),
            svgNumber(line.to.y), svgNumber(line.widthPt),
            line.isDashed ? " stroke-dasharray=\"4 3\"" : "");
    }
    void operator()(const Rectangle& rectangle) {
        out += fmt::format("<rect class=\"f-{}\" x=\"{}\" y=\"{}\" width=\"{}\" height=\"{}\"/>\n",
                           inkName(rectangle.ink), svgNumber(rectangle.topLeft.x),
                           svgNumber(rectangle.topLeft.y), svgNumber(rectangle.widthPt),
                           svgNumber(rectangle.heightPt));
    }
    void operator()(const Marker& marker) {
        out += markerShape(marker);
        out += marker.isFilled ? fmt::format(" class=\"f-{}\"/>\n", inkName(marker.ink))
                               : fmt::format(
                                     " class=\"f-paper l-{0}\" style=\"fill:var(--paper)\" "
                                     "stroke-width=\"1.4\"/>\n",
                                     inkName(marker.ink));
    }
    void operator()(const Text& text) {
        constexpr std::string_view kAnchors[] = {"start", "middle", "end"};
        out += fmt::format(
            "<text class=\"f-{}{}\" x=\"{}\" y=\"{}\" font-size=\"{}\" "
            "text-anchor=\"{}\">{}</text>\n",
            inkName(text.ink), text.isBold ? " bold" : "", svgNumber(text.at.x),
            svgNumber(text.at.y), svgNumber(text.sizePt),
            kAnchors[static_cast<std::size_t>(text.anchor)], escaped(singleLine(text.text)));
    }
    void operator()(const GroupStart& group) {
        out += "<g>";
        if (!group.title.empty()) {
            out += "<title>" + escaped(singleLine(group.title)) + "</title>";
        }
        out += '\n';
    }
    void operator()(const GroupEnd& /*group*/) { out += "</g>\n"; }
};

}  // namespace

std::string svgText(const Figure& figure, SvgUse use) {
    SvgWriter writer;
    if (use == SvgUse::File) {
        writer.out += "<?xml version=\"1.0\" encoding=\"UTF-8\"?>\n";
    }
    writer.out += fmt::format(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {0} {1}\" width=\"{0}{3}\" "
        "height=\"{1}{3}\" role=\"img\" aria-labelledby=\"{2}-title {2}-desc\">\n"
        "<title id=\"{2}-title\">{4}</title>\n<desc id=\"{2}-desc\">{5}</desc>\n",
        svgNumber(figure.widthPt), svgNumber(figure.heightPt), figure.name,
        use == SvgUse::File ? "pt" : "", escaped(singleLine(figure.title)),
        escaped(singleLine(figure.description)));
    if (use == SvgUse::File) {
        writer.out += "<style>\n" + paletteCss("svg") + figureCss() + "</style>\n";
        writer(Rectangle{{0.0, 0.0}, figure.widthPt, figure.heightPt, Ink::Paper});
    }
    for (const auto& drawn : figure.drawn) {
        std::visit(writer, drawn);
    }
    return writer.out + "</svg>\n";
}

}  // namespace core::publish
