#include "job/print_ids.hpp"

#include <algorithm>

#include "job/open_quilt.hpp"

namespace farflung::job {
namespace {

bool names_a_print(const std::string& key) { return key == "print" || key == "cornerstone" || key == "filler"; }

/// The id of a print that is called so; `word` itself where none is.
std::string id_of(const quilt::Quilt& quilt, const std::string& word) {
  const int print = print_named(quilt, word);
  return print == quilt::kNone ? word : quilt.prints[print].id;
}

/// Every print that is named within; `all` where every text is one, as by slot in a block.
void name_by_id(const quilt::Quilt& quilt, Report& value, bool all) {
  for (const auto& item : value.items()) {
    const bool here = all || (value.is_object() && names_a_print(item.key()));
    if (here && item.value().is_string()) {
      item.value() = id_of(quilt, item.value().get<std::string>());
    } else if (item.value().is_structured()) {
      name_by_id(quilt, item.value(), value.is_object() && item.key() == "prints");
    }
  }
}

}  // namespace

std::string with_print_ids(const quilt::Quilt& quilt, const std::string& pointer, const std::string& value) {
  Report typed = Report::parse(value, nullptr, false);
  const std::size_t slash = std::min(pointer.rfind('/'), pointer.size());
  const std::string key = pointer.substr(std::min(slash + 1, pointer.size()));
  const bool in_block = pointer.rfind("/blocks/", 0) == 0;
  if (names_a_print(key) || (in_block && pointer.find("/prints/") != std::string::npos)) {
    const std::string word = typed.is_string() ? typed.get<std::string>() : value;
    const std::string id = id_of(quilt, word);
    return id == word ? value : text_of(Report(id));
  }
  if (!typed.is_structured()) return value;
  const Report before = typed;
  name_by_id(quilt, typed, in_block && key == "prints");
  return typed == before ? value : text_of(typed);
}

}  // namespace farflung::job
