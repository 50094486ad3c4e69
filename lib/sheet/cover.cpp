#include "sheet/cover.hpp"

#include <algorithm>

#include "base/counted.hpp"
#include "draw/text.hpp"
#include "draw/top.hpp"

namespace farflung::sheet {
namespace {

using block::kNone;
using draw::Anchor;
using draw::Role;
using draw::Text;

std::string by(Length width, Length height, quilt::Units units) {
  const std::string tall = draw::spoken(height, units);
  std::string wide = draw::spoken(width, units);
  wide.resize(wide.rfind(' '));  // the unit is said once
  return wide + " \u00d7 " + tall;
}

std::string names_of_patterns(const quilt::Quilt& quilt) {
  std::string words;
  for (std::size_t i = 0; i < quilt.patterns.size(); ++i) {
    const bool used = std::any_of(quilt.blocks.begin(), quilt.blocks.end(),
                                  [&](const block::Block& block) { return block.pattern == static_cast<int>(i); });
    if (used) words += (words.empty() ? "" : ", ") + quilt.patterns[i].name;
  }
  return words;
}

std::string words_of(const setting::Setting& setting) {
  switch (setting.kind) {
    case setting::Setting::Kind::straight:
      return "straight, " + counted(setting.rows, "row") + " of " + std::to_string(setting.columns);
    case setting::Setting::Kind::brick:
      return "brick, " + counted(setting.rows, "row") + " of " + std::to_string(setting.columns) + " and one less";
    case setting::Setting::Kind::on_point:
      break;
  }
  return "on point, " + std::to_string(setting.columns) + " across and " + std::to_string(setting.rows) + " down";
}

/// The facts in two columns; returns the height they take.
double add_facts(draw::Display& display, const std::vector<Fact>& facts, const draw::Box& room, bool draw_them) {
  constexpr double kSize = 9;
  constexpr double kLabel = 62;
  const double column = room.width / 2;
  const double width = column - kLabel - 14;
  double left_base = room.top, right_base = room.top;
  const std::size_t half = (facts.size() + 1) / 2;
  for (std::size_t i = 0; i < facts.size(); ++i) {
    double& base = i < half ? left_base : right_base;
    const double left = room.left + (i < half ? 0 : column);
    bool first = true;
    for (const std::string& line : draw::broken(facts[i].says, kSize, width)) {
      base += 1.42 * kSize;
      if (draw_them && first) {
        display.add(Text{facts[i].what, {left, base}, kSize, Anchor::left, false, draw::kFaint, Role::caption});
      }
      if (draw_them) {
        display.add(Text{line, {left + kLabel, base}, kSize, Anchor::left, false, draw::kInk, Role::body});
      }
      first = false;
    }
    base += 0.25 * kSize;
  }
  return std::max(left_base, right_base) - room.top;
}

/// In one line where it can be read so, else in as many as it takes, three at most; returns where the last stands.
double add_title(draw::Display& display, const std::string& title, const draw::Box& room) {
  constexpr std::size_t kMost = 3;
  const double size = draw::size_within(title, 26, 16, room.width, true);
  std::vector<std::string> lines = draw::broken(title, size, room.width, true);
  if (lines.size() > kMost) {
    for (std::size_t i = kMost; i < lines.size(); ++i) lines[kMost - 1] += " " + lines[i];
    lines.resize(kMost);
  }
  double base = room.top + 24;
  display.add(draw::Opening{draw::Opening::Kind::heading, {}});
  for (std::size_t i = 0; i < lines.size(); ++i) {
    if (i > 0) base += 1.3 * size;
    display.add(Text{draw::shortened(lines[i], size, room.width, true),
                     {room.left, base},
                     size,
                     Anchor::left,
                     true,
                     draw::kInk,
                     Role::title});
  }
  display.add(draw::Closing{});
  return base;
}

}  // namespace

std::vector<Fact> facts_of(const Book& book) {
  const quilt::Quilt& quilt = book.quilt;
  std::vector<Fact> facts;
  facts.push_back({"Top", draw::finished_size(quilt, book.plan)});
  std::string blocks = std::to_string(quilt.blocks.size()) + " of " +
                       by(book.plan.block_width, book.plan.block_height, quilt.units) + ": " + names_of_patterns(quilt);
  if (const auto spare = quilt::spares(quilt).size(); spare > 0) blocks += "; " + std::to_string(spare) + " spare";
  facts.push_back({"Blocks", std::move(blocks)});
  facts.push_back({"Setting", words_of(quilt.setting)});
  facts.push_back({"Prints", std::to_string(quilt.prints.size())});
  if (quilt.setting.sashing) {
    std::string words = draw::spoken(quilt.setting.sashing->width, quilt.units) + ", " +
                        print_name(quilt, quilt.setting.sashing->print);
    if (quilt.setting.sashing->cornerstone != kNone) {
      words += "; cornerstones " + print_name(quilt, quilt.setting.sashing->cornerstone);
    }
    facts.push_back({"Sashing", std::move(words)});
  }
  for (const setting::Border& border : quilt.setting.borders) {
    facts.push_back({"Border", draw::spoken(border.width, quilt.units) + ", " + print_name(quilt, border.print)});
  }
  if (quilt.binding) {
    facts.push_back({"Binding", print_name(quilt, quilt.binding->print) + ", cut " +
                                    draw::spoken(quilt.binding->width, quilt.units)});
  }
  if (quilt.backing) facts.push_back({"Backing", print_name(quilt, quilt.backing->print)});
  return facts;
}

std::vector<Page> cover(const Book& book) {
  Page page = blank_page(book, "Cover");
  page.bare = true;
  const draw::Box room = {kMargin, kMargin, book.paper.width - 2 * kMargin, book.paper.height - 2 * kMargin};
  const std::string title = book.quilt.title.empty() ? "Quilt" : book.quilt.title;
  const double foot = add_title(page.display, title, room);
  page.display.add(Text{"Finished top " + draw::finished_size(book.quilt, book.plan),
                        {room.left, foot + 20},
                        12,
                        Anchor::left,
                        false,
                        draw::kFaint,
                        Role::caption});

  const std::vector<Fact> facts = facts_of(book);
  const double tall = add_facts(page.display, facts, room, false) + 14;
  const double top = foot + 40;
  const draw::Box picture = {room.left, top, room.width, room.bottom() - tall - 18 - top};
  const draw::Top whole = draw::top_of(book.quilt, book.plan);
  const draw::Box lies = draw::fitted(whole.display.width, whole.display.height, picture);
  add_figure(page.display, "The finished top of " + title, whole.display, {lies.left, picture.top},
             lies.width / whole.display.width);
  const double rule = std::min(picture.top + lies.height + 24, room.bottom() - tall);
  page.display.add(draw::Line{{{room.left, rule}, {room.right(), rule}}, 0.5, draw::kHair});
  add_facts(page.display, facts, {room.left, rule + 4, room.width, tall}, true);
  return {std::move(page)};
}

}  // namespace farflung::sheet
