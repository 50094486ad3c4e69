#include "job/arrangement_reads.hpp"

#include <algorithm>

#include "job/drop.hpp"
#include "job/open_quilt.hpp"

namespace farflung::job {
namespace {

/// The file of a quilt that has nothing but what an arrangement reads.
Report read_of(quilt::Quilt quilt) {
  const quilt::Quilt plain;
  quilt.title.clear();
  quilt.units = plain.units;
  quilt.seam_allowance = plain.seam_allowance;
  quilt.binding.reset();
  quilt.backing.reset();
  quilt.test_block.reset();
  for (block::Pattern& pattern : quilt.patterns) pattern.name.clear();
  for (print::Print& print : quilt.prints) {
    print::Print bare;
    bare.id = print.id;
    bare.upright = print.upright;
    bare.features = print.features;
    print = bare;
  }
  return Report::parse(project::text_of({quilt, nullptr}));
}

}  // namespace

std::vector<std::string> parts_arranged_otherwise(const quilt::Quilt& a, const quilt::Quilt& b) {
  const Report of_a = read_of(a), of_b = read_of(b);
  std::vector<std::string> parts;
  for (const char* part : {"prints", "patterns", "setting", "blocks", "layout", "goals", "gradation"}) {
    if (of_a.value(part, Report()) != of_b.value(part, Report())) parts.emplace_back(part);
  }
  return parts;
}

quilt::Quilt without_newcomers(quilt::Quilt later, const quilt::Quilt& before) {
  const std::vector<int> idle = idle_prints(later);
  for (std::size_t last = later.prints.size(); last > before.prints.size(); --last) {
    const bool unused = std::find(idle.begin(), idle.end(), static_cast<int>(last) - 1) != idle.end();
    if (!unused || before.print_with_id(later.prints.back().id) != quilt::kNone) break;
    later.prints.pop_back();
  }
  return later;
}

}  // namespace farflung::job
