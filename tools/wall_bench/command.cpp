#include "wall_bench/command.hpp"

#include <chrono>
#include <cstdlib>
#include <ctime>
#include <filesystem>

#include "job/wall.hpp"
#include "photo/decode.hpp"
#include "photo/encode.hpp"
#include "project/document.hpp"

namespace farflung::wall_bench {
namespace {

namespace fs = std::filesystem;

struct Stopwatch {
  std::chrono::steady_clock::time_point started = std::chrono::steady_clock::now();
  std::clock_t core_started = std::clock();
  double seconds() const { return std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count(); }
  double core_seconds() const { return static_cast<double>(std::clock() - core_started) / CLOCKS_PER_SEC; }
};

/// The quilt with its swatches in `folder`; false where it cannot be written.
bool written(const Wall& wall, const std::string& folder) {
  project::Document document;
  document.quilt = wall.quilt;
  for (print::Print& print : document.quilt.prints) print.swatch = "swatches/" + print.id + ".png";
  print::give_codes(document.quilt.prints);
  if (!project::create(folder, document).ok()) return false;
  for (std::size_t p = 0; p < wall.swatches.size(); ++p) {
    if (!photo::save(wall.swatches[p], (fs::path(folder) / document.quilt.prints[p].swatch).string()).ok())
      return false;
  }
  return true;
}

}  // namespace

Cost cost_of_command(const Wanted& wanted, Seed seed) {
  std::string name = (fs::temp_directory_path() / "farflung-wall-XXXXXX").string();
  const fs::path place = mkdtemp(name.data());
  const Wall wall = wall_by_lot(wanted, seed);
  job::Wall asked;
  asked.folder = (place / "harbour").string();
  asked.photographs = {(place / "wall.jpg").string()};
  // Decoded alone from a file of its own: what was decoded once is remembered.
  const std::string alone = (place / "alone.jpg").string();
  Cost cost;
  if (written(wall, asked.folder) && photo::save(wall.picture, asked.photographs.front()).ok() &&
      photo::save(wall.picture, alone).ok()) {
    const Stopwatch reading;
    const job::Outcome outcome = job::wall(asked, [](const job::Progress&) { return true; });
    if (outcome.ok()) cost.command = reading.seconds(), cost.command_core = reading.core_seconds();
    photo::DecodeOptions as_the_command_does;
    as_the_command_does.longest = 2600;
    const Stopwatch decoding;
    const auto photograph = photo::decode(alone, as_the_command_does);
    if (photograph.ok()) cost.decoding = decoding.seconds(), cost.decoding_core = decoding.core_seconds();
  }
  fs::remove_all(place);
  return cost;
}

}  // namespace farflung::wall_bench
