#include "wall/read.hpp"

#include <algorithm>
#include <cmath>
#include <map>
#include <memory>

#include "base/assignment.hpp"
#include "base/median.hpp"
#include "wall/bare_wall.hpp"
#include "wall/judge.hpp"

namespace farflung::wall {
namespace {

/// Blocks that nobody could tell apart by looking.
struct Kind {
  int pattern = 0;
  std::vector<int> prints;               ///< by slot
  std::vector<int> blocks;               ///< of the quilt
  std::vector<int> forms;                ///< that its blocks may take, of all turns that look alike the first
  std::vector<std::vector<Turn>> turns;  ///< by those forms: the turns that look like it
  std::vector<std::vector<int>> looks;   ///< by those forms: picture_of
};

/// The print at a place of a turned block, seen as a picture of a few pixels: two turns that give the same look alike.
std::vector<int> picture_of(const block::Pattern& pattern, Turn turn, const std::vector<int>& prints) {
  constexpr int kSide = 23;
  const auto [width, height] = turned_inches(pattern, turn);
  std::vector<int> picture(kSide * kSide, kNone);
  for (const block::Patch& patch : pattern.patches) {
    const Polygon polygon = turned(patch.polygon, pattern.width, pattern.height, turn);
    for (int k = 0; k < kSide * kSide; ++k) {
      // Off every line that patterns are drawn on.
      const int column = k % kSide, row = k / kSide;
      const double x = (column + 0.47) / kSide * width;
      const double y = (row + 0.43) / kSide * height;
      bool inside = false;
      for (std::size_t i = 0, j = polygon.size() - 1; i < polygon.size(); j = i++) {
        const double xi = polygon[i].x.inches(), yi = polygon[i].y.inches();
        const double xj = polygon[j].x.inches(), yj = polygon[j].y.inches();
        if ((yi > y) != (yj > y) && x < (xj - xi) * (y - yi) / (yj - yi) + xi) inside = !inside;
      }
      if (inside) picture[k] = prints[patch.slot];
    }
  }
  return picture;
}

std::vector<int> prints_of(const quilt::Quilt& quilt, const block::Block& block) {
  std::vector<int> prints;
  prints.reserve(quilt.patterns[block.pattern].slots.size());
  for (int slot = 0; slot < static_cast<int>(quilt.patterns[block.pattern].slots.size()); ++slot) {
    prints.push_back(quilt::print_of_slot(quilt, block, slot));
  }
  return prints;
}

std::vector<Kind> kinds_of(const quilt::Quilt& quilt, const Evidence& evidence) {
  std::map<std::pair<int, std::vector<int>>, std::size_t> known;
  std::vector<Kind> kinds;
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    const int pattern = quilt.blocks[b].pattern;
    const std::vector<int> prints = prints_of(quilt, quilt.blocks[b]);
    const auto [at, fresh] = known.try_emplace({pattern, prints}, kinds.size());
    if (!fresh) {
      kinds[at->second].blocks.push_back(static_cast<int>(b));
      continue;
    }
    Kind kind{pattern, prints, {static_cast<int>(b)}, {}, {}, {}};
    for (const int form : evidence.forms_of[pattern]) {
      const Turn turn = evidence.forms[form].turn;
      std::vector<int> picture = picture_of(quilt.patterns[pattern], turn, prints);
      const auto same = std::find(kind.looks.begin(), kind.looks.end(), picture);
      if (same != kind.looks.end()) {
        kind.turns[same - kind.looks.begin()].push_back(turn);
        continue;
      }
      kind.looks.push_back(std::move(picture));
      kind.forms.push_back(form);
      kind.turns.push_back({turn});
    }
    kinds.push_back(std::move(kind));
  }
  return kinds;
}

/// A kind in a form, and how ill it fits a cell; and how much worse the next turn that looks different.
struct Fit {
  double misfit = 0, turn_margin = 0;
  int form = 0;  ///< index into Kind::forms
};

/// What was measured of one photograph.
struct Seen {
  Framed framed;
  Evidence evidence;
  std::optional<BareWall> bare;  ///< where it may be seen between blocks
};

/// The dearness of every block in every cell, and who hangs where at the least.
struct Hanging {
  int blocks = 0;
  std::vector<double> cost;  ///< cells x (blocks + 1): the last one that it is none of them
  int cells() const { return static_cast<int>(cost.size()) / (blocks + 1); }
};

/// Who hangs where, and how much dearer the whole wall would be if a cell held another.
struct Hung {
  std::vector<int> column;     ///< by cell: from Hanging::blocks on, none of the quilt's
  std::vector<double> dearer;  ///< cells x columns
};

/// All cells at once: each block is there once; any cell may hold none of them.
Hung hung(const Hanging& hanging, bool and_others) {
  const int cells = hanging.cells(), blocks = hanging.blocks, columns = blocks + cells;
  std::vector<double> cost(static_cast<std::size_t>(cells) * columns);
  for (int c = 0; c < cells; ++c) {
    for (int column = 0; column < columns; ++column) {
      cost[static_cast<std::size_t>(c) * columns + column] =
          hanging.cost[static_cast<std::size_t>(c) * (blocks + 1) + std::min(column, blocks)];
    }
  }
  const Assignment cheapest = cheapest_assignment(cells, columns, cost);
  return {cheapest.column, and_others ? costs_of_forcing(cheapest, cells, columns, cost) : std::vector<double>()};
}

class Reader {
 public:
  Reader(const quilt::Quilt& quilt, const setting::Plan& plan, std::shared_ptr<const Seen> seen)
      : quilt_(&quilt), plan_(&plan), seen_(std::move(seen)), kinds_(kinds_of(quilt, seen_->evidence)) {
    for (std::size_t k = 0; k < kinds_.size(); ++k) {
      for (const int block : kinds_[k].blocks)
        column_kind_.push_back(static_cast<int>(k)), column_block_.push_back(block);
    }
  }

