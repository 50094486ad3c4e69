// A quilt and the file it stands in: read, write, change one value.
#pragma once

#include <filesystem>
#include <memory>
#include <string>

#include "base/result.hpp"
#include "project/hold.hpp"
#include "quilt/quilt.hpp"

namespace farflung::project {

/// The version of the format that this program writes.
constexpr int kFormatVersion = 1;

/// The tree and the bytes that a document was read from.
class Original;

/// A quilt with what else its file held: keys that are not ours, and how lengths were written.
///
///   Result<Document> document = read("harbour");
///   if (!document) return document.problems();
///   document->quilt.title = "Harbour raffle";
///   Result<Done> written = write("harbour", *document);
struct Document {
  quilt::Quilt quilt;
  std::shared_ptr<const Original> original;  ///< none for a quilt that was never read or written
};

/// The quilt in a file's text. `file` is what problems call it. Every problem comes back, each with its place:
/// "quilt.json:3:17" (line, column) where the text is not JSON, "quilt.json#/blocks/3/prints/A" (a JSON pointer) where
/// the quilt is wrong. An older version is brought up step by step; a newer one is refused.
Result<Document> document_from_text(const std::string& text, const std::string& file = "quilt.json");

/// The file's text: the same document gives the same bytes. The quilt must be free of quilt::problems_of.
std::string text_of(const Document& document);

/// The JSON pointer of a problem's place, "/blocks/3/prints/A"; the place itself where it has none.
std::string pointer_of(const Problem& problem);

/// One value changed by its JSON pointer ("-" after a list adds to it), the whole file checked as when it is read.
/// `value` is JSON, or a text where that is what the format wants there or JSON cannot be made of it: Kelp, "Kelp", 2
/// 1/2, [1, 2]. null takes out what may be left out. Where rows, columns or kind of the setting change, the layout
/// follows: cells that still are keep what they hold, blocks of those that are no more become spares.
///
/// A key that the format does not know is kept wherever it stands; whether a new one may be made is for `keys` to say:
/// a hand that types a pointer more likely slipped, and is told the key that is nearest.
enum class NewKeys { taken, refused };
Result<Document> set(const Document& document, const std::string& pointer, const std::string& value,
                     NewKeys keys = NewKeys::taken);

/// The quilt in a folder.
Result<Document> read(const std::filesystem::path& folder);

/// Makes a quilt's folder, with photos, swatches and sheets in it, and its first quilt.json. Refused where one stands
/// there.
Result<Done> create(const std::filesystem::path& folder, Document& document);

/// Saves a document in its folder, the version before kept for undo. Refused, nothing changed, where it is not a valid
/// quilt, where another program holds the quilt, or has saved it since the document was read. On Done the bytes survive
/// a power cut and the document counts as read from them. Where nothing changed nothing is written.
Result<Done> write(const std::filesystem::path& folder, Document& document);

/// The same under a hold that was taken before the document was read: nobody can have come between.
Result<Done> write(const Hold& hold, Document& document);

/// Whether a write was refused because another program has saved the quilt since the document was read: read anew, it
/// may go.
bool was_overtaken(const Problem& problem);

/// The version before the present one, and the one after it again; fifty are kept. A file that was changed by hand,
/// even broken, counts as a version. The problem where there is none is an input problem.
Result<Document> undo(const std::filesystem::path& folder);
Result<Document> redo(const std::filesystem::path& folder);

/// How often undo and redo can go.
struct History {
  int before = 0, after = 0;
  friend bool operator==(const History&, const History&) = default;
};
/// Reads only: needs no hold.
Result<History> history(const std::filesystem::path& folder);

}  // namespace farflung::project
