#include "job/drop.hpp"

#include <algorithm>

#include "job/open_quilt.hpp"

namespace farflung::job {
namespace {

using quilt::kNone;

/// `does` with each print that the quilt is made of outside its blocks, and what it is there.
template <typename Quilt, typename Does>
void for_each_part(Quilt& quilt, Does does) {
  for (auto& pattern : quilt.patterns) {
    for (auto& slot : pattern.slots) does(slot.print, "slot " + slot.name + " of " + pattern.name);
  }
  auto& setting = quilt.setting;
  if (setting.sashing) {
    does(setting.sashing->print, std::string("the sashing"));
    does(setting.sashing->cornerstone, std::string("the cornerstones"));
  }
  does(setting.filler, std::string("the setting pieces"));
  for (auto& border : setting.borders) {
    does(border.print, std::string("a border"));
    does(border.cornerstone, std::string("a border's corners"));
  }
  if (quilt.binding) does(quilt.binding->print, std::string("the binding"));
  if (quilt.backing) does(quilt.backing->print, std::string("the backing"));
}

bool holds(const block::Block& block, int print) {
  return std::find(block.prints.begin(), block.prints.end(), print) != block.prints.end();
}

/// Why a print cannot go.
Problems held_by(const quilt::Quilt& quilt, int print) {
  const std::string& name = print::name_of(quilt.prints[print]);
  Problems problems;
  for_each_part(quilt, [&](int its, const std::string& part) {
    if (its == print)
      problems.push_back(input_problem(name, "it is the print of " + part, "choose another for it first"));
  });
  for (const block::Block& block : quilt.blocks) {
    if (block.sewn && holds(block, print)) {
      problems.push_back(input_problem(name, "it is sewn into block " + block.id, "a print that is sewn stays"));
    }
  }
  const setting::Plan plan = quilt::plan_of(quilt);
  for (std::size_t cell = 0; cell < quilt.layout.block.size(); ++cell) {
    const int block = quilt.layout.block[cell];
    if (block == kNone || !quilt.layout.kept[cell] || quilt.blocks[block].sewn) continue;
    if (!holds(quilt.blocks[block], print)) continue;
    problems.push_back(input_problem(name, "the block at " + cell_name(plan.cells[cell]) + " holds it and is kept",
                                     "free it first: farflung free"));
  }
  return problems;
}

}  // namespace

Result<quilt::Quilt> without_prints(const quilt::Quilt& quilt, const std::vector<std::string>& names) {
  if (names.empty()) return input_problem("prints", "no prints are named", "name some by id, code or name");
  Problems problems;
  const std::vector<int> gone = prints_named(quilt, names, problems);
  for (const int print : gone) {
    for (Problem& problem : held_by(quilt, print)) problems.push_back(std::move(problem));
  }
  if (!problems.empty()) return problems;

  quilt::Quilt with = quilt;
  with.prints.clear();
  std::vector<int> now;  // by print as it was
  for (std::size_t print = 0; print < quilt.prints.size(); ++print) {
    const bool goes = std::find(gone.begin(), gone.end(), static_cast<int>(print)) != gone.end();
    now.push_back(goes ? kNone : static_cast<int>(with.prints.size()));
    if (!goes) with.prints.push_back(quilt.prints[print]);
  }
  const auto follow = [&now](int& print, const std::string&) {
    if (print != kNone) print = now[print];
  };
  for_each_part(with, follow);
  for (block::Block& block : with.blocks) {
    for (int& print : block.prints) follow(print, "");
  }
  return with;
}

std::vector<int> idle_prints(const quilt::Quilt& quilt) {
  std::vector<bool> used(quilt.prints.size(), false);
  const auto note = [&used](int print, const std::string&) {
    if (print != kNone) used[print] = true;
  };
  for_each_part(quilt, note);
  for (const block::Block& block : quilt.blocks) {
    for (const int print : block.prints) note(print, "");
  }
  std::vector<int> idle;
  for (std::size_t print = 0; print < used.size(); ++print) {
    if (!used[print]) idle.push_back(static_cast<int>(print));
  }
  return idle;
}

std::size_t blocks_to_deal(const quilt::Quilt& quilt) {
  return static_cast<std::size_t>(
      std::count_if(quilt.blocks.begin(), quilt.blocks.end(), [&](const block::Block& block) {
        for (int slot = 0; slot < static_cast<int>(block.prints.size()); ++slot) {
          if (quilt::print_of_slot(quilt, block, slot) == kNone) return true;
        }
        return false;
      }));
}

}  // namespace farflung::job
