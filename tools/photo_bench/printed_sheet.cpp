#include "photo_bench/printed_sheet.hpp"

#include "photo/reference_sheet.hpp"

namespace farflung::photo_bench {

simulator::Paper printed_sheet(Seed seed) {
  std::vector<cv::Rect2d> black;
  for (const photo::SheetBox& box : photo::sheet_plan().black()) {
    black.emplace_back(box.left, box.top, box.width, box.height);
  }
  return simulator::page_of_boxes(black, {}, 8.5, 11, simulator::stationery(seed));
}

}  // namespace farflung::photo_bench
