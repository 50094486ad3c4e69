#include <algorithm>
#include <map>

#include "base/counted.hpp"
#include "draw/text.hpp"
#include "sheet/cutting.hpp"
#include "sheet/hatch.hpp"
#include "sheet/lettering.hpp"

namespace farflung::sheet {
namespace {

using draw::Anchor;
using draw::Role;
using draw::Text;
using draw::Vec;

constexpr double kRim = 22;        ///< for the numbers of cuts outside the cloth
constexpr double kNumber = 8;      ///< size of a cut's number, where there is room
constexpr double kLetter = 13;     ///< of a piece's letter, where there is room
constexpr double kMostScale = 20;  ///< points to the inch: a charm square need not fill the page

class Drawing {
 public:
  Drawing(const Book& book, const cloth::PrintPlan& plan, const cloth::SheetPlan& sheet, double scale)
      : book_(book), plan_(plan), sheet_(sheet), scale_(scale) {
    display_.width = 2 * kRim + scale * sheet.width.inches();
    display_.height = 2 * kRim + scale * sheet.length.inches();
  }

  draw::Display take() {
    for (const cloth::Area& area : sheet_.left) add_left(area);
    for (const cloth::PlacedPiece& piece : sheet_.pieces) add_piece(piece);
    for (const cloth::NumberedCut& cut : sheet_.cuts) add_line(cut);
    display_.add(draw::Line{draw::outline_of(box_of({{}, {}, sheet_.width, sheet_.length})), 1.3, draw::kInk, true});
    add_measures();
    for (const cloth::PlacedPiece& piece : sheet_.pieces) add_letter(piece);
    // Of pieces that are all cut alike only the first shows its numbers; the steps beside the drawing tell the rest.
    for (const cloth::CutStep& step : cloth::cut_steps(sheet_, ruler(), book_.left_handed)) {
      for (int number = step.first; number < step.first + step.times; ++number) add_number(sheet_.cuts[number - 1]);
    }
    for (const cloth::Area& area : sheet_.left) name_left(area);
    for (const cloth::PlacedPiece& piece : sheet_.pieces) add_size(piece);
    return std::move(display_);
  }

 private:
  draw::Box box_of(const cloth::Area& area) const {
    return {kRim + scale_ * area.x.inches(), kRim + scale_ * area.y.inches(), scale_ * area.width.inches(),
            scale_ * area.height.inches()};
  }

  cloth::Ruler ruler() const { return book_.workroom->list.ruler; }

  void add_left(const cloth::Area& area) {
    display_.add(draw::Area{draw::outline_of(box_of(area)), draw::grey_level(0.92)});
  }

  void add_piece(const cloth::PlacedPiece& piece) {
    const draw::Box box = box_of(piece.area);
    add_hatched(display_, draw::outline_of(box), piece.wanted);
    const Vec top_left = {box.left, box.top}, top_right = {box.right(), box.top};
    const Vec foot_left = {box.left, box.bottom()}, foot_right = {box.right(), box.bottom()};
    const cloth::Shape shape = plan_.wanted[piece.wanted].shape;
    const std::vector<double> dashes = {3, 2};
    const bool rising = plan_.wanted[piece.wanted].diagonal != cloth::Diagonal::falling;
    if (shape == cloth::Shape::quarter_square || (shape == cloth::Shape::half_square && !rising)) {
      display_.add(draw::Line{{top_left, foot_right}, 0.6, draw::kInk, false, dashes});
    }
    if (shape == cloth::Shape::quarter_square || (shape == cloth::Shape::half_square && rising)) {
      display_.add(draw::Line{{foot_left, top_right}, 0.6, draw::kInk, false, dashes});
    }
    display_.add(draw::Line{draw::outline_of(box), 0.6, draw::kInk, true});
  }