  /// What the plan says, as samples.
  std::vector<Light::Sample> planned() const {
    std::vector<Light::Sample> samples;
    for (std::size_t c = 0; c < grid().cells.size(); ++c) {
      const int block = quilt_->layout.block[grid().cells[c]];
      if (block == kNone) continue;
      const int pattern = quilt_->blocks[block].pattern;
      for (const int form : evidence().forms_of[pattern]) {
        if (evidence().forms[form].turn == quilt_->layout.turn[grid().cells[c]]) {
          add_samples(static_cast<int>(c), form, prints_of(*quilt_, quilt_->blocks[block]), samples);
        }
      }
    }
    return samples;
  }

  /// How often each print is there, by area.
  std::vector<double> shares() const {
    std::vector<double> share(quilt_->prints.size(), 0.0);
    for (const block::Block& block : quilt_->blocks) {
      const std::vector<double> area = block::slot_shares(quilt_->patterns[block.pattern]);
      const std::vector<int> prints = prints_of(*quilt_, block);
      for (std::size_t slot = 0; slot < area.size(); ++slot) {
        if (prints[slot] != kNone) share[prints[slot]] += area[slot];
      }
    }
    return share;
  }

  /// `strict`: a cell may hold none of the quilt's blocks.
  Opinion opinion(const Misfits& misfits, bool strict) {
    fits_.clear();
    const int cells = evidence().cells();
    const int blocks = static_cast<int>(column_block_.size());
    for (int c = 0; c < cells; ++c) {
      for (const Kind& kind : kinds_) fits_.push_back(fit(misfits, c, kind));
    }
    if (strict) find_nobody();
    hanging_ = {blocks, {}};
    for (int c = 0; c < cells; ++c) {
      const int own = plan_->cells[grid().cells[c]].pattern;
      for (int column = 0; column < blocks; ++column) {
        double here = fits_[fit_index(c, column_kind_[column])].misfit;
        if (own != kNone && own != kinds_[column_kind_[column]].pattern) here = kNever;
        // Of blocks that look alike, the one that belongs here.
        if (quilt_->layout.block[grid().cells[c]] == column_block_[column]) here -= 1e-6;
        hanging_.cost.push_back(here);
      }
      hanging_.cost.push_back(strict ? nobody(c) : kNever);
    }
    who_ = hung(hanging_, false).column;
    Opinion opinion;
    for (int c = 0; c < cells; ++c) {
      const int column = who_[c];
      opinion.misfit += hanging_.cost[static_cast<std::size_t>(c) * (blocks + 1) + std::min(column, blocks)];
      if (column >= blocks) continue;
      const Kind& kind = kinds_[column_kind_[column]];
      add_samples(c, kind.forms[fits_[fit_index(c, column_kind_[column])].form], kind.prints, opinion.samples);
    }
    return opinion;
  }

