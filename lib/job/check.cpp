#include "job/check.hpp"

#include <algorithm>
#include <cmath>
#include <cstdio>

#include "arrange/freedom.hpp"
#include "base/counted.hpp"
#include "cloth/yields.hpp"
#include "draw/top.hpp"
#include "job/cloth_short.hpp"
#include "job/drop.hpp"
#include "job/explain.hpp"
#include "job/place_json.hpp"
#include "score/measure.hpp"

namespace farflung::job {
namespace {

/// A share of 10,000 as a person says it, never rounded up to all.
std::string share_text(double share) {
  char text[32];
  std::snprintf(text, sizeof text, "%.2f %%", std::floor(share * 10'000) / 100);
  return text;
}

/// The report on a quilt that is well.
class Checked {
 public:
  Checked(const std::string& folder, const quilt::Quilt& quilt)
      : folder_(folder),
        quilt_(quilt),
        measure_(quilt),
        score_(measure_.score(quilt.layout)),
        explanation_(score::explain(measure_, quilt.layout)),
        nesting_(score::nesting_of(quilt)),
        accents_(arrange::accent_advice(quilt)),
        kept_(arrange::kept_costs(quilt)),
        short_(cloth::all_short(quilt)),
        in_units_(length_in_units()) {
    if (score_.terms.touches == 0) return;
    score::TurnsOfBlocks turns;
    for (const block::Block& block : quilt.blocks) turns.push_back(quilt::turns_of(quilt, block));
    bound_ = score::touch_bound(measure_, quilt.layout, turns);
  }

  Report report() const {
    const score::Terms& terms = score_.terms;
    const score::ShuffleMeans& means = measure_.means();
    Report report = new_report();
    report["cells"] = measure_.plan().cells.size();
    report["blocks"] = quilt_.blocks.size();
    report["touch"] = {{"count", terms.touches},
                       {"length", terms.touch_length * in_units_},
                       {"where", where(measure_.touches(quilt_.layout))}};
    report["corner"] = {{"count", terms.corners}, {"where", where(measure_.corners(quilt_.layout))}};
    report["spread"] = terms.spread;
    report["coverage"] = terms.coverage;
    report["evenness"] = terms.evenness;
    report["streak"] = terms.streak;
    report["likeness"] = terms.likeness;
    if (quilt_.goals.gradation > 0) report["gradation"] = terms.gradation;
    if (quilt_.goals.contrast > 0) report["contrast"] = terms.contrast;
    if (quilt_.goals.lines > 0) report["lines"] = terms.lines;
    if (quilt_.goals.closest > 0) report["closest"] = terms.closest;
    if (measure_.asks_nesting()) report["nest"] = terms.unnested;
    report["F"] = score_.F;
    report["beats"] = measure_.beats(quilt_.layout);
    report["shuffle"] = {{"touch", means.touch_length * in_units_},
                         {"corner", means.corners},
                         {"coverage", means.coverage},
                         {"evenness", means.evenness},
                         {"streak", means.streak},
                         {"likeness", means.likeness}};
    if (quilt_.goals.gradation > 0) report["shuffle"]["gradation"] = means.gradation;
    if (quilt_.goals.contrast > 0) report["shuffle"]["contrast"] = means.contrast;
    if (measure_.asks_nesting()) report["shuffle"]["nest"] = means.ends;
    report["prints"] = prints();
    report["explained"] = json_of(explanation_, measure_);
    report["explained"]["accents"] = json_of(accents_, quilt_, measure_.plan());
    report["kept"] = json_of(kept_, measure_.plan());
    report["nesting"] = json_of(nesting_, quilt_, measure_.plan());
    if (terms.touches > 0) report["bound"] = json_of(bound_, quilt_, terms.touches);
    report["short"] = Report::array();
    for (const int print : short_) report["short"].push_back(quilt_.prints[print].id);
    report["problems"] = Report::array();
    return report;
  }

  std::string words(const Report& report) const {
    std::string text = title() + "\n";
    if (quilt_.prints.empty()) {
      return text + "No prints yet. Take photographs of the fabrics in: farflung photo " + typed(folder_) + " *.jpg\n";
    }
    const std::size_t open = blocks_to_deal(quilt_);
    if (open > 0) {
      text += counted(open, "block has", "blocks have") + " slots without a print: farflung arrange deals them.\n";
    }
    if (!short_.empty()) text += short_words(quilt_, short_) + "\n";
    if (open > 0 && open == quilt_.blocks.size()) return text;
    text += touches_in_words();
    text += "The layout beats " + share_text(report["beats"]) + " of 10,000 shuffles.\n";
    text += terms_in_words(report);
    return text + words_of(accents_, quilt_, measure_.plan()) + words_of(kept_, measure_.plan()) +
           words_of(nesting_, quilt_, measure_.plan()) + words_of(explanation_, measure_);
  }

 private:
  /// One pitch in the file's units.
  double length_in_units() const { return quilt::in_units(Length::inches(measure_.plan().pitch), quilt_.units); }

  std::string title() const {
    const std::string name = quilt_.title.empty() ? "The quilt" : quilt_.title;
    return name + ": " + counted(quilt_.blocks.size(), "block", "blocks") + " in " +
           counted(measure_.plan().cells.size(), "cell", "cells") + ", " +
           draw::finished_size(quilt_, measure_.plan()) + " finished.";
  }

  Report where(const std::vector<score::Touch>& touches) const {
    Report list = Report::array();
    for (const score::Touch& touch : touches) {
      list.push_back({{"a", place_json(measure_.plan(), touch.cell_a)},
                      {"patch_a", touch.patch_a},
                      {"b", place_json(measure_.plan(), touch.cell_b)},
                      {"patch_b", touch.patch_b},
                      {"print", quilt_.prints[touch.print].id},
                      {"length", quilt::in_units(touch.seam, quilt_.units)}});
    }
    return list;
  }

  Report prints() const {
    Report list = Report::array();
    for (const score::PrintSpacing& spacing : explanation_.spacings) {
      Report entry = {{"id", quilt_.prints[spacing.print].id}, {"copies", spacing.copies}};
      entry["nearest"] = spacing.copies > 1 ? Report(spacing.nearest) : Report(nullptr);
      if (spacing.copies > 1) {
        entry["nearest_cells"] = {place_json(measure_.plan(), spacing.nearest_a),
                                  place_json(measure_.plan(), spacing.nearest_b)};
        entry["ideal"] = spacing.ideal > 0 ? spacing.ideal : spacing.nearest;
      }
      list.push_back(entry);
    }
    return list;
  }

  std::string cell_text(int cell) const { return cell_name(measure_.plan().cells[cell]); }

  std::string touches_in_words() const {
    constexpr std::size_t kMost = 12;
    const std::vector<score::Touch> touches = measure_.touches(quilt_.layout);
    if (touches.empty()) return "No print touches itself.\n";
    std::string text = counted(touches.size(), "touch", "touches") + ":\n";
    for (std::size_t i = 0; i < std::min(kMost, touches.size()); ++i) {
      const score::Touch& touch = touches[i];
      text += "  " + print::name_of(quilt_.prints[touch.print]) + " in " + cell_text(touch.cell_a) + " and " +
              (touch.cell_b == quilt::kNone ? "the frame beside it" : cell_text(touch.cell_b)) + "\n";
    }
    if (touches.size() > kMost) text += "  and " + std::to_string(touches.size() - kMost) + " more\n";
    return text + words_of(bound_, quilt_, score_.terms.touches);
  }

  std::string terms_in_words(const Report& report) const {
    std::string text = "Against an average shuffle, which is 1 in each (less is better):\n ";
    text += " spread " + short_number(report["spread"]);
    for (const char* term : {"coverage", "evenness", "streak", "likeness", "gradation", "contrast", "nest"}) {
      const double mean = report["shuffle"].value(term, 0.0);
      if (score::tells(mean)) text += ", " + std::string(term) + " " + short_number(report[term].get<double>() / mean);
    }
    const double corners = report["shuffle"]["corner"];
    if (score::tells(corners)) text += ", corner touches " + short_number(score_.terms.corners / corners);
    text += "\nWeighed and added up the score is " + short_number(score_.F);
    const bool shares_alone = quilt_.goals.lines == 0 && quilt_.goals.closest == 0;
    text += (shares_alone ? ", an average shuffle's " + short_number(of_a_shuffle()) : "") + ".\n";
    return text + undivided_in_words();
  }

  /// The score of a layout that has each term as an average shuffle has it.
  double of_a_shuffle() const {
    const score::ShuffleMeans& means = measure_.means();
    score::Terms usual;
    usual.spread = score_.terms.spread > 0 ? 1 : 0;
    usual.coverage = means.coverage;
    usual.evenness = means.evenness;
    usual.streak = means.streak;
    usual.likeness = means.likeness;
    usual.gradation = means.gradation;
    usual.contrast = means.contrast;
    return measure_.F(usual) + (score::tells(means.corners) ? quilt_.goals.corner : 0) +
           (score::tells(means.ends) ? quilt_.goals.nest : 0);
  }

  /// The goals that are asked for and are no share of a shuffle.
  std::string undivided_in_words() const {
    const score::Terms& terms = score_.terms;
    std::string text;
    if (quilt_.goals.lines > 0) {
      text += counted(terms.lines, "time", "times") + " three copies of a print lie in a line at equal steps.\n";
    }
    if (quilt_.goals.closest > 0) {
      text += "The closest two copies of any print lie " + short_number(terms.closest) + " blocks apart.\n";
    }
    if (quilt_.goals.nest_rule && terms.unnested > 0) {
      text += "Seam ends have to nest in this quilt, and " + counted(terms.unnested, "does", "do") + " not.\n";
    }
    return text;
  }

  const std::string& folder_;
  const quilt::Quilt& quilt_;
  score::Measure measure_;
  score::Score score_;
  score::Explanation explanation_;
  score::Nesting nesting_;
  std::vector<arrange::AccentAdvice> accents_;
  std::vector<arrange::KeptCost> kept_;
  std::vector<int> short_;   // prints of which the cloth in hand is not enough
  score::TouchBound bound_;  // where there are touches
  double in_units_;
};

}  // namespace

Outcome check(const std::string& folder) {
  Result<project::Document> document = open_quilt(folder);
  if (!document) {
    Report report = new_report();
    report["problems"] = problems_json(document.problems());
    return Answer{"", text_of(report), document.problems(), true};
  }
  const Checked checked(folder, document->quilt);
  const Report report = checked.report();
  return Answer{checked.words(report), text_of(report), {}, true};
}

}  // namespace farflung::job
