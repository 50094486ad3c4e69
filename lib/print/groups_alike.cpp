#include "print/groups_alike.hpp"

#include <algorithm>
#include <map>

namespace farflung::print {
namespace {

using Kinds = std::map<std::pair<std::size_t, std::size_t>, Pair::Kind>;

/// Whether the two belong in one group of this kind: what may be one fabric reads alike too.
bool belong(const Kinds& kinds, Pair::Kind kind, std::size_t a, std::size_t b) {
  const auto found = kinds.find(std::minmax(a, b));
  return found != kinds.end() && (kind == Pair::Kind::alike || found->second == kind);
}

/// All that go with both prints of the pair, and with each other.
Group grown(const Pair& pair, const std::vector<std::size_t>& prints, const Kinds& kinds) {
  Group group = {pair.kind, {pair.first, pair.second}};
  for (const std::size_t print : prints) {
    const bool goes = std::all_of(group.prints.begin(), group.prints.end(), [&](std::size_t member) {
      return member != print && belong(kinds, pair.kind, member, print);
    });
    if (goes) group.prints.push_back(print);
  }
  std::sort(group.prints.begin(), group.prints.end());
  return group;
}

bool holds(const Group& group, const Pair& pair) {
  const auto has = [&](std::size_t print) {
    return std::binary_search(group.prints.begin(), group.prints.end(), print);
  };
  return group.kind == pair.kind && has(pair.first) && has(pair.second);
}

}  // namespace

std::vector<Group> groups_of(const std::vector<Pair>& pairs) {
  Kinds kinds;
  std::vector<std::size_t> prints;
  for (const Pair& pair : pairs) {
    kinds[std::minmax(pair.first, pair.second)] = pair.kind;
    prints.insert(prints.end(), {pair.first, pair.second});
  }
  std::sort(prints.begin(), prints.end());
  prints.erase(std::unique(prints.begin(), prints.end()), prints.end());
  std::vector<Group> groups;
  for (const Pair& pair : pairs) {
    const bool told = std::any_of(groups.begin(), groups.end(), [&](const Group& group) { return holds(group, pair); });
    if (!told) groups.push_back(grown(pair, prints, kinds));
  }
  std::stable_partition(groups.begin(), groups.end(),
                        [](const Group& group) { return group.kind == Pair::Kind::same; });
  return groups;
}

}  // namespace farflung::print
