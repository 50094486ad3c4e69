// The layer table, held against the includes of lib/, app/ and tools/.
#include <filesystem>
#include <fstream>
#include <map>
#include <regex>
#include <set>

#include <gtest/gtest.h>

namespace farflung {
namespace {

namespace fs = std::filesystem;

/// The place of each module in the table of DEVELOPERS.md. Modules on one row (same whole part) may not include one
/// another; where the table says "then", the later one is on a row of its own just below.
const std::map<std::string, int> kRow = {
    {"base", 0},    {"colour", 10}, {"block", 10},   {"print", 20}, {"setting", 20}, {"quilt", 21}, {"makeup", 30},
    {"choice", 30}, {"score", 30},  {"arrange", 40}, {"swap", 40},  {"cloth", 40},   {"photo", 50}, {"extract", 51},
    {"wall", 51},   {"draw", 60},   {"render", 61},  {"sheet", 61}, {"project", 70}, {"job", 80},   {"server", 90}};

/// Libraries that each belong to some modules alone.
const std::map<std::string, std::set<std::string>> kOwners = {{"opencv2/", {"photo", "extract", "wall"}},
                                                              {"vips/", {"photo"}},
                                                              {"nlohmann/", {"project", "job", "server"}},
                                                              {"valijson/", {"project"}},
                                                              {"cairo", {"draw", "render", "sheet"}},
                                                              {"pango/", {"draw"}},
                                                              {"qpdf/", {"sheet"}},
                                                              {"microhttpd", {"server"}},
                                                              {"qrencode", {"server"}}};

struct Include {
  fs::path file;
  std::string what;
};

std::vector<Include> includes_below(const fs::path& folder) {
  const std::regex line_pattern("^\\s*#\\s*include\\s*[<\"]([^>\"]+)[>\"]");
  std::vector<Include> found;
  for (const auto& entry : fs::recursive_directory_iterator(folder)) {
    if (entry.path().extension() != ".cpp" && entry.path().extension() != ".hpp") continue;
    std::ifstream text(entry.path());
    std::smatch match;
    for (std::string line; std::getline(text, line);) {
      if (std::regex_search(line, match, line_pattern)) found.push_back({entry.path(), match[1]});
    }
  }
  return found;
}

const fs::path kLib = fs::path(FARFLUNG_SOURCE) / "lib";

std::string module_of(const fs::path& file) { return fs::relative(file, kLib).begin()->string(); }

TEST(Layers, EveryFolderOfLibStandsInTheTable) {
  for (const auto& entry : fs::directory_iterator(kLib)) {
    if (!entry.is_directory()) continue;
    EXPECT_TRUE(kRow.count(entry.path().filename().string())) << entry.path();
  }
}

TEST(Layers, AModuleIncludesOnlyWhatStandsAboveIt) {
  for (const Include& include : includes_below(kLib)) {
    const std::string from = module_of(include.file);
    const std::string to = include.what.substr(0, include.what.find('/'));
    if (!kRow.count(to) || include.what.find('/') == std::string::npos || to == from) continue;
    EXPECT_LT(kRow.at(to), kRow.at(from)) << include.file << " includes " << include.what;
  }
}

TEST(Layers, ALibraryIsSeenOnlyByTheModuleThatOwnsIt) {
  for (const Include& include : includes_below(kLib)) {
    for (const auto& [library, owners] : kOwners) {
      if (include.what.rfind(library, 0) != 0) continue;
      EXPECT_TRUE(owners.count(module_of(include.file))) << include.file << " includes " << include.what;
    }
  }
}

TEST(Layers, TheProgramCallsJobsAndNothingElse) {
  const std::set<std::string> allowed = {"base", "job", "server"};
  for (const Include& include : includes_below(fs::path(FARFLUNG_SOURCE) / "app")) {
    const std::string to = include.what.substr(0, include.what.find('/'));
    if (kRow.count(to) && include.what.find('/') != std::string::npos) {
      EXPECT_TRUE(allowed.count(to)) << include.file << " includes " << include.what;
    }
  }
}

}  // namespace
}  // namespace farflung
