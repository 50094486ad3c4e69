#include "photo/find.hpp"

#include <algorithm>
#include <array>
#include <cmath>
#include <optional>

#include <opencv2/imgproc.hpp>

#include "base/median.hpp"
#include "photo/companions.hpp"
#include "photo/mat.hpp"
#include "photo/one_print.hpp"
#include "photo/pieces.hpp"
#include "photo/region.hpp"
#include "photo/strips.hpp"
#include "photo/surface.hpp"
#include "photo/told.hpp"

namespace farflung::photo {
namespace {

constexpr int kMaskSide = 1400;          ///< the longer side of the picture in which cloth is told from surface
constexpr int kSurfaceSide = 700;        ///< the same, in which the surface itself is told: it changes slowly
constexpr double kAtRim = 0.003;         ///< of the longer side: nearer the rim, a corner may well lie beyond it
constexpr double kExplained = 0.7;       ///< of what is not surface, that pieces must cover to be believed
constexpr double kLeastExplained = 0.2;  ///< the same, where one of them is sure
constexpr double kSliver = 0.2;          ///< of the usual area, that a strip among other cloths covers
constexpr double kOfSurface = 0.25;  ///< of the usual area, that a part of the surface covers that seems to be cloth
constexpr double kMostTaper = 3;     ///< of a side over the opposite one: no slant makes a cut of cloth taper so

Corners corners_of(const Quad& quad) {
  Corners corners;
  for (int i = 0; i < 4; ++i) corners[i] = {quad[i].x + 0.5, quad[i].y + 0.5};
  return corners;
}

Quad quad_of(const Corners& corners) {
  Quad quad;
  for (int i = 0; i < 4; ++i) quad[i] = {corners[i][0] - 0.5, corners[i][1] - 0.5};
  return quad;
}

/// How many of a quad's corners lie on or beyond the rim of the picture.
int corners_at_rim(const Quad& quad, cv::Size size) {
  const double rim = 2 + kAtRim * std::max(size.width, size.height);
  int count = 0;
  for (const cv::Point2d& p : quad) {
    count += p.x < rim || p.y < rim || p.x > size.width - 1 - rim || p.y > size.height - 1 - rim;
  }
  return count;
}

bool tapers(const Quad& quad) {
  std::array<double, 4> sides{};
  for (int i = 0; i < 4; ++i) sides[i] = cv::norm(quad[(i + 1) % 4] - quad[i]);
  const auto over = [&](int i) {
    return std::max(sides[i], sides[i + 2]) / std::max(1e-9, std::min(sides[i], sides[i + 2]));
  };
  return std::max(over(0), over(1)) > kMostTaper;
}

double best_sureness(const std::vector<Found>& cloths) {
  double best = 0;
  for (const Found& found : cloths) best = std::max(best, found.sureness);
  return best;
}

double area_of(const Found& found) { return std::abs(area(quad_of(found.corners))); }

/// Whether all of a cloth might be the surface itself, darker.
bool may_be_surface(const Found& found, const Ground& ground) {
  constexpr int kCount = 24;
  constexpr double kRim = 0.1, kMostUnlike = 0.1;
  const std::vector<cv::Point2d> places = spread_over(quad_of(found.corners), kCount, kRim);
  const auto unlike =
      std::count_if(places.begin(), places.end(), [&](cv::Point2d p) { return ground.unlike_at(p) > kUnlike; });
  return static_cast<double>(unlike) < kMostUnlike * static_cast<double>(places.size());
}

/// The area that is usual among cloths that are sure: those told by more than shade where there are any, and no strips.
std::optional<double> usual_area(const std::vector<Found>& cloths, const Ground& ground) {
  std::array<std::vector<double>, 4> areas;
  for (const Found& found : cloths) {
    if (found.sureness < kSure) continue;
    const int rank = 2 * may_be_surface(found, ground) + is_strip(quad_of(found.corners));
    areas[rank].push_back(area_of(found));
  }
  const auto first = std::find_if(areas.begin(), areas.end(), [](const auto& of_rank) { return !of_rank.empty(); });
  if (first == areas.end()) return {};
  return median(*first);
}

/// A finger or a blade at the rim of the picture is no cloth: doubtful, cut off by the rim, and much smaller than the
/// cloths that are sure. Nor is a sliver, as between the grain of a board, nor such a part of the surface as its darker
/// grain or a square that is ruled on it.
void drop_strays(std::vector<Found>& cloths, const Ground& ground) {
  const std::optional<double> among = usual_area(cloths, ground);
  if (!among) return;
  const double usual = *among;
  std::erase_if(cloths, [&](const Found& found) {
    if (area_of(found) < kSliver * usual && is_strip(quad_of(found.corners))) return true;
    if (area_of(found) < kOfSurface * usual && may_be_surface(found, ground)) return true;
    return found.sureness < kSure && area_of(found) < (found.cut_off ? 0.5 : 0.12) * usual;
  });
}

/// `rgb` with its longer side at most `side`, a half and more of what it was.
cv::Mat shrunk_to(const cv::Mat& rgb, int side, cv::InterpolationFlags how) {
  const double shrink = std::min(1.0, static_cast<double>(side) / std::max(rgb.cols, rgb.rows));
  if (shrink == 1) return rgb;
  cv::Mat small;
  cv::resize(rgb, small, {}, shrink, shrink, how);
  return small;
}

/// Whether a plain colour is that of cloth. Tables are grey, which the sky makes blue and a lamp yellow to orange, or
/// of wood.
bool is_of_cloth(const cv::Vec3f& lab) {
  constexpr double kColoured = 9, kBeyondSky = 15, kBeyondLamps = 45;  // chroma
  const double chroma = std::hypot(lab[1], lab[2]);
  const double hue = std::atan2(lab[2], lab[1]) * 180 / CV_PI;  // -180..180
  if (hue > 35 && hue < 115) return chroma > kBeyondLamps;
  if (hue > -130 && hue < -60) return chroma > kBeyondSky;
  return chroma > kColoured;
}

cv::Vec3f mean_colour(const cv::Mat& lab) {
  const cv::Scalar mean = cv::mean(lab);
  return {static_cast<float>(mean[0]), static_cast<float>(mean[1]), static_cast<float>(mean[2])};
}

class Finder {
 public:
  Finder(const cv::Mat& rgb, const Known& known) : taken_up_(known.taken_up) {
    if (known.picture_from_table) {
      // A pixel's middle is a whole number here, and half a pixel from its corner there.
      const cv::Matx33d corner_from_middle(1, 0, 0.5, 0, 1, 0.5, 0, 0, 1);
      ground_.table_from_photo = cv::Matx33d(known.picture_from_table->data()).inv() * corner_from_middle;
    }
    cv::GaussianBlur(rgb, smooth_, {3, 3}, 0.7);
    small_ = shrunk_to(smooth_, kMaskSide, cv::INTER_AREA);
    // Every so-many-th pixel alone: the surface's grain stays as it is.
    surface_ = fit_surface(lab_of(shrunk_to(small_, kSurfaceSide, cv::INTER_NEAREST)));
    lit_ = lit_from(rgb, surface_);
    full_from_small_ = static_cast<double>(smooth_.cols) / small_.cols;
  }

