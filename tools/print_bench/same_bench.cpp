// same_bench GROUPS.tsv [each]: real close-ups of fabrics (file, fabric, distance; files beside the list's folder).
// Says of how many pictures the nearest other one taken at the same distance is of the same fabric; and of how many of
// those of whose fabric there is another at that distance, for none of the rest can be right.
#include <algorithm>
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>
#include <string>
#include <vector>

#include "extract/features.hpp"
#include "photo/take.hpp"
#include "print/distance.hpp"

namespace {

using namespace farflung;

struct CloseUp {
  std::string file, fabric, distance;
  print::Features features;
};

std::vector<CloseUp> read(const std::string& list) {
  photo::TakeOptions whole;
  whole.whole = true;
  std::vector<CloseUp> all;
  std::ifstream lines(list);
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) {
    std::istringstream words(line);
    CloseUp one;
    words >> one.file >> one.fabric >> one.distance;
    const auto path = std::filesystem::path(list).parent_path().parent_path() / one.file;
    const auto taken = photo::take(path.string(), whole);
    if (!taken) {
      std::printf("%s: %s\n", path.c_str(), taken.problems()[0].cause.c_str());
      continue;
    }
    one.features = extract::features_of(taken->swatches.front().picture);
    all.push_back(one);
  }
  return all;
}

void print_features(const CloseUp& one) {
  const print::Features& f = one.features;
  std::printf("%-20s busyness %.2f, scale %.3f, %s %3.0f, L* %.0f range %.0f:", one.file.c_str(), f.busyness,
              f.scale_share.value_or(0), f.direction.kind == print::Direction::Kind::none ? "none  " : "stripe",
              f.direction.degrees, f.lab.L, f.value_range);
  for (const print::PaletteColour& c : f.palette)
    std::printf(" %.0f %%(%.0f %.0f %.0f)", 100 * c.share, c.lab.L, c.lab.a, c.lab.b);
  std::printf("\n");
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    std::fputs("usage: same_bench GROUPS.tsv [each]\n", stderr);
    return 2;
  }
  const std::vector<CloseUp> all = read(words[1]);
  int right = 0, alone = 0;
  if (count > 2) std::for_each(all.begin(), all.end(), print_features);
  for (const CloseUp& one : all) {
    const CloseUp* nearest = nullptr;
    double least = std::numeric_limits<double>::infinity(), least_same = least;
    for (const CloseUp& other : all) {
      if (&other == &one || other.distance != one.distance) continue;
      const double apart = print::distance(one.features, other.features);
      if (apart < least) least = apart, nearest = &other;
      if (other.fabric == one.fabric) least_same = std::min(least_same, apart);
    }
    if (nearest == nullptr) continue;
    alone += least_same == std::numeric_limits<double>::infinity();
    if (nearest->fabric == one.fabric) {
      ++right;
    } else {
      std::printf("%s: %s is %.2f away, its own fabric %.2f\n", one.file.c_str(), nearest->file.c_str(), least,
                  least_same);
    }
  }
  std::printf("nearest is the same fabric: %d of %zu (%.1f %%)\n", right, all.size(),
              100.0 * right / static_cast<double>(all.size()));
  const int may_be = static_cast<int>(all.size()) - alone;
  std::printf("of those that can be: %d of %d (%.1f %%)\n", right, may_be, 100.0 * right / std::max(1, may_be));
  return 0;
}
