// What every job gives back: one report, in words and as JSON, and whether it could keep its promise.
#pragma once

#include <functional>
#include <optional>
#include <string>

#include "base/result.hpp"

namespace farflung::job {

/// What a job has to say once it is done. A job that could not begin gives problems instead.
struct Answer {
  std::string words;         ///< for people: lines, each ended; no escapes
  std::string json;          ///< one JSON object with "schema_version": 1; no newline
  Problems problems;         ///< what went wrong beside what was done: the photographs that gave nothing, a sick file
  bool promise_kept = true;  ///< false: done as well as can be, the words say what could not be had
  Problems warnings = {};    ///< what was done all the same, with less: a swatch that is lost, its colour drawn for it
};

/// Problems: nothing was changed on the disk.
using Outcome = Result<Answer>;

/// How far a long job is.
struct Progress {
  double done = 0;                      ///< 0..1
  std::string at;                       ///< what it is at: "Reading kelp.jpg"
  std::optional<int> touches;           ///< while arranging: of the best layout so far
  std::optional<double> F;              ///< likewise its score
  std::function<std::string()> layout;  ///< likewise its layout as JSON: layout and prints as drawn() lists them; may
                                        ///< be called during the call that it comes with, and costs only then
};

/// Told how far a long job is; answers whether to go on. A job that is stopped changes nothing and gives the problem
/// stopped().
using Watch = std::function<bool(const Progress&)>;

/// A folder's or a file's name as it is typed in a command: in quotes where a shell would take it apart.
std::string typed(const std::string& name);

/// What the words of a job end with where it was only tried; empty otherwise.
std::string tried_words(bool dry_run);

/// The problem of a job that its Watch stopped, and whether it is this one.
Problem stopped();
bool is_stopped(const Problems& problems);

}  // namespace farflung::job
