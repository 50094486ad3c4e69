// Pages as a PDF: tagged, in a stated language, the same bytes for the same pages.
#pragma once

#include <string>
#include <vector>

#include "base/result.hpp"
#include "draw/picture.hpp"
#include "sheet/book.hpp"

namespace farflung::sheet {

/// The bytes of a PDF 1.5. Figures carry their alternative text, sections are bookmarked, the document's language is
/// English; it holds no date. Swatches are carried once for each size, at 200 pixels to the inch of paper or more.
Result<std::string> pdf(const std::vector<Page>& pages, const draw::Swatches& swatches, const std::string& title);

}  // namespace farflung::sheet
