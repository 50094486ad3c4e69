// What a document was read from. For the sources of this module only.
#pragma once

#include <string>

#include "project/document.hpp"
#include "project/json.hpp"

namespace farflung::project {

/// A file as it stood, so that what is not ours and how lengths were written can be kept.
class Original {
 public:
  Json tree;         ///< brought up to the present version
  std::string text;  ///< the bytes of the file as it was read or written
};

/// The tree of a document's file, null where it has none yet.
const Json& original_tree(const Document& document);

/// A document from a tree that is in the present version; `text` are the bytes that it came from.
Result<Document> document_from_tree(Json tree, std::string text, const std::string& file);

}  // namespace farflung::project
