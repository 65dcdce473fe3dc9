#pragma once

#include <cstddef>
#include <memory>
#include <stop_token>
#include <string>
#include <vector>

#include "core/base/pixels.h"
#include "core/publish/publish.h"

namespace core::publish {

/// What a publication begins with and what files it has, before any of it is written. Plain value.
struct Preview {
    std::string title;
    std::vector<std::string> subtitles;        ///< implements, hitters and shots; days; author
    std::vector<std::string> sentences;        ///< the lines below the chart
    std::string chart;                         ///< PNG on white; empty where nothing is ranked
    std::shared_ptr<const PixelBuffer> strip;  ///< the frames behind a number of the page, if any
    std::string stripWords;
    std::vector<std::string> files;  ///< names within the folder, sorted; without the films
    std::size_t films{};             ///< how many are tried
};

/// The same words as publish() would write now. known: the findings of the material's snapshot,
/// where they are there; else, and with blind hitters, they are computed. May be called on any
/// thread. Errors: those of findings::findFindings(); WriteFailed for the chart; Cancelled.
Result<Preview> previewOf(const Material& material, const PublishOptions& options,
                          const findings::Findings* known = nullptr,
                          const std::stop_token& stop = {});

}  // namespace core::publish
