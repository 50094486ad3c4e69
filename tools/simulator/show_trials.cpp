// Writes trial photographs for judging by eye: show_trials DIR FIRST COUNT
#include <cstdio>
#include <cstdlib>
#include <string>

#include "simulator/trials.hpp"

int main(int count, char** words) {
  using namespace farflung;
  using namespace farflung::simulator;
  if (count != 4) {
    std::fprintf(stderr, "show_trials DIR FIRST COUNT\n");
    return 2;
  }
  for (int i = std::atoi(words[2]), last = i + std::atoi(words[3]); i < last; ++i) {
    const Trial one = trial(trial_seed(Purpose::tuning, i));
    const Photograph photograph = photographed(one);
    const std::string file = std::string(words[1]) + "/trial-" + std::to_string(i) + ".jpg";
    if (!written(file, jpeg_of(photograph.srgb, one.shot.develop.jpeg_quality))) return 1;
    std::printf("%s: %zu cloths, %.0f K, %+.1f EV, slant %.0f\n", file.c_str(), photograph.cloths.size(),
                one.shot.light.kelvin, one.shot.develop.exposure, one.shot.camera.slant);
  }
  return 0;
}
