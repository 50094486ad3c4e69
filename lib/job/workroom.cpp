#include "job/workroom.hpp"

#include <map>

#include "base/typed_name.hpp"

namespace farflung::job {
namespace {

template <typename Choice>
void choose(const std::string& what, const std::string& word, const std::map<std::string, Choice>& choices, Choice& to,
            Problems& problems) {
  std::string names;
  for (const auto& [name, choice] : choices) {
    names += (names.empty() ? "" : ", ") + name;
    if (plain_name(name) != plain_name(word)) continue;
    to = choice;
    return;
  }
  problems.push_back(input_problem(what, "\"" + word + "\" is none of the ways there are", "choose from " + names));
}

}  // namespace

Result<cloth::WorkroomOptions> workroom_options(const WorkroomWish& wish, quilt::Units units) {
  using Seam = cloth::YardageOptions::BackingSeam;
  Problems problems;
  cloth::WorkroomOptions options;
  options.cutting.yardage = cloth::usual_yardage(units);
  options.kits = wish.kits;
  options.spares = wish.spares;
  options.plan.layers = wish.layers;
  options.cutting.sixteenths = wish.sixteenths;
  options.cutting.yardage.prewashed = wish.prewashed;
  options.cutting.borders = wish.lengthwise ? cloth::BorderCut::lengthwise : cloth::BorderCut::crosswise;
  choose<cloth::GeeseMethod>("geese", wish.geese,
                             {{"plain", cloth::GeeseMethod::plain},
                              {"four at once", cloth::GeeseMethod::four_at_once},
                              {"flip", cloth::GeeseMethod::flip}},
                             options.cutting.geese, problems);
  choose<cloth::CornerMethod>("corners", wish.corners,
                              {{"triangle", cloth::CornerMethod::triangle}, {"flip", cloth::CornerMethod::flip}},
                              options.cutting.corners, problems);
  choose<Seam>("backing seams", wish.backing_seams,
               {{"least", Seam::least}, {"across", Seam::across}, {"along", Seam::along}},
               options.cutting.yardage.backing_seams, problems);
  if (wish.layers < 1) problems.push_back(input_problem("layers", "no layer at all", "give 1 or more"));
  if (!problems.empty()) return problems;
  return options;
}

}  // namespace farflung::job
