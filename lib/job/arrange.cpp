#include "job/arrange.hpp"

#include <algorithm>
#include <cstdio>

#include "arrange/arrange.hpp"
#include "base/counted.hpp"
#include "choice/words.hpp"
#include "cloth/yields.hpp"
#include "job/arrangement_reads.hpp"
#include "job/drawn_json.hpp"
#include "job/drop.hpp"
#include "job/edit.hpp"
#include "job/explain.hpp"
#include "makeup/cuts.hpp"
#include "makeup/deal.hpp"

namespace farflung::job {
namespace {

using Blocks = arrange::Options::Blocks;

Blocks blocks_asked(const Arrange& options, const quilt::Quilt& quilt) {
  if (options.blocks == "open") return Blocks::open;
  if (options.blocks == "sewn") return Blocks::sewn;
  if (!options.add.empty()) return Blocks::open;
  return blocks_to_deal(quilt) > 0 ? Blocks::open : Blocks::sewn;
}

Problems problems_of_wish(const Arrange& options, const quilt::Quilt& quilt) {
  if (quilt.prints.empty()) {
    return {input_problem(options.folder, "the quilt has no prints yet",
                          "take photographs of the fabrics in: farflung photo " + typed(options.folder) + " *.jpg")};
  }
  if (quilt.blocks.empty()) {
    return {input_problem(options.folder, "the quilt has no blocks", "make it with farflung new, or list its blocks")};
  }
  if (blocks_asked(options, quilt) == Blocks::sewn && blocks_to_deal(quilt) > 0) {
    return {input_problem(options.folder, "some blocks lack a print, so that they cannot be taken as sewn",
                          "let arrange deal them: --blocks open")};
  }
  return {};
}

Report score_json(const score::Score& score) { return {{"touch", score.terms.touches}, {"F", score.F}}; }

std::string score_words(int touches, double F) {
  return counted(touches, "touch", "touches") + ", score " + short_number(F);
}

std::string score_words(const score::Score& score) { return score_words(score.terms.touches, score.F); }

/// Where nesting is asked for: how the seam ends meet now, and why not all of them nest where that is a rule.
void add_nesting(const arrange::Report& arranged, Answer& answer, Report& report) {
  const quilt::Quilt& quilt = arranged.quilt;
  if (quilt.goals.nest <= 0 && !quilt.goals.nest_rule) return;
  const score::Nesting nesting = score::nesting_of(quilt);
  const setting::Plan plan = quilt::plan_of(quilt);
  if (arranged.after.broken > 0) {
    answer.words +=
        "Seam ends have to nest in this quilt, and " + counted(arranged.after.broken, "does", "do") + " not.\n";
  }
  answer.words += words_of(nesting, quilt, plan);
  report["nesting"] = json_of(nesting, quilt, plan);
}

/// What the cloth in hand lets be dealt: by print how many slots, and whether that is enough for all. Where it is not,
/// every print may fill equally many more, in whole squares, so that little is to be bought.
struct InHand {
  std::vector<int> most;
  int slots = 0, filled = 0;

