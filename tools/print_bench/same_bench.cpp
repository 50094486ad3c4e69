// same_bench GROUPS.tsv: real close-ups of fabrics (file, fabric, distance; files beside the list's folder). Says of
// how many pictures the nearest other one taken at the same distance is of the same fabric.
#include <cstdio>
#include <filesystem>
#include <fstream>
#include <limits>
#include <sstream>
#include <string>
#include <vector>

#include "extract/features.hpp"
#include "photo/decode.hpp"
#include "print/distance.hpp"

namespace {

using namespace farflung;

struct CloseUp {
  std::string file, fabric, distance;
  print::Features features;
};

std::vector<CloseUp> read(const std::string& list) {
  std::vector<CloseUp> all;
  std::ifstream lines(list);
  std::string line;
  std::getline(lines, line);
  while (std::getline(lines, line)) {
    std::istringstream words(line);
    CloseUp one;
    words >> one.file >> one.fabric >> one.distance;
    const auto path = std::filesystem::path(list).parent_path().parent_path() / one.file;
    const auto photograph = photo::decode(path.string());
    if (!photograph) {
      std::printf("%s: %s\n", path.c_str(), photograph.problems()[0].cause.c_str());
      continue;
    }
    one.features = extract::features_of(photograph->picture);
    all.push_back(one);
  }
  return all;
}

}  // namespace

int main(int count, char** words) {
  if (count < 2) {
    std::fputs("usage: same_bench GROUPS.tsv\n", stderr);
    return 2;
  }
  const std::vector<CloseUp> all = read(words[1]);
  int right = 0;
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
    if (nearest->fabric == one.fabric) {
      ++right;
    } else {
      std::printf("%s: %s is %.2f away, its own fabric %.2f\n", one.file.c_str(), nearest->file.c_str(), least,
                  least_same);
    }
  }
  std::printf("nearest is the same fabric: %d of %zu (%.1f %%)\n", right, all.size(),
              100.0 * right / static_cast<double>(all.size()));
  return 0;
}
