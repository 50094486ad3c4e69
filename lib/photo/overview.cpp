#include "photo/overview.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::photo {
namespace {

const cv::Scalar kInk(20, 20, 20), kPaper(255, 255, 255);

/// A line that shows on any cloth: light, with a dark core.
void draw_line(cv::Mat& drawing, cv::Point2d from, cv::Point2d to, int thick) {
  cv::line(drawing, from, to, kPaper, 3 * thick, cv::LINE_AA);
  cv::line(drawing, from, to, kInk, thick, cv::LINE_AA);
}

void draw_side(cv::Mat& drawing, cv::Point2d from, cv::Point2d to, int thick, bool sure) {
  if (sure) return draw_line(drawing, from, to, thick);
  const double length = cv::norm(to - from);
  const int dashes = std::max(3, static_cast<int>(length / (16.0 * thick)));
  for (int i = 0; i < dashes; ++i) {
    draw_line(drawing, from + (to - from) * (i / static_cast<double>(dashes)),
              from + (to - from) * ((i + 0.55) / dashes), thick);
  }
}

void draw_label(cv::Mat& drawing, cv::Point2d centre, const std::string& text, double height) {
  const double size = height / 22.0;
  const int thick = std::max(1, static_cast<int>(std::lround(size * 2)));
  int below = 0;
  const cv::Size box = cv::getTextSize(text, cv::FONT_HERSHEY_SIMPLEX, size, thick, &below);
  const cv::Point at(cvRound(centre.x - box.width / 2.0), cvRound(centre.y + box.height / 2.0));
  const int pad = cvRound(height * 0.35);
  cv::rectangle(drawing, {at.x - pad, at.y - box.height - pad}, {at.x + box.width + pad, at.y + pad}, kPaper,
                cv::FILLED);
  cv::rectangle(drawing, {at.x - pad, at.y - box.height - pad}, {at.x + box.width + pad, at.y + pad}, kInk, 1);
  cv::putText(drawing, text, at, cv::FONT_HERSHEY_SIMPLEX, size, kInk, thick, cv::LINE_AA);
}

}  // namespace

Picture overview(const Picture& picture, const std::vector<Mark>& marks, int longest) {
  const double shrink = std::min(1.0, static_cast<double>(longest) / std::max(picture.columns, picture.rows));
  cv::Mat drawing;
  cv::resize(view(picture), drawing, {}, shrink, shrink, cv::INTER_AREA);
  const int thick = std::max(1, std::max(drawing.cols, drawing.rows) / 700);
  for (const Mark& mark : marks) {
    cv::Point2d corner[4], centre(0, 0);
    for (int i = 0; i < 4; ++i) {
      corner[i] = {mark.corners[i][0] * shrink - 0.5, mark.corners[i][1] * shrink - 0.5};
      centre += corner[i] / 4;
    }
    for (int i = 0; i < 4; ++i) draw_side(drawing, corner[i], corner[(i + 1) % 4], thick, mark.sure);
    const double height = std::clamp(cv::norm(corner[0] - corner[3]) / 7, 10.0, 36.0);
    draw_label(drawing, centre, mark.sure ? mark.code : mark.code + "?", height);
  }
  return picture_from(drawing);
}

}  // namespace farflung::photo
