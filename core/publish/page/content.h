#pragma once

#include <map>
#include <memory>
#include <string>
#include <vector>

#include "core/findings/findings.h"
#include "core/publish/drawing/document.h"
#include "core/publish/material.h"

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
    std::vector<LinkList::Link> files;  ///< beside the page
};

/// The publication in the order of what a reader asks: what was found, how sure, what is behind a
/// number, how it was done, what was left out, and what to mind.
[[nodiscard]] Document documentOf(const ContentInput& input);

}  // namespace core::publish
