// Which thread to quilt with: how little or how much it shows on the top and on the back.
#pragma once

#include <string>
#include <string_view>
#include <vector>

#include "choice/top.hpp"

namespace farflung::choice {

/// One line of the table: the thread's name as the maker has it, and its colour.
struct ThreadColour {
  std::string name;
  colour::Lab lab;
};

/// Reads a table of threads: a name and a colour on each line, by commas. The colour is hex ("#3a6ea5") or L*, a*, b*,
/// as one field in double quotes or as three fields of their own. Fields may be quoted ("" stands for a quote within);
/// empty lines and lines that start with # are passed over; a first line of words that name the columns is a heading.
/// At most 10,000 threads and 1 MB. Every problem is collected, each at its line: "threads.csv:7"; names given twice,
/// names that are empty, text that is not UTF-8 and colours that are none are problems, as is a table without threads.
Result<std::vector<ThreadColour>> threads_from_csv(std::string_view text, const std::string& file);

/// How a thread shows on one side of the quilt.
struct Showing {
  double share = 0;         ///< of the side's area, on which the thread differs by more than CIEDE2000 10
  double mean_delta_e = 0;  ///< over the area
  int worst = kNone;        ///< the print on which it differs most (to blend) or least (to show); kNone: no cloth known
  double worst_delta_e = 0;  ///< mean over that print's colours
};

/// A thread on one side of the quilt, the top or the back.
struct RankedThread {
  int thread = 0;  ///< index into the table
  Showing showing;
  std::string says;  ///< "shows on 12 % of the top, most on Foam (CIEDE2000 23.1)"
};

/// blend: the stitches are to sink into the cloth; show: they are to be seen on it.
enum class ThreadAim { blend, show };

/// The threads ranked for each side by itself: another colour may wind the bobbin.
struct ThreadReport {
  ThreadAim aim = ThreadAim::blend;
  std::vector<RankedThread> top;   ///< best first
  std::vector<RankedThread> back;  ///< best first; empty where the quilt has no backing print
};

/// Ranks by the share on which the thread shows, least first to blend, most first to show; equals by the mean
/// CIEDE2000, then in the table's order. A print counts by its palette where that is known, for a thread lies on the
/// colours of a print, not on their mean; else by its colour.
ThreadReport rank_threads(const quilt::Quilt& quilt, const std::vector<ThreadColour>& threads, ThreadAim aim);

}  // namespace farflung::choice
