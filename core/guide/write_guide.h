#pragma once

#include <filesystem>

#include "core/publish/output_folder.h"

namespace core::guide {

/// Writes the guide as pages for a browser, in the look of a published page: index.html with the
/// contents, and NAME.html for each page, in the language that is spoken now. No page needs another
/// file or a network. Errors: those of publish::OutputFolder.
Result<publish::Written> writeGuide(const std::filesystem::path& folder, const WriteRule& foreign);

}  // namespace core::guide
