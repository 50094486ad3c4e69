// Which way the edges of a print run.
#pragma once

#include <vector>

#include <opencv2/core.hpp>

namespace farflung::extract {

/// Which way edges run, and how nearly all of them do: 1 where all do, 0 where they run every way alike.
struct Run {
  double degrees = 0, coherence = 0;
};

/// The structure tensor at every pixel (Bigun and Granlund 1987), the channels together. CV_32F.
struct Tensor {
  cv::Mat xx, xy, yy;
};
Tensor tensor_of(const std::vector<cv::Mat>& channels);

/// Of all pixels but `rim` of them all round.
Run run_of(const Tensor& tensor, int rim = 2);

/// Which way edges run in each place: cosine and sine of the angle, doubled, as far as they run one way there. A third
/// of the tensor's size. A herringbone, whose bands run one way and the other by turns, is a stripe in these.
std::vector<cv::Mat> ways_of(const Tensor& tensor);

}  // namespace farflung::extract
