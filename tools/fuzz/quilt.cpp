#include "fuzz/entries.hpp"
#include "fuzz/promise.hpp"
#include "project/document.hpp"

namespace farflung::fuzz {

void quilt(std::string_view bytes) {
  const Result<project::Document> read = project::document_from_text(std::string(bytes));
  if (!read) return promise_reasons(read.problems());
  promise(quilt::problems_of(read->quilt).empty(), "what is read is a valid quilt");
  quilt::plan_of(read->quilt);
  const std::string text = project::text_of(*read);
  const Result<project::Document> again = project::document_from_text(text);
  promise(again.ok(), "what is written can be read");
  promise(project::text_of(*again) == text, "what is read again is written the same");
}

}  // namespace farflung::fuzz
