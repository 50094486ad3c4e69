#include "job/wall_words.hpp"

#include <algorithm>
#include <cmath>

#include "base/counted.hpp"
#include "quilt/print_name.hpp"
#include "sheet/marks.hpp"

namespace farflung::job {
namespace {

using quilt::kNone;
using wall::CellRead;
using wall::Difference;

/// "B012 (Kelp and Foghorn)".
std::string block_words(const quilt::Quilt& quilt, int block) {
  const std::vector<int> prints = sheet::prints_dealt(quilt, block);
  std::string words;
  for (std::size_t i = 0; i < prints.size(); ++i) {
    words += i == 0 ? "" : i + 1 == prints.size() ? " and " : ", ";
    words += print_name(quilt, prints[i]);
  }
  return quilt.blocks[block].id + " (" + words + ")";
}

std::string name_of(const setting::Plan& plan, int cell) { return setting::cell_name(plan.cells[cell]); }

/// What brings a block from the turn it has to the turn that is planned.
std::string turn_words(Turn found, Turn planned) {
  switch ((planned.quarters() - found.quarters() + 4) % 4) {
    case 1:
      return "turn it a quarter to the right";
    case 2:
      return "turn it upside down";
    default:
      return "turn it a quarter to the left";
  }
}

std::string short_turn(Turn found, Turn planned) {
  switch ((planned.quarters() - found.quarters() + 4) % 4) {
    case 1:
      return "turn right";
    case 2:
      return "turn round";
    default:
      return "turn left";
  }
}

const CellRead& read_of(const wall::WallRead& read, int cell) {
  return *std::find_if(read.cells.begin(), read.cells.end(), [&](const CellRead& one) { return one.cell == cell; });
}

/// Where a planned block is: "is at R6 C1", "was seen nowhere".
std::string whereabouts(const setting::Plan& plan, const WallSeen& seen, int block) {
  const int at = seen.cell_of[block];
  return at == kNone ? "was seen nowhere" : "is at " + name_of(plan, at);
}

std::string difference_words(const quilt::Quilt& quilt, const setting::Plan& plan, const wall::WallRead& read,
                             const WallSeen& seen, const Difference& difference) {
  const CellRead& cell = read_of(read, difference.cell);
  const std::string where = name_of(plan, difference.cell) + (cell.sure ? ": " : ", not sure: ");
  const std::string planned = difference.planned == kNone
                                  ? "planned empty"
                                  : "planned is " + block_words(quilt, difference.planned) + ", which " +
                                        whereabouts(plan, seen, difference.planned);
  switch (difference.kind) {
    case Difference::Kind::turned:
      return where + block_words(quilt, difference.found) +
             " is turned: " + turn_words(cell.turn, quilt.layout.turn[difference.cell]);
    case Difference::Kind::missing:
      return where + "nothing lies here; " + planned;
    case Difference::Kind::foreign:
      return where + "what lies here is none of the quilt's blocks; " + planned;
    case Difference::Kind::swapped:
      break;
  }
  return where + block_words(quilt, difference.found) + " lies here; " + planned;
}

const char* kind_name(Difference::Kind kind) {
  switch (kind) {
    case Difference::Kind::swapped:
      return "swapped";
    case Difference::Kind::turned:
      return "turned";
    case Difference::Kind::missing:
      return "missing";
    case Difference::Kind::foreign:
      return "foreign";
  }
  return "";
}

const char* state_name(CellRead::State state) {
  switch (state) {
    case CellRead::State::block:
      return "block";
    case CellRead::State::missing:
      return "missing";
    case CellRead::State::foreign:
      return "foreign";
  }
  return "";
}

std::string what_lies(const quilt::Quilt& quilt, const CellRead& cell) {
  if (cell.state == CellRead::State::missing) return "empty";
  if (cell.state == CellRead::State::foreign) return "none of the quilt's blocks";
  return block_words(quilt, cell.block);
}

Report outline_json(const photo::Corners& outline) {
  Report list = Report::array();
  for (const auto& [across, down] : outline) {
    list.push_back({std::round(1e4 * across) / 1e4, std::round(1e4 * down) / 1e4});
  }
  return list;
}

Report id_of(const quilt::Quilt& quilt, int block) {
  return block == kNone ? Report(nullptr) : Report(quilt.blocks[block].id);
}

bool nothing_planned(const quilt::Quilt& quilt) {
  return std::all_of(quilt.layout.block.begin(), quilt.layout.block.end(), [](int block) { return block == kNone; });
}

constexpr const char* kSewnTop =
    "It reads better as one sewn top, sashing and borders included, than as blocks side by side, so it was taken to be "
    "one.";

/// What is said in place of swaps, on the page as well.
std::string says_hardly(const wall::WallRead& read, Taken taken) {
  const std::size_t sure = read.cells.size() - count_unsure(read);
  return "Of " + counted(read.cells.size(), "place", "places") + " " +
         (sure == 0 ? "none is" : std::to_string(sure) + (sure == 1 ? " is" : " are")) +
         " sure, so no swaps are listed. " +
         (taken == Taken::blocks_after_all ? "As one sewn top, sashing and borders included, it is no clearer. " : "") +
         "Photograph it again, nearer and square before it, in more light, all the blocks in the picture; or mark "
         "where "
         "the blocks' corners are.";
}

std::string hardly_words(const quilt::Quilt& quilt, const setting::Plan& plan, const wall::WallRead& read,
                         const WallSeen& seen, Taken taken) {
  std::string words =
      "The wall could hardly be read. " + says_hardly(read, taken) + "\nCorners are marked by --corners; " +
      (taken == Taken::blocks ? "a sewn top with its borders is read with --top; " : "") + "-o shows what was read.\n";
  if (nothing_planned(quilt)) return words;
  for (const Difference& difference : read.differs) {
    if (!read_of(read, difference.cell).sure) continue;
    words += "  " + difference_words(quilt, plan, read, seen, difference) + ".\n";
  }
  return words;
}

}  // namespace

WallSeen seen_on(const quilt::Quilt& quilt, const wall::WallRead& read) {
  WallSeen seen{std::vector<int>(quilt.blocks.size(), kNone), {}};
  for (const CellRead& cell : read.cells) {
    if (cell.block != kNone) seen.cell_of[cell.block] = cell.cell;
  }
  for (const CellRead& cell : read.cells) {
    const int planned = quilt.layout.block[cell.cell];
    if (planned != kNone && seen.cell_of[planned] == kNone) seen.missing.push_back(planned);
  }
  return seen;
}

std::size_t count_unsure(const wall::WallRead& read) {
  return static_cast<std::size_t>(
      std::count_if(read.cells.begin(), read.cells.end(), [](const CellRead& c) { return !c.sure; }));
}

bool mostly_unsure(const wall::WallRead& read) { return 3 * count_unsure(read) > read.cells.size(); }

void add_taken(Report& report, Taken taken) {
  report["taken_as"] = taken == Taken::top || taken == Taken::top_unasked ? "top" : "blocks";
  report["tried_as_top"] = taken != Taken::blocks;
}

std::string taken_words(Taken taken) { return taken == Taken::top_unasked ? std::string(kSewnTop) + "\n" : ""; }

bool hardly_read(const wall::WallRead& read) { return 2 * count_unsure(read) > read.cells.size(); }

std::string words_of(const quilt::Quilt& quilt, const setting::Plan& plan, const wall::WallRead& read, Taken taken) {
  const WallSeen seen = seen_on(quilt, read);
  const auto unsure = count_unsure(read);
  if (hardly_read(read)) return hardly_words(quilt, plan, read, seen, taken);
  std::string words = taken_words(taken);
  words += counted(read.cells.size(), "place", "places") + " read";
  if (nothing_planned(quilt)) {
    words += "; no layout was planned";
  } else if (read.differs.empty()) {
    words += ", all as planned";
  } else {
    words += ", " + std::to_string(read.differs.size()) + " not as planned";
  }
  words += unsure == 0 ? ".\n" : ", " + std::to_string(unsure) + " not sure.\n";
  if (mostly_unsure(read)) {
    words +=
        "So many are not sure that the blocks may not lie where they were looked for: look at what was read (-o), and "
        "say where the blocks' corners are (--corners)";
    words += taken == Taken::blocks ? ", or that it is a sewn top with its borders (--top).\n" : ".\n";
  }
  if (!nothing_planned(quilt)) {
    for (const Difference& difference : read.differs) {
      words += "  " + difference_words(quilt, plan, read, seen, difference) + ".\n";
    }
  }
  if (unsure > 0) words += "Look at these yourself:\n";
  for (const CellRead& cell : read.cells) {
    if (cell.sure) continue;
    words += "  " + name_of(plan, cell.cell) + ": read as " + what_lies(quilt, cell) + ", " +
             std::to_string(std::lround(100 * cell.confidence)) + " % sure.\n";
  }
  return words;
}

void add_wall_read(Report& report, const quilt::Quilt& quilt, const setting::Plan& plan, const wall::WallRead& read,
                   Taken taken) {
  report["cells"] = Report::array();
  for (const CellRead& cell : read.cells) {
    report["cells"].push_back({{"row", plan.cells[cell.cell].row},
                               {"column", plan.cells[cell.cell].column},
                               {"outline", outline_json(cell.outline)},
                               {"block", id_of(quilt, cell.block)},
                               {"turn", cell.turn.quarters()},
                               {"turn_told", cell.turn_told},
                               {"holds", state_name(cell.state)},
                               {"confidence", std::round(1e4 * cell.confidence) / 1e4},
                               {"sure", cell.sure}});
  }
  report["differs"] = Report::array();
  for (const Difference& difference : read.differs) {
    report["differs"].push_back({{"row", plan.cells[difference.cell].row},
                                 {"column", plan.cells[difference.cell].column},
                                 {"planned", id_of(quilt, difference.planned)},
                                 {"found", id_of(quilt, difference.found)},
                                 {"kind", kind_name(difference.kind)},
                                 {"planned_turn", quilt.layout.turn[difference.cell].quarters()},
                                 {"found_turn", read_of(read, difference.cell).turn.quarters()}});
  }
  report["hardly_read"] = hardly_read(read);
  if (hardly_read(read)) {
    report["says"] = says_hardly(read, taken);
  } else if (taken == Taken::top_unasked) {
    report["says"] = kSewnTop;
  }
  add_taken(report, taken);
  report["missing"] = Report::array();
  for (const int block : seen_on(quilt, read).missing) report["missing"].push_back(quilt.blocks[block].id);
}

std::vector<draw::CellMark> marks_on_read(const quilt::Quilt& quilt, const setting::Plan& plan,
                                          const wall::WallRead& read) {
  std::vector<int> home(quilt.blocks.size(), kNone);
  for (std::size_t c = 0; c < quilt.layout.block.size(); ++c) {
    if (quilt.layout.block[c] != kNone) home[quilt.layout.block[c]] = static_cast<int>(c);
  }
  std::vector<draw::CellMark> marks;
  if (!nothing_planned(quilt) && !hardly_read(read)) {
    for (const Difference& difference : read.differs) {
      const CellRead& cell = read_of(read, difference.cell);
      std::string words;
      if (difference.kind == Difference::Kind::missing) words = "empty";
      if (difference.kind == Difference::Kind::foreign) words = "not ours";
      if (difference.kind == Difference::Kind::turned) {
        words = short_turn(cell.turn, quilt.layout.turn[difference.cell]);
      }
      if (difference.kind == Difference::Kind::swapped) {
        words = home[difference.found] == kNone ? "spare" : "to " + name_of(plan, home[difference.found]);
      }
      const auto kind = cell.sure ? draw::CellMark::Kind::wrong : draw::CellMark::Kind::unsure;
      marks.push_back({difference.cell, kind, cell.sure ? words : "look: " + words});
    }
  }
  for (const CellRead& cell : read.cells) {
    const auto marked = [&](const draw::CellMark& mark) { return mark.cell == cell.cell; };
    if (cell.sure || std::any_of(marks.begin(), marks.end(), marked)) continue;
    marks.push_back({cell.cell, draw::CellMark::Kind::unsure, "look"});
  }
  return marks;
}

std::vector<draw::CellMark> marks_on_plan(const quilt::Quilt& quilt, const setting::Plan& plan,
                                          const wall::WallRead& read) {
  const WallSeen seen = seen_on(quilt, read);
  std::vector<draw::CellMark> marks;
  for (const Difference& difference : read.differs) {
    std::string words = "leave empty";
    if (difference.kind == Difference::Kind::turned) {
      words = short_turn(read_of(read, difference.cell).turn, quilt.layout.turn[difference.cell]);
    } else if (difference.planned != kNone) {
      const int at = seen.cell_of[difference.planned];
      words = at == kNone ? "not seen" : "at " + name_of(plan, at);
    }
    marks.push_back({difference.cell, draw::CellMark::Kind::wrong, words});
  }
  return marks;
}

}  // namespace farflung::job