  const Hanging& hanging() const { return hanging_; }
  const Framed& framed() const { return seen_->framed; }

  /// By the last opinion's costs; this photograph's cells are the assignment's rows from `first` on, of `columns`.
  std::vector<CellRead> cells(double sure, const Hung& all, int first, int columns) const {
    std::vector<CellRead> read;
    const int blocks = static_cast<int>(column_block_.size());
    for (int c = 0; c < evidence().cells(); ++c) {
      const int column = all.column[first + c];
      CellRead cell;
      cell.cell = grid().cells[c];
      cell.outline = outline_in_box(grid(), c);
      cell.turn = quilt_->layout.turn[cell.cell];
      const bool holds_none = column >= blocks;
      double others = 0;
      // The share of belief that the other make-ups and turns take, each by how much dearer the whole wall would be.
      std::vector<double> dearer(kinds_.size(), kNever);
      for (int other = 0; other < blocks; ++other) {
        double& least = dearer[column_kind_[other]];
        least = std::min(least, all.dearer[static_cast<std::size_t>(first + c) * columns + other]);
      }
      for (std::size_t k = 0; k < kinds_.size(); ++k) {
        if (!holds_none && look_alike(c, static_cast<int>(k), column_kind_[column])) continue;
        others += std::exp(-kTrust * std::max(0.0, dearer[k]));
      }
      if (holds_none) {
        const bool missing = bare(c) <= unknown(c) || evidence().shows_one_thing(c);
        cell.state = missing ? CellRead::State::missing : CellRead::State::foreign;
      } else {
        const Fit& found = fits_[fit_index(c, column_kind_[column])];
        const Kind& kind = kinds_[column_kind_[column]];
        others += std::exp(-kTrust * found.turn_margin);
        cell.block = column_block_[column];
        const std::vector<Turn>& turns = kind.turns[found.form];
        cell.turn_told = turns.size() == 1;
        if (std::find(turns.begin(), turns.end(), cell.turn) == turns.end()) cell.turn = turns.front();
        // Belief also falls as the block itself fits ill.
        others += std::exp(-kTrust * std::max(0.0, nobody(c) - found.misfit));
      }
      cell.confidence = 1 / (1 + others);
      cell.sure = cell.confidence >= sure;
      read.push_back(cell);
    }
    return read;
  }

 private:
  static constexpr double kNever = 1e6;
  static constexpr double kNobodyAtLeast = 12;
  static constexpr double kTrust = 0.7;  ///< patches of one block are wrong together: less than independence says

  std::size_t fit_index(int cell, int kind) const { return static_cast<std::size_t>(cell) * kinds_.size() + kind; }

  /// By how ill blocks that are right fit on this wall: half of them at least are.
  void find_nobody() {
    std::vector<double> misfits;
    for (int c = 0; c < evidence().cells(); ++c) {
      const int column = who_[c];
      if (column < static_cast<int>(column_block_.size())) {
        misfits.push_back(fits_[fit_index(c, column_kind_[column])].misfit / patches_in(c));
      }
    }
    nobody_ = std::max(13.0, 3 * median(std::move(misfits)) + 4);
  }

  /// What it costs to say that a cell holds none of the quilt's blocks.
  double nobody(int cell) const { return std::min(unknown(cell), bare(cell)); }

  /// That it holds something else: one odd patch among several is not enough.
  double unknown(int cell) const { return kNobodyAtLeast + nobody_ * patches_in(cell); }

