#include "project/reading.hpp"

#include <algorithm>
#include <filesystem>
#include <numeric>
#include <set>

#include "base/limits.hpp"
#include "project/quilt_from_json.hpp"

namespace farflung::project {

void Reading::take_ids(const Place& root) {
  print_ids_ = ids(root / "prints", "print", limits::kPrints);
  pattern_ids_ = ids(root / "patterns", "pattern", limits::kPatterns);
  block_ids_ = ids(root / "blocks", "block", limits::kBlocks);
}

Reading::Ids Reading::ids(const Place& list, const std::string& kind, std::size_t most) {
  Ids ids;
  if (list.size() > most) {
    refuse(list, "has " + std::to_string(list.size()) + " entries, the most is " + std::to_string(most),
           "make it a smaller quilt");
    return ids;
  }
  int index = 0;
  for (const Place& item : list.items()) {
    const Place id = item / "id";
    if (!ids.emplace(id.text(), index++).second && id.value().is_string()) {
      add(id, "there is a " + kind + " " + id.text() + " already", "give each its own id");
    }
  }
  return ids;
}

void Reading::keep(Problem problem) {
  if (problems_.size() >= limits::kProblems) {
    ++untold_;
  } else {
    problems_.push_back(std::move(problem));
  }
}

void Reading::add(const Place& place, std::string cause, std::string remedy) {
  keep(input_problem(place.pointer(), std::move(cause), std::move(remedy)));
}

void Reading::refuse(const Place& place, std::string cause, std::string remedy) {
  add(place, std::move(cause), std::move(remedy));
  give_up();
}

void Reading::add_missing(const Problems& found) {
  std::set<std::string> places;
  for (const Problem& problem : problems_) places.insert(problem.at);
  for (const Problem& problem : found) {
    if (places.count(problem.at) == 0) keep(problem);
  }
}

Problems Reading::told() {
  if (untold_ > 0) {
    problems_.push_back(input_problem("", "and " + std::to_string(untold_) + " more problems", "mend these first"));
  }
  return std::move(problems_);
}

Length Reading::length(const Place& place, Length otherwise) {
  if (!place.value().is_number() && !place.value().is_string()) return otherwise;
  if (const std::optional<Length> read = length_from_json(place.value(), units_)) return *read;
  add(place, place.value().is_string() ? "\"" + place.text() + "\" is not a length" : "a length out of reach",
      "write a number in the file's units, or a text such as \"2 1/2\", \"3/8\" or \"8.9 cm\"");
  return otherwise;
}

Length Reading::width(const Place& place, Length otherwise) {
  const std::size_t before = problems_.size();
  const Length read = length(place, otherwise);
  if (place.given() && read <= Length() && problems_.size() == before && shape_is_right_) {
    add(place, "must be more than 0", "write how wide or long it is");
  }
  return read;
}

std::string Reading::file_within(const Place& place) {
  const std::string name = place.text();
  const std::filesystem::path path(name);
  const bool outside = path.is_absolute() || std::find(path.begin(), path.end(), "..") != path.end() ||
                       name.find('\0') != std::string::npos;
  if (outside) {
    add(place, "names a file outside the quilt's folder", "bring the file into the folder and name it from there");
  }
  return outside ? "" : name;
}

int Reading::named(const Place& place, const Ids& ids, const std::string& kind) {
  if (!place.value().is_string()) return quilt::kNone;
  const auto found = ids.find(place.text());
  if (found != ids.end()) return found->second;
  add(place, "there is no " + kind + " " + (place.text().empty() ? "without a name" : place.text()),
      "name one of the quilt's " + kind + "s");
  return quilt::kNone;
}

int Reading::print_named(const Place& place) {
  if (!lone_pattern_) return named(place, print_ids_, "print");
  if (place.given()) add(place, "a pattern that stands alone has no prints", "name the print in the quilt");
  return quilt::kNone;
}

int Reading::cell_at(const Place& place, const std::vector<int>& rows) {
  const std::vector<Place> pair = place.items();
  if (pair.size() != 2) return quilt::kNone;
  const int row = pair[0].whole(-1);
  const int column = pair[1].whole(-1);
  if (row < 0 || column < 0 || row >= static_cast<int>(rows.size()) || column >= rows[row]) {
    if (shape_is_right_) add(place, "there is no such cell", "write row and column, counted from 0");
    return quilt::kNone;
  }
  return std::accumulate(rows.begin(), rows.begin() + row, 0) + column;
}

colour::Lab lab_from(const Place& place) {
  const std::vector<Place> parts = place.items();
  if (parts.size() != 3) return {};
  return {parts[0].number(0), parts[1].number(0), parts[2].number(0)};
}

}  // namespace farflung::project
