#include <algorithm>
#include <system_error>
#include <utility>

#include "base/limits.hpp"
#include "project/at_work.hpp"
#include "project/disk.hpp"
#include "project/original.hpp"
#include "project/versions.hpp"

namespace farflung::project {
namespace {

/// The cause by which whoever saves again knows that it may: said here alone.
constexpr const char* kOvertaken = "was changed by another program since it was read";

std::filesystem::path quilt_file(const std::filesystem::path& folder) { return folder / "quilt.json"; }

Result<std::string> present_bytes(const std::filesystem::path& folder) {
  std::error_code error;
  const char* const remedy = "name the folder of a quilt, or make one with farflung new";
  if (!std::filesystem::exists(folder, error)) return input_problem(folder.string(), "no such folder", remedy);
  if (!std::filesystem::is_directory(folder, error) && !error) {
    return input_problem(folder.string(), "this is no folder", "name the folder that quilt.json lies in");
  }
  const std::filesystem::path file = quilt_file(folder);
  if (!std::filesystem::exists(file, error) && !error) return input_problem(file.string(), "no such file", remedy);
  return disk::read_file(file, limits::kFileBytes);
}

/// The document as it will be read again: the proof that what is about to be written is a quilt.
Result<Document> as_written(const Document& document, const std::filesystem::path& file) {
  Problems problems = quilt::problems_of(document.quilt);
  for (Problem& problem : problems) problem.at.insert(0, file.string() + "#");
  if (!problems.empty()) return problems;
  return document_from_text(text_of(document), file.string());
}

/// Whether what was written is kept among the versions at once, or later.
enum class Keep { now, later };

/// `present` is empty where there is no file yet.
Result<Done> save_over(const std::filesystem::path& folder, const std::string& present, const Document& written,
                       Keep keep = Keep::now) {
  if (written.original->text == present) return Done{};
  if (!present.empty()) {
    if (Result<Done> kept = Versions(folder, present).keep(); !kept) return kept;
  }
  Result<Done> done = disk::replace_file(quilt_file(folder), written.original->text);
  if (done && keep == Keep::now) {
    static_cast<void>(Versions(folder, written.original->text).keep().ok());  // else the next save does it
  }
  return done;
}

Result<Done> save(const Hold& hold, Document& document, Keep keep) {
  const std::filesystem::path file = quilt_file(hold.folder());
  Result<Document> written = as_written(document, file);
  if (!written) return written.problems();
  const Result<std::string> present = present_bytes(hold.folder());
  if (!present) return present.problems();
  const bool ours = document.original && document.original->text == *present;
  if (!ours && written->original->text != *present) {
    return system_problem(file.string(), kOvertaken, "do it again; nothing was changed");
  }
  Result<Done> done = save_over(hold.folder(), *present, *written, keep);
  if (done) document = std::move(*written);
  return done;
}

Result<Document> go(const std::filesystem::path& folder, int step) {
  const Result<Hold> held = hold(folder, step < 0 ? "undo" : "redo");
  if (!held) return held.problems();
  const Result<std::string> present = present_bytes(folder);
  if (!present) return present.problems();
  Versions versions(folder, *present);
  if (Result<Done> kept = versions.keep(); !kept) return kept.problems();
  const Result<std::optional<std::string>> other = versions.neighbour(step);
  if (!other) return other.problems();
  if (!*other) {
    return input_problem(folder.string(),
                         step < 0 ? "there is no version before this one" : "there is no version after this one",
                         step < 0 ? "" : "only what undo took back can be done again");
  }
  Result<Document> document = document_from_text(**other, quilt_file(folder).string());
  if (!document) return document.problems();
  if (Result<Done> going = versions.going(step); !going) return going.problems();
  if (Result<Done> done = disk::replace_file(quilt_file(folder), **other); !done) return done.problems();
  static_cast<void>(versions.gone(step).ok());  // where it fails, `going` and quilt.json say the same together
  return document;
}

/// The first version of a quilt, and the folders for what comes to it.
Result<Done> fill_folder(const std::filesystem::path& folder, const Document& written) {
  for (const char* part : kFilledFolders) {
    if (Result<Done> made = disk::make_folder(folder / part); !made) return made;
  }
  return save_over(folder, "", written);
}

/// A quilt's folder that never came to hold a quilt; where anything else lies in it, it stays.
void remove_empty(const std::filesystem::path& folder) {
  std::error_code ignored;
  if (std::filesystem::exists(quilt_file(folder), ignored)) return;
  for (const char* part : kFilledFolders) std::filesystem::remove(folder / part, ignored);
  for (const char* part : {"versions", kLockName}) std::filesystem::remove(folder / part, ignored);
  std::filesystem::remove(folder, ignored);
}

}  // namespace

Result<Document> read(const std::filesystem::path& folder) {
  const Result<std::string> text = present_bytes(folder);
  if (!text) return text.problems();
  return document_from_text(*text, quilt_file(folder).string());
}

Result<Done> create(const std::filesystem::path& folder, Document& document) {
  Result<Document> written = as_written(document, quilt_file(folder));
  if (!written) return written.problems();
  std::error_code error;
  const bool is_new = !std::filesystem::exists(folder, error);
  if (Result<Done> made = disk::make_folder(folder); !made) return made;
  const Result<Hold> held = hold(folder, "new");
  if (!held) {
    if (is_new) remove_empty(folder);
    return held.problems();
  }
  if (std::filesystem::exists(quilt_file(folder), error)) {
    return input_problem(quilt_file(folder).string(), "there is a quilt already", "choose another folder");
  }
  Result<Done> done = fill_folder(folder, *written);
  if (done) {
    document = std::move(*written);
  } else if (is_new) {
    remove_empty(folder);
  }
  return done;
}

Result<Done> write(const std::filesystem::path& folder, Document& document) {
  const Result<Hold> held = hold(folder, "saving");
  return held ? write(*held, document) : Result<Done>(held.problems());
}

Result<Done> write(const Hold& hold, Document& document) { return save(hold, document, Keep::now); }

Result<Done> write_first(const Hold& hold, Document& document) { return save(hold, document, Keep::later); }

Result<Done> keep_present(const std::filesystem::path& folder) {
  const Result<Hold> held = hold(folder, "keeping a version");
  if (!held) return held.problems();
  const Result<std::string> present = present_bytes(folder);
  return present ? Versions(folder, *present).keep() : Result<Done>(present.problems());
}

Result<Document> reread(const std::filesystem::path& folder, const Document& known) {
  const Result<std::string> text = present_bytes(folder);
  if (!text) return text.problems();
  if (known.original && known.original->text == *text) return known;
  return document_from_text(*text, quilt_file(folder).string());
}

bool was_overtaken(const Problem& problem) {
  return problem.kind == Problem::Kind::system && problem.cause == kOvertaken;
}

Result<Document> undo(const std::filesystem::path& folder) { return go(folder, -1); }
Result<Document> redo(const std::filesystem::path& folder) { return go(folder, 1); }

Result<History> history(const std::filesystem::path& folder) {
  const Result<std::string> present = present_bytes(folder);
  if (!present) return present.problems();
  const Versions versions(folder, *present);
  if (versions.present_is_now()) return History{versions.before(), versions.after()};
  return History{std::min<int>(versions.before() + (versions.empty() ? 0 : 1), static_cast<int>(limits::kVersions)), 0};
}

}  // namespace farflung::project
