// photo_bench FIRST COUNT [sheet] [test] [remnants] [--side PIXELS] [--keep FOLDER]: takes simulated photographs in,
// with the reference sheet beside the cloth where asked, drawn for tuning unless `test` is said, and prints how well
// each was read, then the figures for all. `remnants` are each of their own size, on tables of every kind. They have 12
// megapixels, as a telephone's; --side draws them smaller or larger (1600: as sent on by a messenger), as blurred for
// their size. --keep writes each photograph and its overview to FOLDER.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <string>

#include <unistd.h>

#include "colour/lab.hpp"
#include "photo/encode.hpp"
#include "photo_bench/printed_sheet.hpp"
#include "photo_bench/reading.hpp"
#include "simulator/trials.hpp"

namespace {

using namespace farflung;

constexpr int kTelephone = 4000;  ///< pixels of the longer side of a telephone's 12 megapixels

double quantile(std::vector<double> values, double share) {
  if (values.empty()) return -1;
  std::sort(values.begin(), values.end());
  return values[std::min(values.size() - 1, static_cast<std::size_t>(share * static_cast<double>(values.size())))];
}

double mean(const std::vector<double>& values) {
  double sum = 0;
  for (const double value : values) sum += value;
  return values.empty() ? -1 : sum / static_cast<double>(values.size());
}

void print_row(const char* what, double value, double aim) { std::printf("%-58s %8.3f  %8.3f\n", what, value, aim); }

/// Whether a table is white or cream: the aims without a reference are for these.
bool is_pale(const simulator::Surface& surface) {
  constexpr double kPale = 78;  // L*
  return colour::lab_from_srgb({surface.ink.red, surface.ink.green, surface.ink.blue}).L > kPale;
}

void print_table(const photo_bench::Reading& all, const std::vector<double>& pale, const std::vector<double>& taus,
                 bool sheet) {
  std::printf("%-58s %8s  %8s\n", "", "reached", "aim");
  print_row("swatches found, %", 100.0 * all.found / std::max(1, all.there), 99.5);
  print_row("of them sure, %", 100.0 * all.sure / std::max(1, all.found), 100);
  print_row("false ones", all.false_ones, 0);
  print_row("corners, error over side, median, %", 100 * quantile(all.corners, 0.5), 0.3);
  print_row("corners, error over side, 99th percentile, %", 100 * quantile(all.corners, 0.99), 1);
  print_row("worst corner over side, median, %", 100 * quantile(all.off, 0.5), 0.3);
  print_row("worst corner over side, 99th percentile, %", 100 * quantile(all.off, 0.99), 1);
  print_row("mean colour, dE00, median", quantile(all.dE, 0.5), sheet ? 1.2 : 3);
  print_row("mean colour, dE00, 95th percentile", quantile(all.dE, 0.95), sheet ? 2.5 : 6);
  print_row("the same of those on a pale surface, median", quantile(pale, 0.5), sheet ? 1.2 : 3);
  print_row("the same of those on a pale surface, 95th percentile", quantile(pale, 0.95), sheet ? 2.5 : 6);
  print_row("order of lightness, Kendall's tau, mean of bundles", mean(taus), sheet ? 0.97 : 0.93);
  print_row("palette, transport to the true one, dE00, median", quantile(all.palette, 0.5), 2);
  if (!all.scale.empty()) print_row("motif scale, error, median, %", 100 * quantile(all.scale, 0.5), 5);
  if (!all.inches.empty()) {
    print_row("a cloth's side in inches, error, median, %", 100 * quantile(all.inches, 0.5), 5);
    print_row("a cloth's side in inches, error, 99th percentile, %", 100 * quantile(all.inches, 0.99), 5);
    print_row("the same of those 30 in from the sheet, median, %", 100 * quantile(all.far, 0.5), 5);
    print_row("the same of those 30 in from the sheet, 99th perc., %", 100 * quantile(all.far, 0.99), 5);
  }
  print_row("stripes told as stripes, %", 100.0 * static_cast<double>(all.stripe.size()) / std::max(1, all.stripes),
            100);
  print_row("one-way prints told so, %", 100.0 * all.one_way_told / std::max(1, all.one_way), 80);
  print_row("others taken for one-way, %", 100.0 * all.one_way_false / std::max(1, all.found - all.one_way), 2);
  if (all.stripe.empty()) return;
  print_row("stripe angle, error, median, degrees", quantile(all.stripe, 0.5), 2);
  print_row("stripe angle, error, 95th percentile, degrees", quantile(all.stripe, 0.95), 2);
}

void append(std::vector<double>& to, const std::vector<double>& more) { to.insert(to.end(), more.begin(), more.end()); }

}  // namespace

