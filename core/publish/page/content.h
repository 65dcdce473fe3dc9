#pragma once

#include <map>
#include <memory>
#include <optional>
#include <string>
#include <vector>

#include "core/findings/findings.h"
#include "core/publish/drawing/document.h"
#include "core/publish/material.h"
#include "core/publish/open_doubts.h"

namespace core::publish {

/// Pictures of the median shot of an implement, or in words why there are none.
struct ImplementStrip {
    project::ImplementId implement;
    std::string heading;
    std::string words;
    std::shared_ptr<const PixelBuffer> picture;
};

/// Why there are no pictures, a sentence a reason.
[[nodiscard]] std::vector<std::string> missingPictures(const std::vector<ImplementStrip>& strips);

/// Everything that the words of a publication are made from.
struct ContentInput {
    const Material& material;
    const findings::Findings& findings;
    const std::vector<std::shared_ptr<const Figure>>& figures;
    const std::vector<ImplementStrip>& strips;
    const std::optional<OpenDoubts>& doubts;
    std::vector<LinkList::Link> files;  ///< beside the page
};

/// The publication in the order of what a reader asks: a table, a chart and ten lines of what was
/// found; then, folded, how sure each rank is, the cells, the pairs, everything else that was
/// looked at, the frames behind a number, how it was done, and what was left out.
[[nodiscard]] Document documentOf(const ContentInput& input);

}  // namespace core::publish
