#include "setting/plan.hpp"

namespace farflung::setting {
namespace {

class Checks {
 public:
  Checks(const Setting& setting, const std::vector<block::Pattern>& patterns, int prints, std::string at)
      : setting_(setting), patterns_(patterns), prints_(prints), at_(std::move(at)) {}

  Problems run() {
    check_size();
    check_alternate();
    check_sashing();
    check_borders();
    check_filler();
    return std::move(problems_);
  }

 private:
  void add(const std::string& where, std::string cause, std::string remedy) {
    problems_.push_back(input_problem(at_ + where, std::move(cause), std::move(remedy)));
  }

  void check_print(const std::string& where, int print) {
    if (print < kNone || print >= prints_) add(where, "there is no such print", "name one of the quilt's prints");
  }

  void check_size() {
    if (setting_.rows < 1) add("/rows", "a quilt has one row or more", "give the number of rows");
    if (setting_.columns < 1) add("/columns", "a quilt has one column or more", "give the number of columns");
    if (setting_.kind == Setting::Kind::brick && setting_.columns == 1 && setting_.rows > 1) {
      add("/columns", "a brick setting's shorter rows would be empty", "give two columns or more");
    }
    if (setting_.kind != Setting::Kind::on_point) return;
    for (const block::Pattern& pattern : patterns_) {
      if (pattern.width == pattern.height) continue;
      add("/kind", "blocks on point must be square, " + pattern.id + " is not",
          "use a square block or another setting");
    }
  }

  void check_alternate() {
    if (setting_.alternate.empty()) return;
    const std::size_t width = setting_.alternate.front().size();
    for (std::size_t r = 0; r < setting_.alternate.size(); ++r) {
      const auto& row = setting_.alternate[r];
      const std::string where = "/alternate/" + std::to_string(r);
      if (row.empty() || row.size() != width)
        add(where, "its rows differ in length", "give every row as many patterns");
      for (std::size_t c = 0; c < row.size(); ++c) {
        if (row[c] >= 0 && row[c] < static_cast<int>(patterns_.size())) continue;
        add(where + "/" + std::to_string(c), "there is no such pattern", "name one of the quilt's patterns");
      }
    }
  }

  void check_sashing() {
    if (!setting_.sashing) return;
    if (setting_.sashing->width <= Length()) add("/sashing/width", "sashing has a width", "give a width above zero");
    check_print("/sashing/print", setting_.sashing->print);
    check_print("/sashing/cornerstone", setting_.sashing->cornerstone);
  }

  void check_borders() {
    for (std::size_t i = 0; i < setting_.borders.size(); ++i) {
      const Border& border = setting_.borders[i];
      const std::string where = "/borders/" + std::to_string(i);
      if (border.width <= Length()) add(where + "/width", "a border has a width", "give a width above zero");
      check_print(where + "/print", border.print);
      check_print(where + "/cornerstone", border.cornerstone);
    }
  }

  void check_filler() { check_print("/filler", setting_.filler); }

  const Setting& setting_;
  const std::vector<block::Pattern>& patterns_;
  int prints_;
  std::string at_;
  Problems problems_;
};

}  // namespace

Problems problems_of(const Setting& setting, const std::vector<block::Pattern>& patterns, int prints,
                     const std::string& at) {
  return Checks(setting, patterns, prints, at).run();
}

}  // namespace farflung::setting