  void add_line(const cloth::NumberedCut& cut) {
    const draw::Box of = box_of(cut.of);
    const double at = kRim + scale_ * cut.at.inches();
    const draw::Outline ends =
        cut.upright ? draw::Outline{{at, of.top}, {at, of.bottom()}} : draw::Outline{{of.left, at}, {of.right(), at}};
    const bool whole = cut.upright ? cut.of.height == sheet_.length : cut.of.width == sheet_.width;
    display_.add(draw::Line{ends, whole ? 1.3 : 0.9, draw::kInk});
  }

  void add_measures() {
    const draw::Box all = box_of({{}, {}, sheet_.width, sheet_.length});
    lettering_.add(display_, Text{cloth::said(sheet_.width, ruler()),
                                  {all.centre().x, all.bottom() + 11},
                                  kSmall,
                                  Anchor::middle,
                                  false,
                                  draw::kFaint,
                                  Role::caption});
    const double side = book_.left_handed ? all.left - 6 : all.right() + 12;
    const std::string along = cloth::said(sheet_.length, ruler()) + " along the selvage";
    if (draw::width_of(along, kSmall) < all.height) {
      lettering_.add(
          display_,
          Text{along, {side, all.centre().y}, kSmall, Anchor::middle, false, draw::kFaint, Role::caption, -90});
    } else {
      lettering_.add(display_, Text{cloth::said(sheet_.length, ruler()),
                                    {side, all.centre().y},
                                    kLeastSize,
                                    Anchor::middle,
                                    false,
                                    draw::kFaint,
                                    Role::caption,
                                    -90});
    }
  }

  bool stands(const cloth::PlacedPiece& piece) const {
    return plan_.print != block::kNone && book_.quilt.prints[plan_.print].upright &&
           !plan_.wanted[piece.wanted].turnable;
  }

  /// On a white plate, unless it would run into others; whether it stands now.
  bool add_letter_at(const std::string& letter, Vec centre, double size) {
    const double width = draw::width_of(letter, size, true);
    const draw::Box plate = {centre.x - width / 2 - 1.5, centre.y - 0.55 * size, width + 3, 1.1 * size};
    const Text text = {
        letter, {centre.x, centre.y + draw::kCapHeight * size / 2}, size, Anchor::middle, true, draw::kInk, Role::code};
    return lettering_.add_on_plate(display_, draw::rounded(plate, 2), text);
  }

  void add_letter(const cloth::PlacedPiece& piece) {
    const draw::Box box = box_of(piece.area);
    const std::string& letter = plan_.wanted[piece.wanted].letter;
    const double size =
        std::clamp(0.8 * std::min(box.height / 1.3, box.width / draw::width_of(letter, 1, true)), kLeastSize, kLetter);
    const Vec centre = box.centre();
    // A piece that is narrower than its letter carries it all the same, at a place of its own along it.
    std::vector<Vec> places = {centre};
    if (box.height < size || box.width < size) {
      for (const double share : {-0.3, 0.3, -0.15, 0.15}) {
        places.push_back(centre + (box.width > box.height ? Vec{share * box.width, 0} : Vec{0, share * box.height}));
      }
    }
    const auto stands_at =
        std::find_if(places.begin(), places.end(), [&](Vec at) { return add_letter_at(letter, at, size); });
    if (stands_at == places.end()) return;
    if (stands(piece) && box.height > 3 * size && box.width > 10) add_up(box, centre.y - 0.7 * size);
  }

  /// The way up of a print that has one.
  void add_up(const draw::Box& box, double foot) {
    const double x = box.centre().x;
    const double tip = std::max(box.top + 4, foot - 16);
    if (foot - tip < 6) return;
    display_.add(draw::Line{{{x, foot}, {x, tip}}, 1, draw::kInk});
    display_.add(draw::Area{{{x, tip - 2}, {x + 3, tip + 4}, {x - 3, tip + 4}}, draw::kInk});
    lettering_.block({x - 3, tip - 2, 6, foot - tip + 2});
  }

