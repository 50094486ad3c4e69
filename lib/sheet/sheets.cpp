#include "sheet/sheets.hpp"

#include <algorithm>

#include "base/typed_name.hpp"
#include "sheet/cards.hpp"
#include "sheet/cover.hpp"
#include "sheet/cutting.hpp"
#include "sheet/finishing.hpp"
#include "sheet/key.hpp"
#include "sheet/log.hpp"
#include "sheet/map.hpp"
#include "sheet/pdf.hpp"
#include "sheet/piecing.hpp"
#include "sheet/rows.hpp"
#include "sheet/shopping.hpp"
#include "sheet/slip.hpp"
#include "sheet/templates.hpp"

namespace farflung::sheet {
namespace {

constexpr Kind kKinds[] = {
    {"cover", "the finished quilt, its size, what it is made of", cover},
    {"key", "the key of prints: code, name, swatch, how many", key_of_prints},
    {"shopping", "what to buy, with the working", shopping_list, true},
    {"cutting", "the cut list, and plans drawn to scale for each print", cutting, true},
    {"templates", "templates at true scale for triangles and odd shapes", templates},
    {"piecing", "units drawn step by step, and the chains by pairs of prints", piecing, true},
    {"map", "the placement map: which block hangs where", placement_map},
    {"cards", "names of rows and places, to hang along the wall", wall_cards},
    {"corners", "cards to pin at the wall's corners, so that a photograph shows where it is", corner_marks},
    {"labels", "a label to pin on each block", block_labels},
    {"snips", "cards on which to glue a snip of each print", snip_cards},
    {"pressing", "which blocks are pressed as drawn, which the other way", pressing, true},
    {"rows", "each row's stack, which edges are sewn, how rows are joined", sewing_rows, true},
    {"finishing", "borders, backing, batting, binding, hanging sleeve", finishing, true},
    {"kits", "packing list and bag labels, where kits are asked for", kit_pages, true},
    {"slip", "what the quilter needs to know who quilts it", quilting_slip, true},
    {"cautions", "rotary cutters, irons, infants, textiles for sale", cautions_page, true},
    {"log", "every block, row and step, to tick", work_log},
};

std::string names() {
  std::string result;
  for (const Kind& kind : kKinds) result += (result.empty() ? "" : ", ") + std::string(kind.name);
  return result;
}

Problems problems_of(const Order& order) {
  Problems problems;
  for (const std::string& name : order.only) {
    const bool known = std::any_of(std::begin(kKinds), std::end(kKinds),
                                   [&](const Kind& kind) { return plain_name(name) == kind.name; });
    if (!known) problems.push_back(input_problem("sheets", "\"" + name + "\" is no sheet", "choose from " + names()));
  }
  return problems;
}

}  // namespace

std::span<const Kind> kinds() { return kKinds; }

Result<std::vector<Page>> sheaf_of(const quilt::Quilt& quilt, const Order& order) {
  if (Problems found = problems_of(order); !found.empty()) return found;
  Book book{quilt, quilt::plan_of(quilt), order.paper, order.marks};
  book.left_handed = order.left_handed;
  std::vector<Page> pages;
  for (const Kind& kind : kKinds) {
    const bool asked =
        order.only.empty() || std::any_of(order.only.begin(), order.only.end(),
                                          [&](const std::string& name) { return plain_name(name) == kind.name; });
    if (!asked) continue;
    if (kind.workroom && !book.workroom) {
      book.workroom = std::make_shared<const cloth::Workroom>(cloth::workroom_of(quilt, order.workroom));
    }
    for (Page& page : kind.make(book)) pages.push_back(std::move(page));
  }
  if (pages.empty()) return input_problem("sheets", "this quilt gives nothing to print on the sheets asked for");
  number_pages(book, pages);
  return pages;
}

Result<std::vector<Page>> pages_of(const quilt::Quilt& quilt, const Order& order) {
  Result<std::vector<Page>> pages = sheaf_of(quilt, order);
  if (!pages) return pages;
  for (Page& page : *pages) {
    if (!page.late) continue;
    page.display = page.late();
    page.late = nullptr;
  }
  return pages;
}

Result<std::string> pdf_of(const quilt::Quilt& quilt, const draw::Swatches& swatches, const Order& order) {
  const auto pages = sheaf_of(quilt, order);
  if (!pages) return pages.problems();
  return pdf(*pages, swatches, quilt.title);
}

}  // namespace farflung::sheet
