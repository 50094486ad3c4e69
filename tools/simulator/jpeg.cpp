#include "simulator/jpeg.hpp"

#include <opencv2/imgproc.hpp>

#ifdef FARFLUNG_HAS_CODECS
#include <opencv2/imgcodecs.hpp>
#endif

#include "simulator/photographer.hpp"

namespace farflung::simulator {

cv::Mat through_jpeg(const cv::Mat& srgb, int quality) {
#ifdef FARFLUNG_HAS_CODECS
  cv::Mat read;
  cv::cvtColor(cv::imdecode(jpeg_of(srgb, quality), cv::IMREAD_COLOR), read, cv::COLOR_BGR2RGB);
  return read;
#else
  (void)quality;
  return srgb;
#endif
}

}  // namespace farflung::simulator