  void add_number(const cloth::NumberedCut& cut) {
    const draw::Box of = box_of(cut.of);
    const draw::Box all = box_of({{}, {}, sheet_.width, sheet_.length});
    const double at = kRim + scale_ * cut.at.inches();
    std::vector<Vec> places;
    if (cut.upright) {
      if (of.top < all.top + 0.5) places.push_back({at, all.top - 9});
      if (of.bottom() > all.bottom() - 0.5 && of.top >= all.top + 0.5) places.push_back({at, of.top + 6});
      for (const double share : {0.0, 0.25, 0.5, 0.75}) places.push_back({at, of.top + 6 + share * (of.height - 12)});
    } else {
      const bool from_right = book_.left_handed;
      const double outside = from_right ? all.right() + 11 : all.left - 11;
      const bool at_rim = from_right ? of.right() > all.right() - 0.5 : of.left < all.left + 0.5;
      if (at_rim) places.push_back({outside, at});
      for (const double share : {0.0, 0.2, 0.4, 0.6, 0.8}) {
        const double step = 8 + share * (of.width - 16);
        places.push_back({from_right ? of.right() - step : of.left + step, at});
      }
    }
    for (const double size : {kNumber, kLeastSize}) {
      if (lettering_.add_numbered(display_, cut.number, places, size)) return;
    }
  }

  void name_left(const cloth::Area& area) {
    const draw::Box box = box_of(area);
    const std::string size = cloth::said(area.width, area.height, ruler());
    for (const double type : {kSmall, kLeastSize}) {
      for (const std::string& words : {"left over " + size, size}) {
        if (draw::width_of(words, type) > box.width - 4 || 1.4 * type > box.height) continue;
        const Text text = {
            words,        {box.centre().x, box.centre().y + 0.36 * type}, type, Anchor::middle, false, draw::kInk,
            Role::caption};
        if (lettering_.add(display_, text)) return;
      }
    }
  }

  /// Under the letter of the first of its kind.
  void add_size(const cloth::PlacedPiece& piece) {
    if (sized_[piece.wanted]) return;
    const draw::Box box = box_of(piece.area);
    Length width = piece.area.width, height = piece.area.height;
    const std::string words = cloth::said(width, height, ruler());
    const double type = kLeastSize;
    if (draw::width_of(words, type) > box.width - 3 || box.height < 34) return;
    const Vec at = {box.centre().x, box.centre().y + 0.6 * kLetter + type};
    const draw::Box plate = {at.x - draw::width_of(words, type) / 2 - 1, at.y - 0.8 * type,
                             draw::width_of(words, type) + 2, 1.05 * type};
    const Text text = {words, at, type, Anchor::middle, false, draw::kInk, Role::caption};
    if (!lettering_.add_on_plate(display_, draw::outline_of(plate), text)) return;
    sized_[piece.wanted] = true;
  }

  static constexpr double kSmall = 8;

  const Book& book_;
  const cloth::PrintPlan& plan_;
  const cloth::SheetPlan& sheet_;
  double scale_;
  draw::Display display_;
  Lettering lettering_;
  std::map<int, bool> sized_;
};

std::string says_of(const cloth::PrintPlan& plan, const cloth::SheetPlan& sheet, cloth::Ruler ruler) {
  std::string says = "Cutting plan on " + (sheet.kind.empty() ? "cloth" : sheet.kind) + ", " +
                     cloth::said(sheet.width, sheet.length, ruler) + ": ";
  std::map<int, int> counts;
  for (const cloth::PlacedPiece& piece : sheet.pieces) ++counts[piece.wanted];
  for (const auto& [wanted, count] : counts) {
    says += std::to_string(count) + " of " + plan.wanted[wanted].letter + ", ";
  }
  return says + counted(sheet.cuts.size(), "cut");
}

}  // namespace

PlanDrawing drawing_of(const Book& book, const cloth::PrintPlan& plan, const cloth::SheetPlan& sheet, double width,
                       double height) {
  const double scale = std::min({kMostScale, (width - 2 * kRim) / sheet.width.inches(),
                                 (height - 2 * kRim) / std::max(0.1, sheet.length.inches())});
  return {Drawing(book, plan, sheet, scale).take(), says_of(plan, sheet, book.workroom->list.ruler)};
}

}  // namespace farflung::sheet
