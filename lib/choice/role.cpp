#include "choice/role.hpp"

#include <algorithm>
#include <array>

#include "base/typed_name.hpp"

namespace farflung::choice {
namespace {

constexpr std::array kRoleNames = {"background", "accent", "sashing", "setting", "border", "binding", "backing"};

// The print holds that slot in every block from now on; false where no pattern has such a slot.
bool fill_slots(quilt::Quilt& quilt, Role::Kind kind, int print) {
  bool any = false;
  for (std::size_t p = 0; p < quilt.patterns.size(); ++p) {
    for (int slot : slots_of(quilt.patterns[p], kind)) {
      any = true;
      quilt.patterns[p].slots[slot].print = print;
      for (block::Block& block : quilt.blocks) {
        if (block.pattern == static_cast<int>(p) && block.prints[slot] != kNone) block.prints[slot] = print;
      }
    }
  }
  return any;
}

Problems fill_border(quilt::Quilt& quilt, int which, int print) {
  auto& borders = quilt.setting.borders;
  if (which == kNone && borders.empty())
    borders.push_back({quilt::usual_widths(quilt.units).border, print, setting::Border::Corners::butted, kNone});
  const int count = static_cast<int>(borders.size());
  if (which == kNone) which = count - 1;
  if (which < 0 || which >= count) {
    return {input_problem("/setting/borders/" + std::to_string(which), "there is no such border",
                          "name one of the " + std::to_string(count) + ", or leave the number out for the outermost")};
  }
  borders[which].print = print;
  return {};
}

Problems fill(quilt::Quilt& quilt, Role role, int print) {
  switch (role.kind) {
    case Role::Kind::background:
    case Role::Kind::accent: {
      const std::string name = role_name(role.kind);
      if (fill_slots(quilt, role.kind, print)) return {};
      return {input_problem("/patterns", "no pattern has a slot for the " + name, "name a slot \"" + name + "\"")};
    }
    case Role::Kind::sashing:
      if (!quilt.setting.sashing)
        quilt.setting.sashing = setting::Sashing{quilt::usual_widths(quilt.units).sashing, print, kNone, false};
      quilt.setting.sashing->print = print;
      return {};
    case Role::Kind::setting:
      if (quilt.setting.kind == setting::Setting::Kind::straight) {
        return {input_problem("/setting/kind", "a straight setting has no setting triangles or half blocks",
                              "set the blocks on point or as brick first")};
      }
      quilt.setting.filler = print;
      return {};
    case Role::Kind::border:
      return fill_border(quilt, role.border, print);
    case Role::Kind::binding:
      if (!quilt.binding) quilt.binding = quilt::Binding{kNone, quilt::usual_widths(quilt.units).binding};
      quilt.binding->print = print;
      return {};
    case Role::Kind::backing:
      if (!quilt.backing) quilt.backing = quilt::Backing{kNone, quilt::usual_widths(quilt.units).backing_over};
      quilt.backing->print = print;
      return {};
  }
  return {};
}

}  // namespace

std::optional<Role> role_named(const std::string& word) {
  const auto found = std::find(kRoleNames.begin(), kRoleNames.end(), plain_name(word));
  if (found == kRoleNames.end()) return std::nullopt;
  return Role{static_cast<Role::Kind>(found - kRoleNames.begin()), kNone};
}

const char* role_name(Role::Kind kind) { return kRoleNames[static_cast<std::size_t>(kind)]; }

std::vector<Candidate> own_candidates(const quilt::Quilt& quilt) {
  std::vector<Candidate> candidates;
  candidates.reserve(quilt.prints.size());
  for (std::size_t i = 0; i < quilt.prints.size(); ++i) candidates.push_back({quilt.prints[i], static_cast<int>(i)});
  return candidates;
}

std::vector<int> slots_of(const block::Pattern& pattern, Role::Kind kind) {
  std::vector<int> named, touching;
  for (std::size_t i = 0; i < pattern.slots.size(); ++i) {
    const block::Slot& slot = pattern.slots[i];
    if (slot.name == role_name(kind)) named.push_back(static_cast<int>(i));
    if (slot.may_touch && slot.print != kNone) touching.push_back(static_cast<int>(i));
  }
  return named.empty() && kind == Role::Kind::background ? touching : named;
}

Result<quilt::Quilt> tried(const quilt::Quilt& quilt, Role role, const Candidate& candidate) {
  quilt::Quilt changed = quilt;
  int print = candidate.own;
  if (print == kNone) {
    print = static_cast<int>(changed.prints.size());
    changed.prints.push_back(candidate.print);
    changed.prints.back().code.clear();
    print::give_codes(changed.prints);
  }
  Problems problems = fill(changed, role, print);
  if (!problems.empty()) return problems;
  return changed;
}

}  // namespace farflung::choice
