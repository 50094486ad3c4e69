// Where the program's own data lies: patterns, tables, the schema.
#pragma once

#include <filesystem>

#include "base/result.hpp"

namespace farflung::project {

/// The first of these that is there: $FARFLUNG_DATA; ../share/farflung beside the program's folder (as installed);
/// data/ of the build tree that it stands in, a link to the source's. Where $FARFLUNG_DATA is set nothing else is
/// tried.
Result<std::filesystem::path> data_folder();

}  // namespace farflung::project