  Findings found() {
    Findings findings;
    if (surface_.rim_share > 0.45) findings.cloths = on_surface();
    findings.pieces = pieces_;
    const bool any_sure =
        explained_ > kLeastExplained && std::any_of(findings.cloths.begin(), findings.cloths.end(),
                                                    [](const Found& found) { return found.sureness >= kSure; });
    // Motifs of one print that fills the frame are no pieces of cloth: most are no rectangles, and a leaf or two that
    // are leave all others unexplained.
    const bool believed =
        explained_ > kExplained && (best_sureness(findings.cloths) > 0.5 || surface_.rim_share > 0.97);
    if (!any_sure && !believed) findings.cloths.clear();
    if (findings.cloths.empty()) {
      if (auto whole = filling_frame()) {
        findings.cloths.push_back(*whole);
      } else if (is_even()) {
        findings.nothing = "nothing but one plain colour is seen, as of an empty table";
      } else {
        findings.nothing = "no cloth can be told from the surface";
      }
    }
    if (surface_.rim_share > 0.6 && (findings.cloths.empty() || !findings.cloths[0].whole)) {
      findings.surface = surface_seen();
    }
    return findings;
  }

 private:
  SurfaceSeen surface_seen() const {
    constexpr int kColumns = 33, kRows = 25;
    const cv::Mat& bare = surface_.expected;
    SurfaceSeen seen;
    seen.backdrop = {kColumns, kRows, {}};
    for (int i = 0; i < kColumns * kRows; ++i) {
      const cv::Vec3f lab = bare.at<cv::Vec3f>(i / kColumns * (bare.rows - 1) / (kRows - 1),
                                               i % kColumns * (bare.cols - 1) / (kColumns - 1));
      const colour::Light light = colour::light_from_lab({lab[0], lab[1], lab[2]});
      const double l[3] = {light.r, light.g, light.b};
      std::array<float, 3> encoded{};
      for (std::size_t c = 0; c < 3; ++c) encoded[c] = static_cast<float>(std::clamp(colour::encoded(l[c]), 0.0, 1.0));
      seen.backdrop.values.push_back(encoded);
    }
    const cv::Vec3f middle = surface_colour();
    seen.pale = middle[0] > 0.78F * brightest() && std::hypot(middle[1], middle[2]) < 0.35F * middle[0];
    return seen;
  }

