#include "terminal.hpp"

#include <algorithm>
#include <atomic>
#include <cmath>
#include <csignal>
#include <cstdio>
#include <cstdlib>
#include <cstring>

#include <sys/ioctl.h>
#include <sys/resource.h>
#include <unistd.h>

#include "wrapping.hpp"

namespace farflung::app {
namespace {

std::atomic<bool> job_listens = false;  // a job has begun to ask whether to go on
std::atomic<bool> interrupt_seen = false;

extern "C" void on_interrupt(int) {
  if (!job_listens || interrupt_seen.exchange(true)) _exit(kInterrupted);
}

bool is_set(const char* variable) {
  const char* value = std::getenv(variable);
  return value != nullptr && *value != '\0';
}

bool dumb_terminal() {
  const char* terminal = std::getenv("TERM");
  return terminal == nullptr || std::strcmp(terminal, "dumb") == 0;
}

/// Text as a JSON string.
std::string quoted(const std::string& text) {
  std::string result = "\"";
  for (char c : text) {
    if (c == '"' || c == '\\') {
      result += std::string("\\") + c;
    } else if (static_cast<unsigned char>(c) < 0x20) {
      char escape[8];
      std::snprintf(escape, sizeof escape, "\\u%04x", static_cast<unsigned>(c));
      result += escape;
    } else {
      result += c;
    }
  }
  return result + "\"";
}

std::string as_json(const Problems& problems) {
  std::string text = "{\"schema_version\": 1, \"problems\": [";
  for (std::size_t i = 0; i < problems.size(); ++i) {
    if (i > 0) text += ", ";
    text += "{\"at\": " + quoted(problems[i].place()) + ", \"says\": " + quoted(problems[i].says());
    if (const std::string file = problems[i].file(); !file.empty()) text += ", \"file\": " + quoted(file);
    text += "}";
  }
  return text + "]}";
}

bool write_result(const std::string& text) {
  const bool written = std::fwrite(text.data(), 1, text.size(), stdout) == text.size();
  return std::fflush(stdout) == 0 && written;
}

/// Words as they fit the terminal that shows them; for a file or another program each line stays whole.
std::string for_eyes(const std::string& words, int stream) {
  if (isatty(stream) != 1) return words;
  constexpr std::size_t kUsual = 80, kLeast = 40;
  winsize size{};
  const bool known = ioctl(stream, TIOCGWINSZ, &size) == 0 && size.ws_col > 0;
  return wrapped(words, known ? std::max<std::size_t>(kLeast, size.ws_col) : kUsual);
}

Status status_of(const Problems& problems) {
  for (const Problem& problem : problems) {
    if (problem.kind == Problem::Kind::system) return kSystemFailed;
  }
  return kWrongInput;
}

std::string time_left(double seconds) {
  if (seconds < 1.5) return "";
  if (seconds < 90) return ", about " + std::to_string(std::lround(seconds)) + " s left";
  return ", about " + std::to_string(std::lround(seconds / 60)) + " min left";
}

std::string json_of(const job::Progress& now) {
  char numbers[96];
  std::snprintf(numbers, sizeof numbers, "{\"done\": %.4f", now.done);
  std::string text = numbers;
  if (now.touches) text += ", \"touch\": " + std::to_string(*now.touches);
  if (now.F) {
    std::snprintf(numbers, sizeof numbers, ", \"F\": %.6f", *now.F);
    text += numbers;
  }
  return text + ", \"at\": " + quoted(now.at) + "}";
}

bool progress_stands = false;

/// Whatever is said next begins a line of its own.
void take_progress_away() {
  if (!progress_stands) return;
  std::fprintf(stderr, "\r\033[K");
  std::fflush(stderr);
  progress_stands = false;
}

/// Draws the progress line anew, or takes it away at the end.
void draw(const job::Progress& now, double spent) {
  const std::string left = now.done > 0.02 ? time_left(spent / now.done * (1 - now.done)) : "";
  std::fprintf(stderr, "\r\033[K%s  %d %%%s", now.at.c_str(), static_cast<int>(now.done * 100), left.c_str());
  std::fflush(stderr);
  progress_stands = true;
  if (now.done >= 1) take_progress_away();
}

}  // namespace

void listen_for_interrupt() { std::signal(SIGINT, on_interrupt); }
bool interrupted() { return interrupt_seen; }

Terminal::Terminal(const Manner& manner)
    : manner_(manner),
      moving_(isatty(STDERR_FILENO) == 1 && !manner.quiet && !manner.plain && !manner.json && !dumb_terminal()),
      colour_(isatty(STDERR_FILENO) == 1 && !manner.plain && !is_set("NO_COLOR") && !dumb_terminal()) {}

void Terminal::complain(const Problems& problems) const {
  if (manner_.json) {
    std::fprintf(stderr, "%s\n", as_json(problems).c_str());
    return;
  }
  for (const Problem& problem : problems) {
    const std::string text = for_eyes("farflung: " + problem.text(), STDERR_FILENO);
    std::fprintf(stderr, colour_ ? "\033[1mfarflung:\033[0m%s\n" : "farflung:%s\n", text.substr(9).c_str());
  }
}

/// What -v adds: what the work took.
void Terminal::tell_cost() const {
  rusage used{};
  getrusage(RUSAGE_SELF, &used);
  const double seconds = std::chrono::duration<double>(std::chrono::steady_clock::now() - started_).count();
  std::fprintf(stderr, "farflung: took %.1f s, at most %ld MB of memory\n", seconds, used.ru_maxrss / 1024);
}

Status Terminal::show(const job::Outcome& outcome) const {
  take_progress_away();
  if (manner_.verbose) tell_cost();
  if (!outcome) {
    if (job::is_stopped(outcome.problems())) {
      if (!manner_.quiet) std::fprintf(stderr, "farflung: stopped, nothing was changed\n");
      return kInterrupted;
    }
    complain(outcome.problems());
    return status_of(outcome.problems());
  }
  const std::string text = manner_.json    ? outcome->json + "\n"
                           : manner_.quiet ? ""
                                           : for_eyes(outcome->words, STDOUT_FILENO);
  if (!write_result(text)) {
    complain({system_problem("standard output", std::strerror(errno), "free some space, or write elsewhere")});
    return kSystemFailed;
  }
  // Under --json the report lists them already.
  if (!manner_.json && !manner_.quiet) complain(outcome->warnings);
  if (!outcome->problems.empty()) {
    if (!manner_.json) complain(outcome->problems);
    return status_of(outcome->problems);
  }
  return outcome->promise_kept ? kDone : kPromiseBroken;
}

Status Terminal::wrong_usage(const std::string& cause, const std::string& remedy) const {
  complain({input_problem("", cause, remedy)});
  return kWrongInput;
}

job::Watch Terminal::watch() const {
  return [moving = moving_, as_json = manner_.progress == "json", stages = manner_.verbose && !moving_,
          started = started_, drawn = -1, at = std::string()](const job::Progress& now) mutable {
    job_listens = true;
    const int percent = static_cast<int>(now.done * 100);
    if (as_json) {
      std::fprintf(stderr, "%s\n", json_of(now).c_str());
    } else if (stages && now.at != at) {
      at = now.at;
      std::fprintf(stderr, "farflung: %s\n", at.c_str());
    } else if (moving && percent != drawn) {
      drawn = percent;
      draw(now, std::chrono::duration<double>(std::chrono::steady_clock::now() - started).count());
    }
    return !interrupted();
  };
}

}  // namespace farflung::app
