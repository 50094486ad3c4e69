#include "job/wall_pictures.hpp"

#include <filesystem>

#include "render/render.hpp"
#include "sheet/overview.hpp"
#include "sheet/sheets.hpp"

namespace farflung::job {
namespace {

constexpr int kWidth = 1600;

/// With the names of rows and places around it: a mark that says "to R5 C2" is no use to who must count for it.
draw::Display named(const MarkedTop& top) {
  constexpr double kAcross = 560, kRound = 36;  // points, as on paper; the names and air around them
  draw::Display display;
  display.width = kAcross;
  display.height = 2 * kRound + (kAcross - 2 * kRound) * top.plan.height.inches() / top.plan.width.inches();
  const sheet::Book book{top.quilt, top.plan, top.paper, top.marks};
  sheet::add_named_top(display, book, draw::Box{0, 0, display.width, display.height}.inset(8));
  return display;
}

Result<std::string> picture_of(const MarkedTop& top, bool svg) {
  const draw::Display display = named(top);
  return svg ? render::svg(display, top.swatches, kWidth) : render::png(display, top.swatches, kWidth);
}

}  // namespace

Result<Done> write_marked(const MarkedTop& top, const std::string& file, bool force) {
  std::string ending = std::filesystem::path(file).extension().string();
  for (char& c : ending) c = static_cast<char>(std::tolower(static_cast<unsigned char>(c)));
  const Result<std::string> bytes = ending == ".pdf"
                                        ? sheet::pdf_of(top.quilt, top.swatches, {top.paper, {"map"}, top.marks})
                                        : picture_of(top, ending == ".svg");
  if (!bytes) return bytes.problems();
  return write_output(file, *bytes, force);
}

}  // namespace farflung::job
