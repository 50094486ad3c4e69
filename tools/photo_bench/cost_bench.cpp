// cost_bench [FILE]: what it costs to take a photograph in. Prints the processor time from a 12-megapixel JPEG to
// features over that of decoding it alone at full size, and the peak memory of taking in a 48-megapixel JPEG; of FILE
// both where one is given, else of a simulated photograph.
#include <algorithm>
#include <cstdio>
#include <cstdlib>
#include <ctime>
#include <filesystem>
#include <string>
#include <vector>

#include <opencv2/imgproc.hpp>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "extract/features.hpp"
#include "photo/take.hpp"
#include "simulator/trials.hpp"

namespace {

using namespace farflung;

/// In a process of its own, whose memory is not counted.
template <typename Work>
bool apart(const Work& work) {
  const pid_t child = fork();
  if (child == 0) _exit(work() ? 0 : 1);
  int status = 0;
  return child > 0 && waitpid(child, &status, 0) == child && status == 0;
}

bool simulate(const std::string& twelve, const std::string& forty_eight) {
  simulator::Range range;
  range.longest_side = 4032, range.fewest = 4, range.most = 9;
  const simulator::Trial trial = simulator::trial(simulator::trial_seed(simulator::Purpose::tuning, 3), range);
  const simulator::Photograph photograph = simulator::photographed(trial);
  cv::Mat larger;
  cv::resize(photograph.srgb, larger, {}, 2, 2, cv::INTER_CUBIC);
  return simulator::written(twelve, simulator::jpeg_of(photograph.srgb, 92)) &&
         simulator::written(forty_eight, simulator::jpeg_of(larger, 90));
}

template <typename Work>
double least_seconds(const Work& work) {
  constexpr int kTimes = 5;
  double least = 1e9;
  for (int i = 0; i < kTimes; ++i) {
    const std::clock_t start = std::clock();
    work();
    least = std::min(least, static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC);
  }
  return least;
}

std::size_t features_of(const std::string& file) {
  const auto taken = photo::take(file);
  if (!taken) return 0;
  for (const photo::Swatch& swatch : taken->swatches) (void)extract::features_of(swatch.picture, swatch.inches);
  return taken->swatches.size();
}

double peak_megabytes() {
  rusage usage{};
  getrusage(RUSAGE_SELF, &usage);
  return usage.ru_maxrss / 1024.0;
}

}  // namespace

int main(int count, char** words) {
  const auto folder = std::filesystem::temp_directory_path() / ("cost_bench_" + std::to_string(getpid()));
  std::string twelve = folder / "12.jpg", forty_eight = folder / "48.jpg";
  if (count > 1) {
    twelve = forty_eight = words[1];
  } else {
    std::filesystem::create_directories(folder);
    if (!apart([&] { return simulate(twelve, forty_eight); })) return 1;
  }
  const double before = peak_megabytes();
  const std::size_t swatches = features_of(forty_eight);
  std::printf("48 megapixels: peak memory %.0f MB, %.0f MB of it before (%zu swatches)\n", peak_megabytes(), before,
              swatches);
  photo::DecodeOptions full;
  full.longest = 0;
  const double decoding = least_seconds([&] { (void)photo::decode(twelve, full); });
  const double decoding_smaller = least_seconds([&] { (void)photo::decode(twelve); });
  const double taking = least_seconds([&] { (void)photo::take(twelve); });
  const double all = least_seconds([&] { (void)features_of(twelve); });
  std::printf(
      "12 megapixels: processor time over that of decoding alone: decoding as much as is needed %.2f, "
      "swatches %.2f, features %.2f\n",
      decoding_smaller / decoding, taking / decoding, all / decoding);
  std::error_code ignored;
  std::filesystem::remove_all(folder, ignored);
  return 0;
}
