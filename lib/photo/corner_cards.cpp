#include "photo/corner_cards.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/aruco.hpp>
#include <opencv2/imgproc.hpp>

#include "photo/mat.hpp"

namespace farflung::photo {
namespace {

constexpr int kCells = 7;

cv::Ptr<cv::aruco::Dictionary> dictionary() { return cv::aruco::getPredefinedDictionary(cv::aruco::DICT_5X5_50); }

std::array<CornerCard, 4> drawn_up() {
  constexpr double kBefore = -kCornerWhite - kCornerMark;
  std::array<CornerCard, 4> cards = {CornerCard{0, kBefore, kBefore, {}},
                                     {1, kCornerWhite, kBefore, {}},
                                     {2, kCornerWhite, kCornerWhite, {}},
                                     {3, kBefore, kCornerWhite, {}}};
  for (CornerCard& card : cards) {
    cv::Mat cells;
    cv::aruco::drawMarker(dictionary(), card.id, kCells, cells, 1);
    for (int row = 0; row < kCells; ++row) {
      card.black.emplace_back();
      for (int column = 0; column < kCells; ++column)
        card.black.back().push_back(cells.at<std::uint8_t>(row, column) < 128);
    }
  }
  return cards;
}

/// From the mark's own outline, which `seen` gives clockwise from its top left.
CardSeen card_from(const CornerCard& card, const std::vector<cv::Point2f>& seen) {
  const auto left = static_cast<float>(card.left), top = static_cast<float>(card.top);
  const auto side = static_cast<float>(kCornerMark), white = static_cast<float>(kCornerWhite);
  const cv::Point2f mark[4] = {{left, top}, {left + side, top}, {left + side, top + side}, {left, top + side}};
  const cv::Mat photo_from_card = cv::getPerspectiveTransform(mark, seen.data());
  const std::vector<cv::Point2f> wanted = {{0, 0},
                                           {left - white, top - white},
                                           {left + side + white, top - white},
                                           {left + side + white, top + side + white},
                                           {left - white, top + side + white}};
  std::vector<cv::Point2f> found;
  cv::perspectiveTransform(wanted, found, photo_from_card);
  CardSeen here;
  // OpenCV counts from the middle of the first pixel, we from its corner.
  here.tip = {found[0].x + 0.5, found[0].y + 0.5};
  for (std::size_t k = 0; k < 4; ++k) here.card[k] = {found[k + 1].x + 0.5, found[k + 1].y + 0.5};
  return here;
}

cv::Point2d point(const std::array<double, 2>& p) { return {p[0], p[1]}; }

/// Whether cards at three corners or four lie as they must: going round, each turns the same way, as each mark does.
bool lie_as_corners(const std::array<std::optional<CardSeen>, 4>& cards) {
  std::vector<cv::Point2d> tips;
  for (const auto& card : cards) {
    if (card) tips.push_back(point(card->tip));
  }
  if (tips.size() < 3) return false;
  for (std::size_t i = 0; i < tips.size(); ++i) {
    const cv::Point2d one = tips[(i + 1) % tips.size()] - tips[i];
    const cv::Point2d next = tips[(i + 2) % tips.size()] - tips[(i + 1) % tips.size()];
    const double lengths = std::hypot(one.x, one.y) * std::hypot(next.x, next.y);
    if (one.x * next.y - one.y * next.x < 0.15 * lengths) return false;
  }
  // Neighbours along the top or bottom see their marks' tops run the way from one to the other; likewise down the
  // sides.
  constexpr double kAlong = 0.8;  // the cosine of the most that slant and a crooked pin can make
  for (std::size_t k = 0; k < 4; ++k) {
    const std::size_t next = (k + 1) % 4;
    if (!cards[k] || !cards[next]) continue;
    const cv::Point2d way = point(cards[next]->tip) - point(cards[k]->tip);
    for (const std::size_t which : {k, next}) {
      const cv::Point2d side = point(cards[which]->card[next]) - point(cards[which]->card[k]);
      if (way.dot(side) < kAlong * std::hypot(way.x, way.y) * std::hypot(side.x, side.y)) return false;
    }
  }
  return true;
}

}  // namespace

const std::array<CornerCard, 4>& corner_cards() {
  static const std::array<CornerCard, 4> cards = drawn_up();
  return cards;
}

std::array<std::optional<CardSeen>, 4> find_corner_cards(const Picture& picture) {
  cv::Mat grey;
  cv::cvtColor(view(picture), grey, cv::COLOR_RGB2GRAY);
  const auto how = cv::aruco::DetectorParameters::create();
  how->cornerRefinementMethod = cv::aruco::CORNER_REFINE_SUBPIX;
  how->cornerRefinementWinSize = 3;
  // A wall of prints is full of outlines: none smaller than a mark can be read, none larger than a block.
  how->minMarkerPerimeterRate = std::min(0.03, 80.0 / std::max(picture.columns, picture.rows));
  how->maxMarkerPerimeterRate = 1;
  std::vector<std::vector<cv::Point2f>> found;
  std::vector<int> ids;
  cv::aruco::detectMarkers(grey, dictionary(), found, ids, how);
  std::array<std::optional<CardSeen>, 4> cards;
  for (std::size_t i = 0; i < ids.size(); ++i) {
    if (ids[i] >= 0 && ids[i] < 4) cards[ids[i]] = card_from(corner_cards()[ids[i]], found[i]);
  }
  if (!lie_as_corners(cards)) return {};
  return cards;
}

}  // namespace farflung::photo
