#include "job/answer.hpp"

namespace farflung::job {
namespace {

const Problem kStopped{Problem::Kind::input, "", "stopped", "nothing was changed"};

}  // namespace

std::string tried_words(bool dry_run) { return dry_run ? "Only tried: nothing was written.\n" : ""; }

Problem stopped() { return kStopped; }

bool is_stopped(const Problems& problems) { return problems.size() == 1 && problems.front() == kStopped; }

}  // namespace farflung::job
