#include "job/wall_pictures.hpp"

#include <filesystem>

#include "draw/top.hpp"
#include "render/render.hpp"
#include "sheet/sheets.hpp"

namespace farflung::job {
namespace {

constexpr int kWidth = 1600;

Result<std::string> picture_of(const MarkedTop& top, bool svg) {
  draw::Top drawn = draw::top_of(top.quilt, top.plan, draw::pinned_up(top.plan));
  draw::add_cell_marks(drawn.display, top.plan, drawn.corner, 1, top.marks);
  return svg ? render::svg(drawn.display, top.swatches, kWidth) : render::png(drawn.display, top.swatches, kWidth);
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
