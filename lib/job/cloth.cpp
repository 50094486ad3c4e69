#include "job/cloth.hpp"

#include <algorithm>

#include "cloth/shopping.hpp"
#include "cloth/workroom.hpp"
#include "job/open_quilt.hpp"
#include "quilt/print_name.hpp"

namespace farflung::job {
namespace {

using cloth::Workroom;

Report print_id(const quilt::Quilt& quilt, int print) {
  return print == quilt::kNone ? Report(nullptr) : Report(quilt.prints[print].id);
}

Report cut_json(const quilt::Quilt& quilt, const Workroom& workroom) {
  Report list = Report::array();
  for (const cloth::CutRow& row : workroom.cut) {
    list.push_back({{"print", print_id(quilt, row.print)},
                    {"slot", row.slot},
                    {"shape", row.shape},
                    {"width", row.width},
                    {"height", row.height},
                    {"count", row.count},
                    {"makes", row.makes},
                    {"says", row.says}});
  }
  return list;
}

Report purchases_json(const quilt::Quilt& quilt, const std::vector<cloth::Purchase>& purchases) {
  Report list = Report::array();
  for (const cloth::Purchase& one : purchases) {
    list.push_back({{"for", one.what},
                    {"print", print_id(quilt, one.print)},
                    {"amount", one.amount},
                    {"unit", one.unit},
                    {"in_hand", one.in_hand},
                    {"says", one.says}});
  }
  return list;
}

/// The same as lines to be read, prints of which the same is bought for the same together.
Report shopping_json(const quilt::Quilt& quilt, const std::vector<cloth::Purchase>& purchases) {
  Report list = Report::array();
  for (const cloth::ShoppingLine& line : cloth::shopping_lines(quilt, purchases)) {
    Report prints = Report::array();
    for (const int print : line.prints) prints.push_back(print_id(quilt, print));
    list.push_back({{"for", line.what},
                    {"prints", prints},
                    {"each", cloth::amount_text(line.each, line.unit)},
                    {"in_all", cloth::amount_text(line.in_all, line.unit)},
                    {"says", line.says}});
  }
  return list;
}

Report kits_json(const quilt::Quilt& quilt, const cloth::Kits& kits) {
  Report report = {{"kits", kits.kits}, {"label", kits.label}, {"packing", kits.packing}, {"lines", Report::array()}};
  for (const cloth::KitLine& line : kits.lines) {
    report["lines"].push_back({{"print", print_id(quilt, line.print)},
                               {"each", line.each.amount},
                               {"unit", line.each.unit},
                               {"pull", line.pull},
                               {"bolts", line.bolts},
                               {"lots", line.lots},
                               {"price", line.price},
                               {"says", line.says}});
  }
  return report;
}

Report spares_json(const quilt::Quilt& quilt, const cloth::Spares& spares) {
  Report copies = Report::array();
  for (const int block : spares.copies) copies.push_back(quilt.blocks[block].id);
  return {{"copies", copies}, {"says", spares.says}};
}

std::string cutting_words(const quilt::Quilt& quilt, const Workroom& workroom) {
  std::string text = "Cut:\n";
  int before = -2;
  for (const auto& [row, gives] : cloth::cut_together(workroom.cut)) {
    if (row.print != before) text += "  " + print_name(quilt, row.print) + "\n";
    before = row.print;
    const Length width = quilt::from_units(row.width, quilt.units), height = quilt::from_units(row.height, quilt.units);
    // Patches that share the rectangles of another line have none of their own to cut.
    text += (row.count > 0 ? "    " + std::to_string(row.count) + " of " : std::string("    from those of ")) +
            cloth::said(width, height, workroom.list.ruler) + "  " + row.shape + ": " + gives + "\n";
  }
  return text;
}

std::string lines_of(const std::string& heading, const std::vector<std::string>& lines) {
  if (lines.empty()) return "";
  std::string text = heading + "\n";
  for (const std::string& line : lines) text += "  " + line + "\n";
  return text;
}

std::string shopping_words(const quilt::Quilt& quilt, const Workroom& workroom) {
  std::string text = workroom.buy.empty() ? "" : "Buy:\n";
  for (const cloth::ShoppingLine& line : cloth::shopping_lines(quilt, workroom.buy)) {
    std::string head = line.what;
    for (std::size_t i = 0; i < line.prints.size(); ++i)
      head += (i > 0 && i + 1 == line.prints.size() ? " and " : ", ") + print_name(quilt, line.prints[i]);
    head += ": " + cloth::amount_text(line.each, line.unit);
    if (line.prints.size() > 1) head += " each, " + cloth::amount_text(line.in_all, line.unit) + " in all";
    text += "  " + head + "\n    " + line.says + "\n";
  }
  if (workroom.unchosen_binding) {
    const cloth::Purchase& usual = *workroom.unchosen_binding;
    text += "  binding: none is chosen yet; cut straight across the cloth it would take " +
            cloth::amount_text(usual.amount, usual.unit) + "\n    " + usual.says + "\n";
  }
  return text;
}

std::string spares_words(const Workroom& workroom, bool taken) {
  if (!workroom.spares) return "";
  const bool offered = !taken && !workroom.spares->copies.empty();
  return "Spares: " + workroom.spares->says + (offered ? " (--take-spares makes them part of the quilt)" : "") + "\n";
}

/// The spare blocks taken into the quilt; "" where there are none to take. The ids go into the report.
Result<std::string> take_spares(const std::string& folder, project::Document& document, const cloth::Spares& spares,
                                Report& report) {
  const std::size_t before = document.quilt.blocks.size();
  report["taken"] = Report::array();
  if (spares.copies.empty()) return std::string();
  document.quilt = cloth::with_spares(std::move(document.quilt), spares);
  const Result<Done> written = project::write(folder, document);
  if (!written) return written.problems();
  std::string words = "Taken into the quilt as spares:";
  for (std::size_t i = before; i < document.quilt.blocks.size(); ++i) {
    report["taken"].push_back(document.quilt.blocks[i].id);
    words += (i == before ? " " : ", ") + document.quilt.blocks[i].id + " like " +
             document.quilt.blocks[spares.copies[i - before]].id;
  }
  return words + ". What is cut and labelled from now on counts them in; farflung undo takes them out.\n";
}

}  // namespace

Outcome cloth(const ClothWish& options) {
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  if (Problems none = problems_of_top(document->quilt); !none.empty()) return none;
  Result<cloth::WorkroomOptions> how = workroom_options(options.how, document->quilt.units);
  if (!how) return how.problems();
  how->spares = how->spares || options.take_spares;
  const quilt::Quilt& quilt = document->quilt;

  const Workroom workroom = cloth::workroom_of(quilt, *how);
  const bool in_hand = std::any_of(quilt.prints.begin(), quilt.prints.end(),
                                   [](const print::Print& print) { return !print.cloth.empty(); });

  Report report = new_report();
  report["cut"] = cut_json(quilt, workroom);
  report["buy"] = purchases_json(quilt, workroom.buy);
  report["list"] = shopping_json(quilt, workroom.buy);
  if (workroom.unchosen_binding) {
    report["unchosen_binding"] =
        "No binding is chosen yet. Cut straight across the cloth it would take " +
        cloth::amount_text(workroom.unchosen_binding->amount, workroom.unchosen_binding->unit) + ".";
  }
  report["parts"] = purchases_json(quilt, workroom.by_part);
  report["enough"] = workroom.enough;
  report["says"] = workroom.says;
  report["cautions"] = workroom.cautions;
  if (workroom.spares) report["spares"] = spares_json(quilt, *workroom.spares);
  if (workroom.kits) report["kits"] = kits_json(quilt, *workroom.kits);

  Answer answer;
  answer.words = cutting_words(quilt, workroom) + shopping_words(quilt, workroom) +
                 spares_words(workroom, options.take_spares) + lines_of("Mind:", workroom.says) +
                 lines_of("Cautions:", workroom.cautions);
  if (in_hand)
    answer.words += workroom.enough ? "The cloth in hand is enough.\n" : "The cloth in hand is not enough.\n";
  if (options.take_spares && workroom.spares) {
    Result<std::string> taken = take_spares(options.folder, *document, *workroom.spares, report["spares"]);
    if (!taken) return taken.problems();
    answer.words += *taken;
  }
  answer.json = text_of(report);
  answer.promise_kept = workroom.enough || !in_hand;
  return answer;
}

}  // namespace farflung::job
