#include "photo/lab_table.hpp"

#include "colour/srgb.hpp"

namespace farflung::photo {

LabTable::LabTable() {
  for (std::size_t i = 0; i < light_.size(); ++i)
    light_[i] = static_cast<float>(colour::decoded(static_cast<std::uint8_t>(i)));
  for (std::size_t i = 0; i < root_.size(); ++i) {
    const double Y = static_cast<double>(i) / kSteps;
    root_[i] = static_cast<float>((colour::lab_from_xyz({Y * colour::kD65.X, Y, Y * colour::kD65.Z}).L + 16) / 116);
  }
}

const LabTable& LabTable::get() {
  static const LabTable table;
  return table;
}

cv::Mat lab_of(const cv::Mat& rgb) {
  const LabTable& table = LabTable::get();
  cv::Mat lab(rgb.size(), CV_32FC3);
  for (int row = 0; row < rgb.rows; ++row) {
    const auto* from = rgb.ptr<cv::Vec3b>(row);
    auto* to = lab.ptr<cv::Vec3f>(row);
    for (int column = 0; column < rgb.cols; ++column) to[column] = table.lab(from[column]);
  }
  return lab;
}

}  // namespace farflung::photo
