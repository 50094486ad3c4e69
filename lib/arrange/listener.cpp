#include "arrange/listener.hpp"

#include "score/measure.hpp"

namespace farflung::arrange {
namespace {

using Scores = std::vector<std::optional<score::Score>>;

/// The best of those that told anything, the first of equals; kNone where none did.
int best_of(const Scores& scores) {
  int best = quilt::kNone;
  for (int k = 0; k < static_cast<int>(scores.size()); ++k) {
    if (!scores[k]) continue;
    if (best == quilt::kNone || score::better(*scores[k], *scores[best])) best = k;
  }
  return best;
}

}  // namespace

void Listener::begin_stage(int runs, double until) {
  const int best = best_of(scores_);
  if (best != quilt::kNone && (!reached_ || score::better(*scores_[best], *reached_))) reached_ = scores_[best];
  from_ = until_;
  until_ = until;
  done_.assign(runs, 0.0);
  scores_.assign(runs, std::nullopt);
}

double Listener::done() const {
  double sum = 0;
  for (const double each : done_) sum += each;
  return from_ + (until_ - from_) * sum / static_cast<double>(done_.size());
}

bool Listener::hear(int run, double done, const score::Score& score, const std::function<quilt::Quilt()>& laid) {
  if (stopped_) return false;
  if (!told_) return true;
  const std::lock_guard lock(mutex_);
  if (stopped_) return false;                           // while this run waited
  if (done == done_[run] && scores_[run]) return true;  // a descent asks often and has nothing new to tell
  done_[run] = done;
  scores_[run] = score;
  const int best = best_of(scores_);
  const bool bettered = !reached_ || score::better(*scores_[best], *reached_);
  const score::Score& told = bettered ? *scores_[best] : *reached_;
  Progress now{this->done(), told.terms.touches, told.F, {}};
  if (bettered && run == best) now.laid = laid;
  if (!told_(now)) stopped_ = true;
  return !stopped_;
}

}  // namespace farflung::arrange
