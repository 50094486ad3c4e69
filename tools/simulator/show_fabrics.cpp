// Draws fabrics as they lie on the table, for judging by eye: show_fabrics OUT.png [SEED [COUNT [PIXELS_PER_INCH]]]
#include <cstdio>
#include <cstdlib>

#include <opencv2/imgcodecs.hpp>
#include <opencv2/imgproc.hpp>

#include "simulator/demo.hpp"
#include "simulator/fabric.hpp"
#include "simulator/light.hpp"

int main(int count_of_words, char** words) {
  using namespace farflung;
  using namespace farflung::simulator;
  if (count_of_words < 2) {
    std::fprintf(stderr, "show_fabrics OUT.png [SEED [COUNT [PIXELS_PER_INCH]]]; seed 0 shows the demo's prints\n");
    return 2;
  }
  const auto seed = static_cast<std::uint64_t>(count_of_words > 2 ? std::atoll(words[2]) : 0);
  const int count = count_of_words > 3 ? std::atoi(words[3]) : 24;
  const double per_inch = count_of_words > 4 ? std::atof(words[4]) : 60;
  const std::vector<Fabric> fabrics = seed == 0 ? demo_fabrics() : bundle(count, Seed{seed});

  constexpr int kAcross = 5, kSide = 330, kGap = 10;
  const int down = (static_cast<int>(fabrics.size()) + kAcross - 1) / kAcross;
  cv::Mat sheet(down * (kSide + 26 + kGap), kAcross * (kSide + kGap), CV_8UC3, cv::Scalar::all(235));
  for (std::size_t i = 0; i < fabrics.size(); ++i) {
    const double inches = kSide / per_inch;
    cv::Mat piece;
    cv::resize(cut(fabrics[i], {0, 0, inches, inches}, per_inch), piece, {kSide, kSide});
    const int x = static_cast<int>(i) % kAcross * (kSide + kGap),
              y = static_cast<int>(i) / kAcross * (kSide + 26 + kGap);
    srgb_picture(piece).copyTo(sheet(cv::Rect(x, y, kSide, kSide)));
    const colour::Lab lab = lab_of(mean_light(piece));
    char text[120];
    std::snprintf(text, sizeof text, "%s (%s) L%.0f a%.0f b%.0f", fabrics[i].name.c_str(), fabrics[i].design.c_str(),
                  lab.L, lab.a, lab.b);
    cv::putText(sheet, text, {x, y + kSide + 16}, cv::FONT_HERSHEY_SIMPLEX, 0.42, {0, 0, 0}, 1, cv::LINE_AA);
  }
  cv::cvtColor(sheet, sheet, cv::COLOR_RGB2BGR);
  return cv::imwrite(words[1], sheet) ? 0 : 1;
}