int main(int count, char** words) {
  if (count < 3) {
    std::fputs("usage: photo_bench FIRST COUNT [sheet] [test] [remnants] [--side PIXELS] [--keep FOLDER]\n", stderr);
    return 2;
  }
  const int first = std::atoi(words[1]), last = first + std::atoi(words[2]);
  bool sheet = false;
  auto purpose = simulator::Purpose::tuning;
  simulator::Range range;
  range.longest_side = kTelephone;
  std::filesystem::path folder;
  for (int i = 3; i < count; ++i) {
    const std::string word = words[i];
    if (word == "sheet") sheet = true;
    if (word == "test") purpose = simulator::Purpose::test;
    if (word == "remnants") range.smaller = 0.4, range.any_table = true;
    if (word == "--side" && i + 1 < count) range.longest_side = std::atoi(words[++i]);
    if (word == "--keep" && i + 1 < count) folder = words[++i];
  }
  const bool keep = !folder.empty();
  if (!keep) folder = std::filesystem::temp_directory_path() / ("photo_bench_" + std::to_string(getpid()));
  std::filesystem::create_directories(folder);

  photo_bench::Reading all;
  std::vector<double> taus, pale;
  double seconds = 0;
  for (int number = first; number < last; ++number) {
    const Seed seed = simulator::trial_seed(purpose, number);
    simulator::Trial trial = simulator::trial(seed, range);
    if (sheet) simulator::lay_beside(trial.scene, photo_bench::printed_sheet(derived(seed, 9)), 0.8);
    const simulator::Photograph photograph = simulator::photographed(trial);
    const std::string file = (folder / (std::to_string(number) + ".jpg")).string();
    if (!simulator::written(file, simulator::jpeg_of(photograph.srgb, trial.shot.develop.jpeg_quality))) return 1;
    const std::clock_t start = std::clock();
    const auto taken = photo::take(file);
    seconds += static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
    const auto reading = photo_bench::read(trial.scene, photograph, taken ? *taken : photo::Take());
    std::printf(
        "%3d: %2d there, %2d found, %2d sure, %d false; worst corner %.2f %%; dE %.1f; reference %s; slant %.0f, "
        "%.0f K, %+.1f EV%s\n",
        number, reading.there, reading.found, reading.sure, reading.false_ones, 100 * quantile(reading.off, 1),
        quantile(reading.dE, 0.5), taken ? taken->reference.kind.c_str() : taken.problems()[0].cause.c_str(),
        trial.shot.camera.slant, trial.shot.light.kelvin, trial.shot.develop.exposure,
        reading.found < reading.there || reading.false_ones > 0 ? "  <<" : "");
    std::fflush(stdout);
    if (keep && taken) {
      std::vector<std::string> codes;
      for (std::size_t i = 0; i < taken->swatches.size(); ++i) codes.push_back(std::to_string(i + 1));
      if (!photo::save(photo::overview_of(*taken, codes), (folder / (std::to_string(number) + "_found.jpg")).string()))
        return 1;
    }
    all.there += reading.there, all.found += reading.found, all.sure += reading.sure,
        all.false_ones += reading.false_ones;
    append(all.off, reading.off);
    append(all.corners, reading.corners);
    append(all.dE, reading.dE);
    if (is_pale(trial.scene.surface)) append(pale, reading.dE);
    append(all.palette, reading.palette);
    append(all.scale, reading.scale);
    append(all.inches, reading.inches);
    append(all.far, reading.far);
    append(all.stripe, reading.stripe);
    all.stripes += reading.stripes;
    all.one_way += reading.one_way, all.one_way_told += reading.one_way_told;
    all.one_way_false += reading.one_way_false;
    if (reading.tau) taus.push_back(*reading.tau);
  }
  if (!keep) std::filesystem::remove_all(folder);
  print_table(all, pale, taus, sheet);
  std::printf("%.2f s of processor a photograph\n", seconds / std::max(1, last - first));
  return 0;
}