  /// L* of the brightest hundredth of the picture.
  float brightest() const {
    std::vector<float> values;
    const LabTable& table = LabTable::get();
    for (int row = 0; row < small_.rows; row += 8) {
      for (int column = 0; column < small_.cols; column += 8)
        values.push_back(table.lab(small_.at<cv::Vec3b>(row, column))[0]);
    }
    const auto place = values.begin() + static_cast<std::ptrdiff_t>(values.size() * 99 / 100);
    std::nth_element(values.begin(), place, values.end());
    return *place;
  }

  std::vector<Found> on_surface() {
    Told told = told_from(small_, surface_, 12 / full_from_small_);
    leave_out(told);
    bare_ = told.cloth == 0;
    ground_ = {smooth_, told.unlike, surface_, lit_, ground_.table_from_photo};
    const Pieces pieces = pieces_in(told, small_, ground_);
    explained_ = pieces.explained;
    for (const Piece& piece : pieces.all) pieces_.push_back(corners_of(piece.outline.quad));
    std::vector<Found> cloths;
    for (const Piece& piece : with_companions(pieces.all, ground_)) {
      if (const auto found = judged(piece)) cloths.push_back(*found);
    }
    drop_strays(cloths, ground_);
    if (of_one_print(cloths)) cloths.clear();
    return cloths;
  }

  bool of_one_print(const std::vector<Found>& cloths) const {
    std::vector<Quad> quads;
    quads.reserve(cloths.size());
    for (const Found& found : cloths) quads.push_back(scaled(quad_of(found.corners), 1 / full_from_small_));
    return are_of_one_print(quads, small_, surface_);
  }

  /// What is taken up by something that is known is no cloth.
  void leave_out(Told& told) const {
    if (!taken_up_) return;
    std::vector<cv::Point> outline;
    for (const auto& [x, y] : *taken_up_)
      outline.emplace_back(cvRound(x / full_from_small_), cvRound(y / full_from_small_));
    cv::fillConvexPoly(told.cloth, outline, 0);
    cv::fillConvexPoly(told.unlike, outline, 0);
  }

  std::optional<Found> judged(const Piece& piece) {
    const Outline& outline = piece.outline;
    Found found{corners_of(outline.quad), outline.depth, sureness(piece), "", false};
    const int cut = corners_at_rim(outline.quad, smooth_.size());
    if (cut > 2 || (cut == 0 && tapers(outline.quad))) return {};
    if (cut > 0) {
      found.sureness = std::min(found.sureness, 0.5);
      found.cut_off = true;
      found.doubt = "the cloth reaches beyond the photograph";
    } else if (found.sureness < kSure) {
      found.doubt = "its outline is not clear all the way round";
    }
    return found;
  }

  /// No rectangle stands on a surface: then everything is cloth, if anything is.
  std::optional<Found> filling_frame() {
    constexpr double kLight = 0.6, kColour = 1.5;  // dE, from what is usual round a place
    const cv::Mat lab = lab_of(small_);
    cv::Mat smooth;
    cv::GaussianBlur(lab, smooth, {}, lab.cols / 40.0);
    const cv::Mat detail = cv::abs(lab - smooth);
    constexpr int kParts = 4;
    int alive = 0;
    for (int i = 0; i < kParts * kParts; ++i) {
      const cv::Rect part(i % kParts * lab.cols / kParts, i / kParts * lab.rows / kParts, lab.cols / kParts,
                          lab.rows / kParts);
      const cv::Scalar mean = cv::mean(detail(part));
      alive += mean[0] > kLight || mean[1] + mean[2] > kColour;
    }
    Found found{whole_quad(), 0, 1, "", false, true};
    if (alive <= kParts * kParts / 2) {
      if (!is_of_cloth(mean_colour(lab))) return {};
      found.sureness = 0.5;
      found.doubt = "little but one plain colour is seen: taken as plain cloth that fills the frame";
      return found;
    }
    if (surface_.rim_share > 0.8 || (surface_.rim_share > 0.45 && (surface_.noise < 0.6 || lies_bare()))) {
      found.sureness = 0.5;
      found.doubt =
          "no whole outline of cloth is seen: taken as one cloth that fills the frame, which is right if it was "
          "photographed so";
    }
    return found;
  }

