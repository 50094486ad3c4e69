#include "draw/display.hpp"

namespace farflung::draw {
namespace {

struct Placing {
  Vec at;
  double scale;

  Vec operator()(Vec p) const { return at + scale * p; }
  void move(Outline& outline) const {
    for (Vec& p : outline) p = (*this)(p);
  }

  Item operator()(Area area) const {
    move(area.outline);
    if (auto* cloth = std::get_if<Cloth>(&area.paint)) cloth->width *= scale;
    return area;
  }
  Item operator()(Line line) const {
    move(line.points);
    line.width *= scale;
    for (double& dash : line.dashes) dash *= scale;
    return line;
  }
  Item operator()(Relief relief) const {
    move(relief.outline);
    relief.width *= scale;
    return relief;
  }
  Item operator()(Text text) const {
    text.at = (*this)(text.at);
    text.size *= scale;
    return text;
  }
  Item operator()(Opening opening) const { return opening; }
  Item operator()(Closing closing) const { return closing; }
};

}  // namespace

void place(Display& whole, const Display& part, Vec at, double scale) {
  whole.items.reserve(whole.items.size() + part.items.size());
  for (const Item& item : part.items) whole.items.push_back(std::visit(Placing{at, scale}, item));
}

Box place_fitted(Display& whole, const Display& part, const Box& room) {
  const Box box = fitted(part.width, part.height, room);
  place(whole, part, {box.left, box.top}, box.width / part.width);
  return box;
}

std::vector<Text> words_of(const Display& display) {
  std::vector<Text> result;
  for (const Item& item : display.items) {
    if (const auto* text = std::get_if<Text>(&item)) result.push_back(*text);
  }
  return result;
}

}  // namespace farflung::draw
