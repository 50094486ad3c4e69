#include "sheet/cover.hpp"

#include <algorithm>

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
  const double size = draw::size_within(title, 26, 14, room.width, true);
  page.display.add(draw::Opening{draw::Opening::Kind::heading, {}});
  page.display.add(Text{draw::shortened(title, size, room.width, true),
                        {room.left, room.top + 24},
                        size,
                        Anchor::left,
                        true,
                        draw::kInk,
                        Role::title});
  page.display.add(draw::Closing{});
  page.display.add(Text{"Finished top " + draw::finished_size(book.quilt, book.plan),
                        {room.left, room.top + 44},
                        12,
                        Anchor::left,
                        false,
                        draw::kFaint,
                        Role::caption});

  const std::vector<Fact> facts = facts_of(book);
  const double tall = add_facts(page.display, facts, room, false) + 14;
  const double top = room.top + 64;
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
