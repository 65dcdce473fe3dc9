#pragma once

#include <memory>
#include <string>
#include <variant>
#include <vector>

#include "core/base/pixels.h"
#include "core/publish/figures/figure.h"
#include "core/publish/origin.h"

/// What a publication says, in order, before it becomes a page or a PDF. Plain values; texts are as
/// people typed them and are made safe by whoever writes them out.
namespace core::publish {

enum class Tone {
    Plain,
    Lead,     ///< what to take away
    Quiet,    ///< how and why, for who wants it
    Caution,  ///< for the safety of people
};

struct Paragraph {
    std::string text;
    Tone tone{Tone::Plain};
};

struct BulletList {
    std::vector<std::string> items;
};

struct TableColumn {
    std::string heading;
    bool isNumber{};    ///< set to the right, figures of one width
    double share{1.0};  ///< of the width in print, relative to the others
};

struct TableBlock {
    std::string caption;
    std::vector<TableColumn> columns;
    std::vector<std::vector<std::string>> rows;
};

/// A figure that is also a file.
struct FigureBlock {
    std::shared_ptr<const Figure> figure;
};

/// Pictures of one shot side by side.
struct StripBlock {
    std::string heading;
    std::string words;                           ///< what is seen, also for who cannot see it
    std::shared_ptr<const PixelBuffer> picture;  ///< null: words say why there is none
};

/// A file beside the page.
struct LinkList {
    struct Link {
        std::string file;
        std::string words;
    };
    std::vector<Link> links;
};

using Block = std::variant<Paragraph, BulletList, TableBlock, FigureBlock, StripBlock, LinkList>;

struct Section {
    std::string id;  ///< a plain word
    std::string heading;
    std::vector<Block> blocks;
    bool isFolded{};  ///< long, for who wants it: the page shows its heading until it is opened
};

struct Document {
    std::string title;
    std::vector<std::string> subtitles;
    Origin origin;
    std::vector<Section> sections;
};

}  // namespace core::publish
