// What is said of photographs taken in.
#pragma once

#include <string>
#include <vector>

#include "job/looks.hpp"
#include "job/open_quilt.hpp"
#include "print/pairs_alike.hpp"
#include "quilt/quilt.hpp"

namespace farflung::job {

/// A print that came in, and from where.
struct Seen {
  std::size_t print = 0;
  std::string file;
  std::string doubt;             ///< empty where its outline is sure
  bool fills_frame = false;      ///< doubted, and taken as one cloth from edge to edge of its photograph
  bool colour_by_table = false;  ///< corrected by the table's colour, which another photograph told
  /// Nothing told its light but the ground it lies on and the many prints about it, taken to be nearly grey together.
  bool grey_together = false;
};

/// An entry for each print that came in, in the order given.
Report prints_json(const quilt::Quilt& quilt, const std::vector<Seen>& seen);

/// Prints that may be one fabric, or read alike. Of two that were there already the features alone decide: such a pair
/// only shows who belongs with a print that came in.
std::vector<print::Pair> pairs_of(const quilt::Quilt& quilt, const std::vector<Seen>& seen, Looks& looks);
/// Those in which one came in.
Report pairs_json(const quilt::Quilt& quilt, const std::vector<Seen>& seen, const std::vector<print::Pair>& pairs);

/// What she had better look at, a sentence each: outlines that are not sure and why, what was taken for granted, then
/// the prints alike, one sentence for all that are alike with each other.
std::vector<std::string> remarks(const quilt::Quilt& quilt, const std::vector<Seen>& seen,
                                 const std::vector<print::Pair>& pairs);

/// The prints that came in in words, a line each, then the remarks.
std::string prints_words(const quilt::Quilt& quilt, const std::vector<Seen>& seen,
                         const std::vector<print::Pair>& pairs);

}  // namespace farflung::job
