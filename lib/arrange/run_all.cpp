#include "arrange/run_all.hpp"

#include <algorithm>
#include <atomic>
#include <thread>
#include <vector>

namespace farflung::arrange {

void run_all(int count, int threads, const std::function<void(int)>& run) {
  const int cores = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
  const int workers = std::clamp(threads > 0 ? threads : cores, 1, count);
  std::atomic<int> next{0};
  const auto work = [&] {
    for (int k = next++; k < count; k = next++) run(k);
  };
  std::vector<std::thread> others;
  for (int k = 1; k < workers; ++k) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
}

}  // namespace farflung::arrange
