#include "instances.hpp"

#include <algorithm>
#include <chrono>
#include <ctime>
#include <numeric>

namespace farflung::bench {
namespace {

quilt::Quilt empty_quilt(int rows, int columns, int prints, Rng& rng) {
  quilt::Quilt quilt;
  for (int p = 0; p < prints; ++p) {
    print::Print print;
    print.id = "P" + std::to_string(p + 1);
    print.features.lab = {rng.between(20, 92), rng.between(-40, 40), rng.between(-40, 40)};
    print.features.busyness = rng.uniform();
    quilt.prints.push_back(print);
  }
  quilt.setting.rows = rows;
  quilt.setting.columns = columns;
  quilt.layout = setting::empty_arrangement(quilt.setting);
  return quilt;
}

block::Pattern pattern_of_strips(int strips) {
  block::Pattern pattern;
  pattern.id = strips == 1 ? "square" : "rails";
  pattern.width = pattern.height = Length::inches(6);
  for (int k = 0; k < strips; ++k) {
    block::Slot slot;
    slot.name = std::string(1, static_cast<char>('A' + k));
    pattern.slots.push_back(slot);
    const Length height = Length::inches(6.0 / strips);
    pattern.patches.push_back({k, rectangle(Length(), k * height, pattern.width, height)});
  }
  if (strips > 1) pattern.turns = {Turn(), Turn::quarters(1), Turn::quarters(2), Turn::quarters(3)};
  return pattern;
}

quilt::Quilt of_strips(int strips, int rows, int columns, int prints, Seed seed) {
  Rng rng(seed);
  quilt::Quilt quilt = empty_quilt(rows, columns, prints, rng);
  quilt.patterns = {pattern_of_strips(strips)};
  std::vector<int> pack;
  for (int cell = 0; cell < rows * columns; ++cell) {
    block::Block block;
    block.id = "B" + std::to_string(cell + 1);
    while (static_cast<int>(block.prints.size()) < strips) {
      if (pack.empty()) {
        pack.resize(prints);
        std::iota(pack.begin(), pack.end(), 0);
        rng.shuffle(std::span<int>(pack));
      }
      const auto fresh = std::find_if(pack.begin(), pack.end(), [&](int print) {
        return std::find(block.prints.begin(), block.prints.end(), print) == block.prints.end();
      });
      if (fresh == pack.end()) {
        pack.clear();
        continue;
      }
      block.prints.push_back(*fresh);
      pack.erase(fresh);
    }
    quilt.blocks.push_back(block);
    quilt.layout.block[cell] = cell;
  }
  return quilt;
}

double seconds_of(clockid_t clock) {
  timespec time{};
  clock_gettime(clock, &time);
  return static_cast<double>(time.tv_sec) + 1e-9 * static_cast<double>(time.tv_nsec);
}

}  // namespace

quilt::Quilt squares(int rows, int columns, int prints, Seed seed) { return of_strips(1, rows, columns, prints, seed); }
quilt::Quilt rails(int rows, int columns, int prints, Seed seed) { return of_strips(3, rows, columns, prints, seed); }

Bench::Bench(const quilt::Quilt& quilt) : measure(quilt), model(score::model_of(measure)) {
  task.model = &model;
  task.freedom = arrange::freedom_of(quilt, measure, model, false);
  for (const int cell : model.cell) {
    const int block = quilt.layout.block[cell];
    held.push_back({block, model.form_of(quilt.blocks[block].pattern, quilt.layout.turn[cell])});
  }
}

double process_seconds() { return seconds_of(CLOCK_PROCESS_CPUTIME_ID); }
double thread_seconds() { return seconds_of(CLOCK_THREAD_CPUTIME_ID); }
double wall_seconds() { return seconds_of(CLOCK_MONOTONIC); }

double median(std::vector<double> values) {
  std::sort(values.begin(), values.end());
  const std::size_t n = values.size();
  return n % 2 == 1 ? values[n / 2] : (values[n / 2 - 1] + values[n / 2]) / 2;
}

}  // namespace farflung::bench
