#include "core/publish/figures/figures.h"

#include <gtest/gtest.h>

#include <fstream>
#include <map>
#include <set>

#include "core/publish/drawing/axis.h"
#include "core/publish/drawing/painter.h"
#include "core/publish/drawing/svg.h"
#include "tests/core/publish/published_folder.h"

namespace core::publish {
namespace {

std::vector<Figure> inventedFigures(const tests::InventedNames& names) {
    const auto found = findings::findFindings(tests::inventedSnapshot(names));
    EXPECT_TRUE(found.has_value()) << found.error().message;
    return figuresOf(found.value(), {"origin"});
}

std::uint32_t bigEndian(const std::string& bytes, std::size_t at) {
    std::uint32_t value = 0;
    for (std::size_t i = 0; i < 4; ++i) {
        value = (value << 8U) | static_cast<unsigned char>(bytes[at + i]);
    }
    return value;
}

TEST(Figures, EachHasATitleADescriptionAndASentence) {
    std::set<std::string> names;
    for (const auto& figure : inventedFigures({})) {
        names.insert(figure.name);
        EXPECT_FALSE(figure.title.empty()) << figure.name;
        EXPECT_FALSE(figure.description.empty()) << figure.name;
        EXPECT_FALSE(figure.caption.empty()) << figure.name;
    }
    for (const char* name : {"ranked", "hitters", "drift", "pairs"}) {
        EXPECT_TRUE(names.contains(name)) << name;
    }
}

// A picture of 300 rows of 34 points at 300 dots per inch would be 42,500 pixels high, more than a
// PNG writer takes.
TEST(Figures, ThreeHundredImplementsGoOnOverSeveralWithTheSameAxis) {
    std::map<std::string, int> parts;
    std::set<std::string> axes;
    for (const auto& figure : inventedFigures(tests::manyImplements(300))) {
        const int part = ++parts[figure.name.substr(0, figure.name.find('-'))];
        EXPECT_LT(figure.heightPt, 1000.0) << figure.name;
        if (part == 1) {
            const auto png = pngOf(figure, 300.0);
            ASSERT_TRUE(png.has_value()) << figure.name << ": " << png.error().message;
        }
        if (figure.name.starts_with("ranked")) {
            std::string ticks;
            std::size_t rows = 0;
            for (const auto& drawn : figure.drawn) {
                const auto* text = std::get_if<Text>(&drawn);
                const bool isTick = text != nullptr && text->anchor == Anchor::Middle;
                ticks += isTick ? text->text + " " : "";
                rows += std::holds_alternative<GroupStart>(drawn) ? 1U : 0U;
            }
            axes.insert(ticks);
            EXPECT_LE(rows, 40U) << figure.name;
        }
    }
    EXPECT_EQ(axes.size(), 1U);
    // 300 implements at most 40 to a figure: 8; 600 rows of hitters, two to an implement: 15.
    EXPECT_EQ(parts.at("ranked"), 8);
    EXPECT_EQ(parts.at("hitters"), 15);
    EXPECT_EQ(parts.at("pairs"), 8);
}

TEST(Figures, RowsAreSharedOutEvenlyAndGroupsStayTogether) {
    // 27 groups of 2 rows: 54 rows are two figures of 27 rows each at best, 14 groups and 13.
    const auto parts = figureRows(std::vector<std::size_t>(27, 2));
    ASSERT_EQ(parts.size(), 2U);
    EXPECT_EQ(parts[0].behindLast, 14U);
    EXPECT_EQ(parts[1].first, 14U);
    EXPECT_EQ(parts[1].behindLast, 27U);
    EXPECT_EQ(figureRows({50, 1}).size(), 2U) << "a group is not split";
}

TEST(Figures, PairsSayDifferenceAndVerdictOfEachOnce) {
    for (const auto& figure : inventedFigures({})) {
        if (figure.name != "pairs") {
            continue;
        }
        std::size_t marks = 0;
        std::vector<std::string> numbers;
        bool isInGroup = false;
        for (const auto& drawn : figure.drawn) {
            isInGroup = std::holds_alternative<GroupStart>(drawn) ||
                        (isInGroup && !std::holds_alternative<GroupEnd>(drawn));
            marks += isInGroup && std::holds_alternative<Marker>(drawn) ? 1U : 0U;
            if (const auto* text = std::get_if<Text>(&drawn); isInGroup && text != nullptr) {
                numbers.push_back(text->text);
            }
        }
        // Three implements 300 rpm apart.
        EXPECT_EQ(marks, 3U);
        EXPECT_EQ(numbers, (std::vector<std::string>{"300", "600", "300"}));
    }
}

// At 390 pixels a page has 358 beside its margins of 16, and a figure fills them; a wider one
// scrolls at its own size.
TEST(Figures, WordsHaveElevenPixelsOnAPhone) {
    for (int implements : {3, 27}) {
        for (const auto& figure : inventedFigures(tests::manyImplements(implements))) {
            const double scale = std::max(1.0, 358.0 / figure.widthPt);
            EXPECT_TRUE(figure.widthPt <= 358.0 || figure.name == "pairs") << figure.name;
            for (const auto& drawn : figure.drawn) {
                if (const auto* text = std::get_if<Text>(&drawn)) {
                    EXPECT_GE(text->sizePt * scale, 11.0) << figure.name << ": " << text->text;
                }
            }
        }
    }
}

TEST(Figures, NamesThatAreTooLongLoseTheBeginningThatAllShare) {
    // 0.56 of 11 points a letter: 20 letters are 123.2 points.
    const std::vector<std::string> names{"Set 016 natural gut 27 kg", "Set 009 polyester 20 kg"};
    EXPECT_EQ(namesToWidth(names, 200.0, 11.0), names);
    EXPECT_EQ(namesToWidth(names, 140.0, 11.0),
              (std::vector<std::string>{"…016 natural gut 27 kg", "…009 polyester 20 kg"}));
    EXPECT_EQ(namesToWidth({"abcdefgh"}, 5 * 0.56 * 11.0, 11.0),
              (std::vector<std::string>{"abcd…"}));
}

TEST(Figures, NothingIsDrawnOutsideTheFrame) {
    for (const auto& figure : inventedFigures(tests::hostileNames())) {
        for (const auto& drawn : figure.drawn) {
            if (const auto* marker = std::get_if<Marker>(&drawn)) {
                EXPECT_GE(marker->at.x, 0.0) << figure.name;
                EXPECT_LE(marker->at.x, figure.widthPt) << figure.name;
                EXPECT_LE(marker->at.y, figure.heightPt) << figure.name;
            } else if (const auto* text = std::get_if<Text>(&drawn)) {
                EXPECT_LE(roughWidthPt(text->text, text->sizePt), figure.widthPt) << figure.name;
                EXPECT_LE(text->at.y, figure.heightPt) << figure.name;
            }
        }
    }
}

TEST(Figures, SvgIsWellFormedXmlWithHostileNames) {
    tests::TemporaryFolder folder;
    for (const auto& figure : inventedFigures(tests::hostileNames())) {
        const std::string file = folder.file(figure.name + ".svg");
        std::ofstream{file} << svgText(figure, SvgUse::File);
        const auto parsed = tests::runProgram(
            {"python3", "-c",
             "import sys,xml.etree.ElementTree as t\n"
             "r=t.parse(sys.argv[1]).getroot(); s='{http://www.w3.org/2000/svg}'\n"
             "assert r.tag==s+'svg' and r[0].tag==s+'title' and r[1].tag==s+'desc'\n"
             "assert all(e.tag!=s+'script' and not any('href' in a for a in e.attrib) "
             "for e in r.iter())",
             file});
        EXPECT_EQ(parsed.status, 0) << figure.name << parsed.errors;
    }
}

// PNG (ISO/IEC 15948), 5.2 and 11.2.2: signature, then IHDR with width and height. 356 points at
// 300 dots per inch are 1483.3 pixels.
TEST(Figures, PngHasPrintSize) {
    for (const auto& figure : inventedFigures({})) {
        const auto png = pngOf(figure);
        ASSERT_TRUE(png.has_value()) << png.error().message;
        EXPECT_EQ(png.value().substr(0, 8), "\x89PNG\r\n\x1a\n");
        EXPECT_EQ(bigEndian(png.value(), 16), 1483U) << figure.name;
        EXPECT_NEAR(bigEndian(png.value(), 20), figure.heightPt / 72.0 * 300.0, 1.0);
    }
}

// PNG (ISO/IEC 15948), 5.3, 11.2.2 and 11.3.5.3: after the 33 bytes of signature and IHDR, a pHYs
// chunk of nine bytes; 300 dots per inch are 300 / 0.0254 = 11811 dots per metre, unit 1. Its check
// sum is that of zlib's crc32.
TEST(Figures, PngSaysItsResolution) {
    tests::TemporaryFolder folder;
    for (const auto& figure : inventedFigures({})) {
        const auto png = pngOf(figure);
        ASSERT_TRUE(png.has_value()) << png.error().message;
        EXPECT_EQ(bigEndian(png.value(), 33), 9U);
        EXPECT_EQ(png.value().substr(37, 4), "pHYs");
        EXPECT_EQ(bigEndian(png.value(), 41), 11811U);
        EXPECT_EQ(bigEndian(png.value(), 45), 11811U);
        EXPECT_EQ(png.value()[49], 1);
        const std::string file = folder.file(figure.name + ".png");
        std::ofstream{file, std::ios::binary} << png.value();
        const auto checked = tests::runProgram(
            {"python3", "-c",
             "import sys,zlib,struct\n"
             "d=open(sys.argv[1],'rb').read(); at=8\n"
             "while at<len(d):\n"
             "    n=struct.unpack('>I',d[at:at+4])[0]\n"
             "    assert zlib.crc32(d[at+4:at+8+n])==struct.unpack('>I',d[at+8+n:at+12+n])[0]\n"
             "    at+=12+n\n"
             "assert at==len(d)",
             file});
        EXPECT_EQ(checked.status, 0) << figure.name << checked.errors;
    }
}

TEST(Axis, TicksAreRoundAndInside) {
    const Axis axis{{1463.0, 2127.0}, 0.0, 100.0};
    const auto ticks = axis.ticks(5);
    ASSERT_GE(ticks.size(), 3U);
    for (const double tick : ticks) {
        EXPECT_DOUBLE_EQ(tick, 100.0 * std::round(tick / 100.0));
        EXPECT_GE(axis.at(tick), 0.0);
        EXPECT_LE(axis.at(tick), 100.0);
    }
    EXPECT_EQ(Axis::label(-0.5, 0.5), "−0.5");
    EXPECT_EQ(Axis::label(1500.0, 200.0), "1500");
}

TEST(Axis, SingleValueStillHasAScale) {
    const Axis axis{{1500.0, 1500.0}, 0.0, 100.0};
    EXPECT_NEAR(axis.at(1500.0), 50.0, 5.0);
}

}  // namespace
}  // namespace core::publish
