// Published instances of two-dimensional guillotine cutting, read from data/bench/guillotine.tsv.
#pragma once

#include <cstdio>
#include <fstream>
#include <sstream>
#include <string>
#include <vector>

#include "cloth/guillotine.hpp"

namespace farflung::cloth {

struct PublishedCut {
  std::string name, source;
  int width = 0, height = 0;
  std::int64_t best_known = 0;
  std::vector<Wanted> wanted;
};

/// `source` is the folder of the sources.
inline std::vector<PublishedCut> published_cuts(const std::string& source) {
  std::ifstream in(source + "/data/bench/guillotine.tsv");
  std::vector<PublishedCut> all;
  std::string line;
  std::getline(in, line);
  while (std::getline(in, line)) {
    std::istringstream fields(line);
    PublishedCut cut;
    std::getline(fields, cut.name, '\t');
    std::getline(fields, cut.source, '\t');
    fields >> cut.width >> cut.height >> cut.best_known;
    for (std::string piece; fields >> piece;) {
      Wanted wanted;
      std::sscanf(piece.c_str(), "%dx%d*%d", &wanted.width, &wanted.height, &wanted.count);
      wanted.turnable = piece.find('r') != std::string::npos;
      const auto value = piece.find('=');
      if (value != std::string::npos) wanted.value = std::stoll(piece.substr(value + 1));
      cut.wanted.push_back(wanted);
    }
    all.push_back(std::move(cut));
  }
  return all;
}

}  // namespace farflung::cloth
