// What many runs tell, brought together for one who listens.
#pragma once

#include <atomic>
#include <functional>
#include <mutex>
#include <optional>
#include <vector>

#include "arrange/arrange.hpp"

namespace farflung::arrange {

/// Runs tell it from their own threads; `told` hears of the best of them, one call at a time. The work falls into
/// stages, each of so many runs; what a stage has reached is not forgotten in the next. Once `told` has said false it
/// hears no more, not even of a run that waited meanwhile.
class Listener {
 public:
  using Told = std::function<bool(const Progress&)>;

  explicit Listener(Told told) : told_(std::move(told)) {}

  bool listens() const { return static_cast<bool>(told_); }
  bool stopped() const { return stopped_; }

  /// What the runs from now on do is the work up to `until` (0..1).
  void begin_stage(int runs, double until);

  /// How a run stands: how far it is (0..1), its score, and the quilt as it has it. False where it is to stop.
  bool hear(int run, double done, const score::Score& score, const std::function<quilt::Quilt()>& laid);

 private:
  double done() const;

  Told told_;
  std::mutex mutex_;
  double from_ = 0, until_ = 0;
  std::vector<double> done_;
  std::vector<std::optional<score::Score>> scores_;
  std::optional<score::Score> reached_;  ///< by the stages before
  std::atomic<bool> stopped_{false};
};

}  // namespace farflung::arrange
