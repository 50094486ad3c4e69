#include "arrange/run_all.hpp"

#include <algorithm>
#include <atomic>
#include <barrier>
#include <thread>
#include <vector>

namespace farflung::arrange {

namespace {

int workers_for(int count, int threads) {
  const int cores = std::max(1, static_cast<int>(std::thread::hardware_concurrency()));
  return std::clamp(threads > 0 ? threads : cores, 1, std::max(1, count));
}

/// Works on this thread and others.
void on_threads(int workers, const std::function<void()>& work) {
  std::vector<std::thread> others;
  for (int k = 1; k < workers; ++k) others.emplace_back(work);
  work();
  for (std::thread& other : others) other.join();
}

}  // namespace

void run_all(int count, int threads, const std::function<void(int)>& run) {
  std::atomic<int> next{0};
  on_threads(workers_for(count, threads), [&] {
    for (int k = next++; k < count; k = next++) run(k);
  });
}

void run_in_steps(int count, int threads, const std::function<void(int)>& run, const std::function<bool()>& between) {
  const int workers = workers_for(count, threads);
  std::atomic<int> next{0};
  bool going = true;
  const auto end_of_step = [&]() noexcept {
    next = 0;
    going = between();
  };
  std::barrier all_here(workers, end_of_step);
  on_threads(workers, [&] {
    while (going) {
      for (int k = next++; k < count; k = next++) run(k);
      all_here.arrive_and_wait();
    }
  });
}

}  // namespace farflung::arrange
