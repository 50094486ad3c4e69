#include "published_tables.hpp"

#include <algorithm>
#include <cstdio>
#include <fstream>
#include <limits>
#include <sstream>

namespace farflung::bench {
namespace {

/// The rows of a table of data/bench after its heading, by fields.
std::vector<std::vector<std::string>> rows_of(const std::string& file) {
  std::ifstream in(std::string(FARFLUNG_SOURCE) + "/data/bench/" + file);
  std::vector<std::vector<std::string>> rows;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::istringstream fields(line);
    rows.emplace_back();
    for (std::string field; std::getline(fields, field, '\t');) rows.back().push_back(field);
  }
  return rows;
}

}  // namespace

std::vector<Torus> grey_patterns() {
  std::vector<Torus> all;
  for (const auto& row : rows_of("grey_pattern.tsv")) {
    Torus torus;
    std::sscanf(row[0].c_str(), "%dx%d", &torus.rows, &torus.columns);
    const int copies = std::stoi(row[1]);
    torus.name = row[0] + " grey, " + row[1] + " copies";
    torus.prints = 1;
    torus.print.assign(torus.rows * torus.columns, -1);
    std::fill(torus.print.begin(), torus.print.begin() + copies, 0);
    torus.value = std::stol(row[2]);
    torus.proven = row[3] == "yes";
    all.push_back(torus);
  }
  return all;
}

std::vector<Torus> many_prints() {
  std::vector<Torus> all;
  for (const auto& row : rows_of("many_prints_torus.tsv")) {
    Torus torus;
    torus.rows = std::stoi(row[0]);
    torus.columns = std::stoi(row[1]);
    torus.prints = std::stoi(row[2]);
    torus.name = row[0] + "x" + row[1] + ", " + row[2] + " prints";
    for (int k = 0; k < torus.rows * torus.columns; ++k) torus.print.push_back(k / std::stoi(row[3]));
    torus.value = std::stol(row[4]);
    torus.proven = row[5] == "yes";
    all.push_back(torus);
  }
  return all;
}

std::vector<long> torus_weights(int rows, int columns) {
  const int n = rows * columns;
  std::vector<long> weights(static_cast<std::size_t>(n) * n, 0);
  for (int i = 0; i < n; ++i) {
    for (int j = 0; j < n; ++j) {
      if (i == j) continue;
      long squared = std::numeric_limits<long>::max();
      for (int v = -1; v <= 1; ++v) {
        for (int w = -1; w <= 1; ++w) {
          const long down = i / columns - j / columns + v * rows;
          const long across = i % columns - j % columns + w * columns;
          squared = std::min(squared, down * down + across * across);
        }
      }
      const long twice = 200000 / squared;  // rounding half to even, in whole numbers
      const bool half = 200000 % squared == 0 && twice % 2 == 1;
      long rounded = (twice + 1) / 2;
      if (half && rounded % 2 == 1) --rounded;
      weights[static_cast<std::size_t>(i) * n + j] = rounded;
    }
  }
  return weights;
}

long value_of(const std::vector<long>& weights, const std::vector<int>& print_in_place) {
  const std::size_t n = print_in_place.size();
  long value = 0;
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t j = 0; j < n; ++j) {
      if (print_in_place[i] >= 0 && print_in_place[i] == print_in_place[j]) value += weights[i * n + j];
    }
  }
  return value;
}

std::vector<Lee> lee_grids() {
  std::vector<Lee> all;
  for (const auto& row : rows_of("lee.tsv")) {
    all.push_back({std::stoi(row[0]), std::stoi(row[1]), std::stoi(row[2]), std::stoi(row[3])});
  }
  return all;
}

}  // namespace farflung::bench