  /// That the wall shows.
  double bare(int cell) const {
    if (!seen_->bare) return kNever;
    double sum = kNobodyAtLeast;
    const Form& form = evidence().forms[evidence().forms_of[pattern_in(cell)].front()];
    for (int p = 0; p < patches_in(cell); ++p) sum += seen_->bare->misfit(evidence(), cell, form.first_patch + p);
    return sum;
  }

  int pattern_in(int cell) const {
    const int pattern = plan_->cells[grid().cells[cell]].pattern;
    if (pattern != kNone) return pattern;
    const int block = quilt_->layout.block[grid().cells[cell]];
    return block == kNone ? quilt_->blocks.front().pattern : quilt_->blocks[block].pattern;
  }

  int patches_in(int cell) const { return static_cast<int>(quilt_->patterns[pattern_in(cell)].patches.size()); }

  /// Whether the two kinds, each as it fits the cell best, are the same to look at.
  bool look_alike(int cell, int kind, int other) const {
    return kind == other || kinds_[kind].looks[fits_[fit_index(cell, kind)].form] ==
                                kinds_[other].looks[fits_[fit_index(cell, other)].form];
  }

  void add_samples(int cell, int form, const std::vector<int>& prints, std::vector<Light::Sample>& samples) const {
    const Form& shape = evidence().forms[form];
    for (std::size_t p = 0; p < quilt_->patterns[shape.pattern].patches.size(); ++p) {
      const int patch = shape.first_patch + static_cast<int>(p);
      const int print = prints[evidence().slot[patch]];
      if (print != kNone) samples.push_back({cell, patch, print});
    }
  }

  Fit fit(const Misfits& misfits, int cell, const Kind& kind) const {
    Fit best;
    double second = kNever;
    for (std::size_t f = 0; f < kind.forms.size(); ++f) {
      const Form& form = evidence().forms[kind.forms[f]];
      double misfit = 0;
      for (std::size_t p = 0; p < quilt_->patterns[form.pattern].patches.size(); ++p) {
        const int patch = form.first_patch + static_cast<int>(p);
        const int print = kind.prints[evidence().slot[patch]];
        if (print != kNone) misfit += misfits.at(cell, patch, print);
      }
      if (f == 0 || misfit < best.misfit) {
        if (f > 0) second = best.misfit;
        best.misfit = misfit;
        best.form = static_cast<int>(f);
      } else {
        second = std::min(second, misfit);
      }
    }
    best.turn_margin = second - best.misfit;
    return best;
  }

  const Grid& grid() const { return seen_->framed.grid; }
  const Evidence& evidence() const { return seen_->evidence; }

