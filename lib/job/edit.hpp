// Changes by hand, each checked like the whole file and saved as a version of its own.
#pragma once

#include <memory>
#include <mutex>
#include <vector>

#include "job/answer.hpp"

namespace farflung::job {

/// `value` is JSON; what is not JSON is taken as a text. Prints in it may be called by name or code. With `dry_run`,
/// here and below, nothing is written.
Outcome set_value(const std::string& folder, const std::string& pointer, const std::string& value,
                  bool dry_run = false);

/// Cells are named as people count them: "R2C5", "R2 C5", "r2c5". The turns travel with the blocks.
Outcome swap_cells(const std::string& folder, const std::string& a, const std::string& b, bool dry_run = false);

/// Turns the block clockwise to the next turn that its pattern allows, or by as many quarters as told (0: the next).
Outcome turn_cell(const std::string& folder, const std::string& cell, int quarters = 0, bool dry_run = false);

/// Kept cells hold their block and its turn through arranging and swaps until they are freed.
Outcome keep_cells(const std::string& folder, const std::vector<std::string>& cells, bool dry_run = false);
Outcome free_cells(const std::string& folder, const std::vector<std::string>& cells, bool dry_run = false);

/// Takes prints, by id, code or name, out of the quilt; the blocks that held them wait to be dealt. Refused for those
/// that are sewn or kept, or that the frame, binding or backing is of.
Outcome drop_prints(const std::string& folder, const std::vector<std::string>& prints, bool dry_run = false);

/// A version back, and forward again; an input problem where there is none.
Outcome undo(const std::string& folder);
Outcome redo(const std::string& folder);

/// One change by hand.
struct Edit {
  std::string does;  ///< "swap", "turn", "keep", "free", "set", "use", "take", "drop", "lay", "reshape"; "undo" and
                     ///< "redo" stand alone
  std::vector<std::string> cells;  ///< as people count them
  int quarters = 0;                ///< of a turn; 0: to the next turn that is allowed
  std::string pointer, value;      ///< of a set; of a use the part ("border") and the print that it is cut from; the
                               ///< value alone: of a take or drop the ids of prints as a JSON list, the name of a kept
                               ///< layout that is to be laid, or as job/reshape.hpp says it
};

/// Changes made together, on the version that whoever asks for them has seen.
struct Edits {
  std::string folder;
  std::string version;  ///< as version_of gives it; empty: whatever is there
  std::vector<Edit> edits;
};

/// Scores kept between edits: all that no swap, turn or keeping changes is worked out once.
class Reckoning;
/// With nothing in it yet; one serves many quilts and threads.
std::shared_ptr<Reckoning> make_reckoning();

/// All the edits, saved as one version, or none. Refused by changed_since() where the quilt is at another version. The
/// report has the new version, how far undo and redo go, what was done in words, touches, corner touches and the score.
Outcome edit(const Edits& edits, Reckoning& reckoning);

/// What edit() leaves for when its answer is on its way: the copy that a redo would come back to. Where it is not
/// called, or fails, the next change does the same first.
void keep_version(const std::string& folder);

/// How the quilt stands: the same report without a change; with `whole` the quilt itself too, as its file says it.
Outcome standing(const std::string& folder, Reckoning& reckoning, bool whole = false);

/// The version of the quilt in a folder: a text that differs where the file does.
Result<std::string> version_of(const std::string& folder);

/// The problem of an edit on an old version, and whether it is this one.
Problem changed_since();
bool is_changed_since(const Problems& problems);

/// Whether a job failed because somebody saved the quilt while it worked: it can be done again.
bool was_overtaken(const Problems& problems);

}  // namespace farflung::job