  bool enough() const { return filled >= slots; }
};

InHand in_hand(const quilt::Quilt& quilt, makeup::HalfSquares halves) {
  InHand hand;
  int whole = 1;  // slots that whole squares fill
  for (const makeup::Deck& deck : makeup::decks_of(quilt)) {
    hand.slots += static_cast<int>(deck.blocks.size());
    const std::vector<makeup::Cut> cuts = makeup::cuts_of(quilt.patterns[deck.pattern], deck.slot, halves);
    whole = std::max(whole, makeup::blocks_of_whole_squares(cuts));
  }
  hand.most = cloth::slots_in_hand(quilt);
  const std::vector<int> dealt = makeup::dealt_prints(quilt);
  for (const int print : dealt) hand.filled += hand.most[print];
  const auto prints = static_cast<int>(std::max<std::size_t>(1, dealt.size()));
  const int more = hand.enough() ? 0 : (hand.slots - hand.filled + prints - 1) / prints;
  for (const int print : dealt) hand.most[print] += (more + whole - 1) / whole * whole;
  return hand;
}

/// Whether every slot that prints are dealt to has its own, and there is one.
bool is_dealt(const quilt::Quilt& quilt, const block::Block& block) {
  bool any = false;
  for (std::size_t slot = 0; slot < block.prints.size(); ++slot) {
    if (quilt.patterns[block.pattern].slots[slot].print != quilt::kNone) continue;
    if (block.prints[slot] == quilt::kNone) return false;
    any = true;
  }
  return any;
}

/// Whether some blocks have their prints and others wait for theirs: a print was dropped, or the quilt has grown.
bool partly_dealt(const quilt::Quilt& quilt) {
  return blocks_to_deal(quilt) > 0 && std::any_of(quilt.blocks.begin(), quilt.blocks.end(),
                                                  [&](const block::Block& block) { return is_dealt(quilt, block); });
}

/// The quilt with every block that has all its prints held: what is dealt then goes to the others alone.
quilt::Quilt with_dealt_held(quilt::Quilt quilt) {
  std::vector<bool> held(quilt.blocks.size());
  for (std::size_t b = 0; b < quilt.blocks.size(); ++b) {
    const block::Block& block = quilt.blocks[b];
    held[b] = true;
    for (int slot = 0; slot < static_cast<int>(block.prints.size()); ++slot) {
      held[b] = held[b] && quilt::print_of_slot(quilt, block, slot) != quilt::kNone;
    }
  }
  for (std::size_t c = 0; c < quilt.layout.block.size(); ++c) {
    const int block = quilt.layout.block[c];
    quilt.layout.kept[c] = block != quilt::kNone && held[block];
  }
  for (const int spare : quilt::spares(quilt)) quilt.blocks[spare].sewn = quilt.blocks[spare].sewn || held[spare];
  return quilt;
}

/// By print, how many slots it may be dealt so that all prints come out in about equally many.
std::vector<int> fair_shares(const quilt::Quilt& quilt, const std::vector<int>& prints, int slots) {
  std::vector<int> used(quilt.prints.size(), 0);
  for (const block::Block& block : quilt.blocks) {
    for (const int print : block.prints) {
      if (print != quilt::kNone) ++used[print];
    }
  }
  std::vector<int> share(quilt.prints.size(), 0);
  if (prints.empty()) return share;
  for (int level = 1, sum = 0; sum < slots; ++level) {
    sum = 0;
    for (const int print : prints) sum += share[print] = std::max(0, level - used[print]);
  }
  return share;
}

/// What is dealt: the prints of the blocks, and those that are to be added.
Result<std::vector<int>> prints_to_deal(const quilt::Quilt& quilt, const Arrange& options) {
  Problems problems;
  std::vector<int> prints = makeup::dealt_prints(quilt);
  if (options.add.empty()) return prints;
  if (options.blocks == "sewn") {
    problems.push_back(input_problem("--add", "blocks that stay as they are take no print", "leave --blocks sewn out"));
  }
  for (const int print : prints_named(quilt, options.add, problems)) {
    if (std::find(prints.begin(), prints.end(), print) == prints.end()) prints.push_back(print);
  }
  if (!problems.empty()) return problems;
  return prints;
}

/// Every block that is neither sewn nor kept dealt anew, from these prints.
Result<quilt::Quilt> with_all_dealt(const quilt::Quilt& quilt, const std::vector<int>& prints, const Arrange& options) {
  makeup::Options how;
  how.seed = {options.seed};
  how.prints = prints;
  how.halves = {options.triangles};
  Result<std::vector<block::Block>> dealt = makeup::deal(quilt, how);
  if (!dealt) return dealt.problems();
  quilt::Quilt result = quilt;
  result.blocks = std::move(*dealt);
  return result;
}

/// Prints for the blocks that lack them; every other block keeps its own.
Result<quilt::Quilt> with_missing_dealt(const quilt::Quilt& quilt, const std::vector<int>& prints,
                                        const Arrange& options) {
  const makeup::HalfSquares halves = {options.triangles};
  const quilt::Quilt held = with_dealt_held(quilt);
  const InHand hand = in_hand(held, halves);
  makeup::Options how;
  how.seed = {options.seed};
  how.prints = prints;
  how.halves = halves;
  how.most = fair_shares(held, how.prints, hand.slots);
  for (const int print : how.prints) how.most[print] = std::min(how.most[print], hand.most[print]);
  Result<std::vector<block::Block>> dealt = makeup::deal(held, how);
  if (!dealt) {  // too little for equal shares: as the cloth goes
    how.most = hand.most;
    dealt = makeup::deal(held, how);
  }
  if (!dealt) return dealt.problems();
  quilt::Quilt result = quilt;
  for (std::size_t b = 0; b < result.blocks.size(); ++b) result.blocks[b].prints = (*dealt)[b].prints;
  return result;
}

/// How often each print was dealt.
std::vector<int> times_dealt(const quilt::Quilt& quilt) {
  std::vector<int> times(quilt.prints.size(), 0);
  for (const makeup::Deck& deck : makeup::decks_of(quilt)) {
    for (const int block : deck.blocks) ++times[quilt.blocks[block].prints[deck.slot]];
  }
  return times;
}

/// The prints that were dealt as often as their cloth goes, and less often than others.
std::vector<int> limited_by_cloth(const quilt::Quilt& quilt, const std::vector<int>& most) {
  const std::vector<int> times = times_dealt(quilt);
  const int often = *std::max_element(times.begin(), times.end());
  std::vector<int> limited;
  for (const int print : makeup::dealt_prints(quilt)) {
    if (times[print] == most[print] && times[print] + 1 < often) limited.push_back(print);
  }
  return limited;
}

/// Where prints were dealt: which of them their cloth held back, and which it is still not enough for. Nothing where no
/// cloth of any is recorded.
void add_cloth(const quilt::Quilt& quilt, const InHand& hand, Answer& answer, Report& report) {
  report["cloth"] = nullptr;
  const std::vector<int> dealt = makeup::dealt_prints(quilt);
  if (std::all_of(dealt.begin(), dealt.end(), [&](int print) { return quilt.prints[print].cloth.empty(); })) return;
  Report told = {{"enough", hand.enough()}, {"slots", hand.slots}, {"limited", Report::array()}};
  if (!hand.enough()) {
    told["fills"] = hand.filled;
    answer.words +=
        "The cloth in hand fills " + std::to_string(hand.filled) + " of " + std::to_string(hand.slots) +
        " places in the blocks; what is missing was shared among the prints, and farflung cloth says what to "
        "buy.\n";
  } else {
    const std::vector<int> times = times_dealt(quilt);
    for (const int print : limited_by_cloth(quilt, hand.most)) {
      told["limited"].push_back({{"print", quilt.prints[print].id}, {"slots", times[print]}});
      answer.words += print::name_of(quilt.prints[print]) +
                      " is in fewer blocks than others: its cloth in hand is enough for " +
                      std::to_string(times[print]) + ".\n";
    }
    for (const int print : cloth::prints_short(quilt)) {
      told["enough"] = false;
      const char* its_cloth = quilt.prints[print].upright
                                  ? " stands upright, and as its blocks are turned now its cloth in hand"
                                  : ": its cloth in hand";
      answer.words += print::name_of(quilt.prints[print]) + its_cloth +
                      " was not found to be enough for what was dealt: farflung cloth says what is missing.\n";
    }
  }
  report["cloth"] = told;
}

void add_left_over(const quilt::Quilt& quilt, makeup::HalfSquares halves, Answer& answer, Report& report) {
  report["left_over"] = Report::array();
  const std::string how_many =
      halves.from_square == 2 ? "" : ", " + std::to_string(halves.from_square) + " half-square triangles from one";
  for (const makeup::LeftOver& left : makeup::left_over(quilt, halves)) {
    const std::string& id = quilt.prints[left.print].id;
    const double side = quilt::in_units(Length::inches(left.side), quilt.units);
    report["left_over"].push_back({{"print", id}, {"side", side}, {"pieces", left.pieces}});
    answer.words += counted(left.pieces, "triangle", "triangles") + " of " + print::name_of(quilt.prints[left.print]) +
                    " will be left over: triangles are cut from whole squares" + how_many + ".\n";
  }
}

/// Prints that are nowhere: a fabric that came later is seldom meant to be left out.
void add_idle(const quilt::Quilt& quilt, Answer& answer, Report& report) {
  constexpr std::size_t kNamed = 6;
  report["idle"] = Report::array();
  const std::vector<int> idle = idle_prints(quilt);
  std::string names;
  for (std::size_t i = 0; i < idle.size(); ++i) {
    report["idle"].push_back(quilt.prints[idle[i]].id);
    if (i < kNamed) names += (i == 0 ? "" : ", ") + print::name_of(quilt.prints[idle[i]]);
  }
  if (idle.empty()) return;
  if (idle.size() > kNamed) names += " and " + std::to_string(idle.size() - kNamed) + " more";
  answer.words += "In no block, border or binding: " + names + "; --add " +
                  typed(print::name_of(quilt.prints[idle.front()])) + " deals it as well.\n";
}

Answer answer_of(const arrange::Report& arranged, const Arrange& options, Blocks blocks, const InHand& hand,
                 std::size_t dealt_beside) {
  Answer answer;
  Report report = new_report();
  report["dealt_beside"] = dealt_beside;
  const int touches = arranged.after.terms.touches;
  const bool was_laid = arranged.before.F > 0 || arranged.before.terms.touches > 0;
  answer.promise_kept = touches == 0 && arranged.after.broken == 0;
  answer.words = "Arranged with seed " + std::to_string(options.seed) + ": " + score_words(arranged.after) + "." +
                 (was_laid ? " It was " + score_words(arranged.before) + "." : "") + " Less is better" +
                 (touches == 0 ? "; farflung check " + typed(options.folder) + " explains it.\n" : ".\n");
  if (touches > 0) {
    answer.words += words_of(arranged.bound, arranged.quilt, touches) + "farflung check " + typed(options.folder) +
                    " says where they are.\n";
    report["bound"] = json_of(arranged.bound, arranged.quilt, touches);
  }
  if (dealt_beside > 0) {
    answer.words +=
        counted(dealt_beside, "block that lacked prints was dealt some", "blocks that lacked prints were dealt some") +
        "; the others keep theirs. --blocks open deals all anew.\n";
  }
  add_nesting(arranged, answer, report);
  const std::vector<int> left_over = quilt::spares(arranged.quilt);
  report["spares"] = Report::array();
  for (int block : left_over) report["spares"].push_back(arranged.quilt.blocks[block].id);
  if (!left_over.empty()) {
    answer.words += "Left over: " + counted(left_over.size(), "spare block", "spare blocks") + ":";
    for (int block : left_over) answer.words += " " + arranged.quilt.blocks[block].id;
    answer.words += ".\n";
  }
  add_left_over(arranged.quilt, {options.triangles}, answer, report);
  add_idle(arranged.quilt, answer, report);
  if (blocks == Blocks::open) add_cloth(arranged.quilt, hand, answer, report);
  report["seed"] = options.seed;
  report["blocks"] = blocks == Blocks::open ? "open" : "sewn";
  report["before"] = score_json(arranged.before);
  report["after"] = score_json(arranged.after);
  answer.words += tried_words(options.dry_run);
  answer.json = text_of(report);
  return answer;
}

/// What a screen draws anew while blocks move.
std::string picture_of(const quilt::Quilt& quilt) {
  return text_of(Report{{"layout", layout_json(quilt)}, {"prints", prints_by_patch(quilt)}});
}

/// Everything that is settled before blocks move.
struct Prepared {
  quilt::Quilt quilt;  ///< blocks that lack prints dealt theirs, where the others keep their own
  Blocks blocks = Blocks::open;
  InHand hand;
  std::size_t dealt_beside = 0;
};

Result<Prepared> prepared(const quilt::Quilt& quilt, const Arrange& options) {
  const Problems wrong = problems_of_wish(options, quilt);
  if (!wrong.empty()) return wrong;
  Prepared ready;
  ready.quilt = quilt;
  const Result<std::vector<int>> prints = prints_to_deal(quilt, options);
  if (!prints) return prints.problems();
  const bool partly = options.blocks.empty() && partly_dealt(quilt);
  if (partly || !options.add.empty()) {
    if (partly) ready.dealt_beside = blocks_to_deal(quilt);
    Result<quilt::Quilt> dealt =
        partly ? with_missing_dealt(quilt, *prints, options) : with_all_dealt(quilt, *prints, options);
    if (!dealt) return dealt.problems();
    ready.quilt = std::move(*dealt);
  }
  ready.blocks = partly ? Blocks::sewn : blocks_asked(options, ready.quilt);
  if (ready.blocks == Blocks::open) ready.hand = in_hand(ready.quilt, {options.triangles});
  return ready;
}

/// What was changed, of all that the arrangement of `a` was made for; none where it is one of `b` as well.
std::vector<std::string> changed_parts(const Prepared& a, const Prepared& b) {
  std::vector<std::string> parts = parts_arranged_otherwise(a.quilt, b.quilt);
  if (!parts.empty() || a.blocks != Blocks::open) return parts;
  const bool other_deal = a.hand.most != b.hand.most || makeup::dealt_prints(a.quilt) != makeup::dealt_prints(b.quilt);
  if (other_deal) parts.emplace_back("cloth in hand or the prints that are free for the blocks");
  return parts;
}

/// The problem of a save that somebody came before, with what of it the arrangement was made for.
Problem overtaken_in(Problem problem, const std::vector<std::string>& parts) {
  problem.remedy = "what was found was made for its " + choice::listed(parts) +
                   " as it was, and is not that of the quilt as it is now: do it again; nothing was changed";
  return problem;
}

/// Saves what was found, and says how often somebody else had saved before. Where the quilt was saved meanwhile by
/// somebody else, into what it is by then, if all that the arrangement was made for is as it was, prints that came
/// since and are nowhere yet aside; `document` is that one then.
Result<int> save_arranged(const Arrange& options, const Prepared& ready, const quilt::Quilt& found,
                          project::Document& document) {
  constexpr int kMost = 20;
  for (int others = 0;; ++others) {
    document.quilt.blocks = found.blocks;
    document.quilt.layout = found.layout;
    document.quilt.sewn_units = found.sewn_units;
    const Result<Done> written = project::write(options.folder, document);
    if (written) return others;
    if (others == kMost || !was_overtaken(written.problems())) return written.problems();
    Result<project::Document> newer = open_quilt(options.folder);
    if (!newer) return newer.problems();
    const Result<Prepared> now = prepared(without_newcomers(newer->quilt, ready.quilt), options);
    if (!now) return written.problems();
    const std::vector<std::string> parts = changed_parts(ready, *now);
    if (!parts.empty()) return overtaken_in(written.problems().front(), parts);
    document = std::move(*newer);
  }
}

}  // namespace

Outcome arrange(const Arrange& options, const Watch& watch) {
  Result<project::Document> document = open_quilt(options.folder);
  if (!document) return document.problems();
  const Result<Prepared> ready = prepared(document->quilt, options);
  if (!ready) return ready.problems();
  arrange::Options how;
  how.seed = {options.seed};
  how.effort = options.effort;
  how.blocks = ready->blocks;
  how.seconds = options.seconds;
  how.halves = {options.triangles};
  how.most = ready->hand.most;
  how.progress = [&watch](const arrange::Progress& now) {
    Progress told{now.done, "Arranging: " + score_words(now.touches, now.F), now.touches, now.F, {}};
    if (now.laid) told.layout = [&now] { return picture_of(now.laid()); };
    return watch(told);
  };
  Result<arrange::Report> arranged = arrange::arrange(ready->quilt, how);
  if (!arranged) return arranged.problems();
  if (arranged->stopped) return stopped();
  watch({.done = 1});

  int others = 0;
  if (!options.dry_run) {
    const Result<int> saved = save_arranged(options, *ready, arranged->quilt, *document);
    if (!saved) return saved.problems();
    others = *saved;
    arranged->quilt = document->quilt;  // its names and all else as they are by now
  }
  Answer answer = answer_of(*arranged, options, ready->blocks, ready->hand, ready->dealt_beside);
  if (others > 0) answer.words += "The quilt was changed meanwhile in what no layout depends on: that is kept.\n";
  return answer;
}

}  // namespace farflung::job