  /// Whether nothing at all stands out from one surface.
  bool is_even() const {
    constexpr double kSpecks = 0.002;  // of the picture
    return surface_.rim_share > 0.97 && pieces_.empty() && !bare_.empty() &&
           cv::countNonZero(bare_ == 0) <= kSpecks * static_cast<double>(bare_.total());
  }

  cv::Vec3f surface_colour() const {
    return surface_.expected.at<cv::Vec3f>(surface_.expected.rows / 2, surface_.expected.cols / 2);
  }

  /// Whether surface lies bare at the rim more broadly than the ground of a print does between its motifs.
  bool lies_bare() const {
    constexpr double kBroad = 0.08, kLeast = 0.1;  // of the picture's longer side; of the picture
    const int width = 2 * static_cast<int>(kBroad * std::max(small_.cols, small_.rows) / 2) + 1;
    cv::Mat bare;
    cv::morphologyEx(bare_, bare, cv::MORPH_OPEN, cv::getStructuringElement(cv::MORPH_RECT, {width, width}));
    return cv::countNonZero(bare) > kLeast * static_cast<double>(bare.total());
  }

  Corners whole_quad() const { return whole(smooth_.cols, smooth_.rows); }

  std::optional<Corners> taken_up_;
  cv::Mat smooth_, small_;  ///< CV_8UC3
  cv::Mat bare_;            ///< CV_8U, where no cloth is, once it was looked for on a surface
  Surface surface_;
  Lit lit_;
  Ground ground_;
  std::vector<Corners> pieces_;
  double full_from_small_ = 1;
  double explained_ = 0;  ///< share of what is not surface that lies in the pieces found
};

}  // namespace

std::vector<std::size_t> reading_order(const std::vector<Corners>& pieces) {
  struct Place {
    std::size_t index;
    double x, y, height;
  };
  std::vector<double> tilts;
  tilts.reserve(pieces.size());
  for (const Corners& c : pieces) tilts.push_back(std::atan2(c[1][1] - c[0][1], c[1][0] - c[0][0]));
  std::sort(tilts.begin(), tilts.end());
  const double tilt = tilts.empty() ? 0 : tilts[tilts.size() / 2];
  const double cosine = std::cos(tilt), sine = std::sin(tilt);
  std::vector<Place> places;
  for (std::size_t i = 0; i < pieces.size(); ++i) {
    double x = 0, y = 0, low = 1e18, high = -1e18;
    for (const auto& p : pieces[i]) {
      const double v = p[1] * cosine - p[0] * sine;
      x += (p[0] * cosine + p[1] * sine) / 4, y += v / 4;
      low = std::min(low, v), high = std::max(high, v);
    }
    places.push_back({i, x, y, high - low});
  }
  std::sort(places.begin(), places.end(), [](const Place& a, const Place& b) { return a.y < b.y; });
  std::vector<std::size_t> order;
  for (std::size_t first = 0; first < places.size();) {
    std::size_t last = first;
    double mean = places[first].y;
    while (last + 1 < places.size() && places[last + 1].y - mean < 0.5 * places[first].height) {
      ++last;
      mean += (places[last].y - mean) / static_cast<double>(last - first + 1);
    }
    std::sort(places.begin() + first, places.begin() + last + 1,
              [](const Place& a, const Place& b) { return a.x < b.x; });
    for (std::size_t i = first; i <= last; ++i) order.push_back(places[i].index);
    first = last + 1;
  }
  return order;
}

Findings find_cloths(const Picture& picture, const Known& known) {
  Findings findings = Finder(view(picture), known).found();
  std::vector<Corners> corners;
  for (const Found& found : findings.cloths) corners.push_back(found.corners);
  std::vector<Found> ordered;
  for (const std::size_t i : reading_order(corners)) ordered.push_back(findings.cloths[i]);
  findings.cloths = ordered;
  return findings;
}

}  // namespace farflung::photo
