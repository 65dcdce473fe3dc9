#pragma once

#include <string>

#include "core/base/result.h"
#include "core/publish/drawing/document.h"

namespace core::publish {

/// A document as one HTML page that needs nothing else: pictures and style inside, nothing loaded,
/// no script. Readable on a phone and in print, light or dark by the reader's setting.
/// date: of publishing, "2026-05-16"; it stands in one line of its own (output_folder.h).
/// Errors: WriteFailed when a picture cannot be encoded.
Result<std::string> htmlPage(const Document& document, const std::string& date);

/// RFC 4648 base 64 with padding.
[[nodiscard]] std::string base64(std::string_view bytes);

}  // namespace core::publish
