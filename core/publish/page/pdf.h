#pragma once

#include <string>

#include "core/base/result.h"
#include "core/publish/drawing/document.h"

namespace core::publish {

/// A document as PDF pages of A4 paper, words set as text, figures as drawings. Dated by the last
/// change of the project: the same document gives the same bytes with the same libraries.
/// Sections that a page folds are there in full; lists of files beside the page are left out.
/// Errors: WriteFailed.
Result<std::string> pdfOf(const Document& document);

}  // namespace core::publish