  const quilt::Quilt* quilt_;
  const setting::Plan* plan_;
  std::shared_ptr<const Seen> seen_;
  std::vector<Kind> kinds_;
  std::vector<int> column_kind_, column_block_;
  std::vector<Fit> fits_;
  Hanging hanging_;
  std::vector<int> who_;  ///< by cell: the column of the last opinion
  double nobody_ = 0;     ///< misfit of a patch from which it is rather none of the quilt's
};

/// Lists what is not as planned and writes what was read over the plan.
void compare(const quilt::Quilt& quilt, WallRead& read) {
  read.layout = quilt.layout;
  for (const CellRead& cell : read.cells) {
    const int planned = quilt.layout.block[cell.cell];
    read.layout.block[cell.cell] = cell.block;
    read.layout.turn[cell.cell] = cell.turn;
    Difference difference{Difference::Kind::swapped, cell.cell, planned, cell.block};
    if (cell.state == CellRead::State::missing) difference.kind = Difference::Kind::missing;
    if (cell.state == CellRead::State::foreign) difference.kind = Difference::Kind::foreign;
    const bool same = planned == cell.block;
    if (same && planned == kNone) continue;
    if (same && cell.turn == quilt.layout.turn[cell.cell]) continue;
    if (same) difference.kind = Difference::Kind::turned;
    read.differs.push_back(difference);
  }
  // A block that was read in one place is not in another, photographed or not.
  std::vector<int> seen(quilt.blocks.size(), kNone);
  for (const CellRead& cell : read.cells) {
    if (cell.block != kNone) seen[cell.block] = cell.cell;
  }
  for (std::size_t c = 0; c < read.layout.block.size(); ++c) {
    int& block = read.layout.block[c];
    if (block != kNone && seen[block] != kNone && seen[block] != static_cast<int>(c)) block = kNone;
  }
}

/// One photograph, under the gap and the light that explain it best.
Result<Reader> best_reader(const Section& section, const quilt::Quilt& quilt, const setting::Plan& plan,
                           const std::vector<photo::Picture>& swatches) {
  Result<std::vector<Framed>> framed = framings(section.photograph, quilt, plan, section.options);
  if (!framed) return framed.problems();
  std::optional<Reader> best;
  double least = 0;
  for (Framed& one : *framed) {
    auto seen = std::make_shared<Seen>();
    seen->framed = std::move(one);
    seen->evidence = gathered(quilt, section.photograph, seen->framed.grid, seen->framed.corners);
    if (section.options.laid == Laid::blocks) seen->bare = BareWall::from(seen->evidence.band);
    const Book book(quilt, swatches, seen->evidence);
    Reader reader(quilt, plan, seen);
    const Look mean = book.mean(reader.shares());
    for (const bool as_planned : {true, false}) {
      const std::vector<Light::Sample> start = as_planned ? reader.planned() : std::vector<Light::Sample>{};
      if (as_planned && start.empty()) continue;
      const Settled found = settled(seen->evidence, book, mean, start,
                                    [&](const Misfits& misfits, bool last) { return reader.opinion(misfits, last); });
      if (best && found.worth >= least) continue;
      least = found.worth;
      best = reader;
    }
  }
  return *best;
}

/// Sections join, they do not overlap.
Problems shown_twice(const setting::Plan& plan, const std::vector<CellRead>& cells) {
  std::vector<bool> shown(plan.cells.size(), false);
  for (const CellRead& cell : cells) {
    if (shown[cell.cell]) {
      return {input_problem(setting::cell_name(plan.cells[cell.cell]), "two photographs show it",
                            "say of each photograph which rows and columns it shows")};
    }
    shown[cell.cell] = true;
  }
  return {};
}

}  // namespace

Result<WallRead> read_wall(const std::vector<Section>& sections, const quilt::Quilt& quilt,
                           const std::vector<photo::Picture>& swatches) {
  if (quilt.blocks.empty())
    return input_problem("/blocks", "the quilt has no blocks", "learn them from the photograph");
  const setting::Plan plan = quilt::plan_of(quilt);
  std::vector<Reader> readers;
  Hanging all{static_cast<int>(quilt.blocks.size()), {}};
  for (const Section& section : sections) {
    Result<Reader> reader = best_reader(section, quilt, plan, swatches);
    if (!reader) return reader.problems();
    const std::vector<double>& cost = reader->hanging().cost;
    all.cost.insert(all.cost.end(), cost.begin(), cost.end());
    readers.push_back(std::move(*reader));
  }
  const Hung who = hung(all, true);
  WallRead read;
  int first = 0;
  for (std::size_t s = 0; s < sections.size(); ++s) {
    const auto cells = readers[s].cells(sections[s].options.sure, who, first, all.blocks + all.cells());
    read.corners.push_back(readers[s].framed().corners);
    read.cards.push_back(readers[s].framed().cards);
    read.cells.insert(read.cells.end(), cells.begin(), cells.end());
    first += static_cast<int>(cells.size());
  }
  const Problems twice = shown_twice(plan, read.cells);
  if (!twice.empty()) return twice;
  std::sort(read.cells.begin(), read.cells.end(), [](const CellRead& a, const CellRead& b) { return a.cell < b.cell; });
  compare(quilt, read);
  return read;
}

Result<WallRead> read_wall(const photo::Picture& photograph, const quilt::Quilt& quilt,
                           const std::vector<photo::Picture>& swatches, const ReadOptions& options) {
  return read_wall({Section{photograph, options}}, quilt, swatches);
}

}  // namespace farflung::wall
