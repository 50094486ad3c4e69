#include "photo/take.hpp"

#include <algorithm>
#include <cmath>

#include <opencv2/core.hpp>

#include "photo/overview.hpp"
#include "photo/rectify.hpp"

namespace farflung::photo {
namespace {

std::vector<Found> told(const Photograph& photograph, const TakeOptions& options) {
  std::vector<Found> cloths;
  if (options.whole)
    cloths.push_back({whole(photograph.picture.columns, photograph.picture.rows), 0, 1, "", false, true});
  for (const Corners& corners : options.corners) {
    cloths.push_back({scaled(corners, 1 / photograph.full_from_picture()), 0, 1, "", false});
  }
  return cloths;
}

std::array<double, 2> middle(const Corners& corners) {
  std::array<double, 2> sum{};
  for (const auto& p : corners) sum[0] += p[0] / 4, sum[1] += p[1] / 4;
  return sum;
}

bool inside(const Corners& outline, const std::array<double, 2>& p) {
  for (std::size_t i = 0; i < 4; ++i) {
    const auto &a = outline[i], &b = outline[(i + 1) % 4];
    if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) < 0) return false;
  }
  return true;
}

Corners corners_of(const SheetSeen& sheet, const SheetBox& box) {
  const double right = box.left + box.width, below = box.top + box.height;
  return {sheet.picture(box.left, box.top), sheet.picture(right, box.top), sheet.picture(right, below),
          sheet.picture(box.left, below)};
}

/// The sheet's paper as a picture shows it.
class SheetPaper {
 public:
  SheetPaper(const Picture& picture, const SheetSeen& sheet)
      : picture_(&picture), sheet_(&sheet), white_(sheet_colours(picture, sheet).known) {}

  /// How much of a part of the sheet looks like its paper, or like paper with words on it.
  double share(const SheetBox& box, bool worded) const {
    constexpr int kSteps = 24;
    constexpr double kPastStroke = 0.06;  // inches: from the middle of a letter's stroke
    if (white_.empty()) return 1;
    int bare = 0;
    for (int i = 0; i < kSteps * kSteps; ++i) {
      const int column = i % kSteps, row = i / kSteps;
      const double across = box.left + box.width * (column + 0.5) / kSteps;
      const double down = box.top + box.height * (row + 0.5) / kSteps;
      bool shows = is_paper(across, down);
      for (const double by : {-kPastStroke, kPastStroke}) {
        shows = shows || (worded && (is_paper(across + by, down) || is_paper(across, down + by)));
      }
      bare += shows;
    }
    return static_cast<double>(bare) / (kSteps * kSteps);
  }

 private:
  bool is_paper(double across, double down) const {
    constexpr double kNear = 0.09;  // encoded light
    const auto p = sheet_->picture(across, down);
    const int column = std::clamp(static_cast<int>(p[0]), 0, picture_->columns - 1);
    const int row = std::clamp(static_cast<int>(p[1]), 0, picture_->rows - 1);
    const std::array<double, 3> white = white_about(2 * p[0] / picture_->columns - 1, 2 * p[1] / picture_->rows - 1);
    const colour::Srgb seen = picture_->at(column, row);
    return std::max({std::abs(seen.r / 255.0 - white[0]), std::abs(seen.g / 255.0 - white[1]),
                     std::abs(seen.b / 255.0 - white[2])}) < kNear;
  }

  /// As light falls off over the sheet: what is nearer to a place says more of its white.
  std::array<double, 3> white_about(double x, double y) const {
    std::array<double, 3> white{};
    double total = 0;
    for (const KnownColour& known : white_) {
      const double weight = 1 / (1e-4 + (known.x - x) * (known.x - x) + (known.y - y) * (known.y - y));
      for (std::size_t c = 0; c < 3; ++c) white[c] += weight * known.seen[c];
      total += weight;
    }
    for (double& channel : white) channel /= total;
    return white;
  }

  const Picture* picture_;
  const SheetSeen* sheet_;
  std::vector<KnownColour> white_;
};

/// The cloth that the sheet lies over or under: all of its window, or what lies within.
std::vector<Found> in_window(const Picture& picture, const SheetSeen& sheet) {
  constexpr double kBare = 0.93, kSomeBare = 0.08;
  const SheetBox &window = sheet_plan().window, &words = sheet_plan().words;
  const SheetPaper paper(picture, sheet);
  const double bare = paper.share(window, false);
  if (bare > kBare) return {};
  // Not cut out, and nothing laid in it.
  const SheetBox below = {window.left, words.top + words.height, window.width, window.height - words.height};
  if (paper.share(below, false) > kBare && paper.share(words, true) > kBare) return {};
  const Corners corners = corners_of(sheet, window);
  if (bare > kSomeBare) {
    const Picture flat = rectified(picture, corners, {1000, 0, 0, window.width / window.height});
    std::vector<Found> cloths = find_cloths(flat).cloths;
    if (!cloths.empty() && !cloths[0].whole) {
      for (Found& found : cloths) {
        for (auto& p : found.corners) {
          p = sheet.picture(window.left + window.width * p[0] / flat.columns,
                            window.top + window.height * p[1] / flat.rows);
        }
      }
      return cloths;
    }
  }
  return {{corners, 0, 1, "", false}};
}

double inches_between(const SheetSeen& sheet, const std::array<double, 2>& a, const std::array<double, 2>& b) {
  const auto p = sheet.sheet(a[0], a[1]), q = sheet.sheet(b[0], b[1]);
  return std::hypot(p[0] - q[0], p[1] - q[1]);
}

Swatch swatch_of(const Photograph& photograph, const Reference& reference, const Found& found,
                 const TakeOptions& options) {
  const Picture& picture = photograph.picture;
  RectifyOptions how{options.longest_swatch, found.depth, found.whole ? 0.0 : 0.02, 0};
  if (found.whole) how.aspect = static_cast<double>(picture.columns) / picture.rows;
  Swatch swatch;
  const Corners& c = found.corners;
  double width = 0;
  if (reference.sheet) {
    width = (inches_between(*reference.sheet, c[0], c[1]) + inches_between(*reference.sheet, c[3], c[2])) / 2;
    how.aspect =
        2 * width / (inches_between(*reference.sheet, c[0], c[3]) + inches_between(*reference.sheet, c[1], c[2]));
  }
  const Rectified flat = rectified_whole(picture, c, how);
  if (reference.sheet) swatch.inches = width * flat.kept_across;
  swatch.corners = scaled(c, photograph.full_from_picture());
  swatch.picture =
      reference.balance ? balanced(flat.picture, c, picture.columns, picture.rows, *reference.balance) : flat.picture;
  swatch.reference = reference.kind;
  swatch.sureness = found.sureness;
  swatch.doubt = found.doubt;
  return swatch;
}

/// `reference` is what find_reference says of it.
Result<Take> taken_in(const std::string& file, Photograph photograph, Reference reference, const TakeOptions& options) {
  const Picture& picture = photograph.picture;
  Take taken;
  taken.reference = std::move(reference);
  Findings findings;
  findings.cloths = told(photograph, options);
  if (findings.cloths.empty()) {
    Known known{taken.reference.taken_up, {}};
    if (taken.reference.sheet) known.picture_from_table = taken.reference.sheet->picture_from_sheet;
    findings = find_cloths(picture, known);
    look_for_sheet(taken.reference, picture, findings);
    if (taken.reference.taken_up) {
      std::erase_if(findings.cloths, [&](const Found& found) {
        return found.whole || inside(*taken.reference.taken_up, middle(found.corners));
      });
    }
    if (taken.reference.sheet) {
      const std::vector<Found> framed = in_window(picture, *taken.reference.sheet);
      findings.cloths.insert(findings.cloths.begin(), framed.begin(), framed.end());
    }
  }
  if (findings.cloths.empty()) {
    return input_problem(
        file, findings.nothing.empty() ? "no cloth is seen beside the reference" : findings.nothing,
        "lay the cloth flat on a plain surface of another colour; or say that it fills the frame (--whole), or "
        "where its corners are (--corners)");
  }
  std::optional<std::array<double, 2>> white = options.white;
  if (white) {
    for (double& coordinate : *white) coordinate /= photograph.full_from_picture();
  }
  add_surface(taken.reference, picture, findings.surface, white, options.table, findings.cloths);
  taken.table = table_colour(taken.reference, findings.surface);
  for (const Found& found : findings.cloths) {
    taken.swatches.push_back(swatch_of(photograph, taken.reference, found, options));
  }
  taken.photograph = std::move(photograph);
  return taken;
}

}  // namespace

Result<Take> take(const std::string& file, const TakeOptions& options) {
  try {
    Result<Photograph> photograph = decode(file, options.decode);
    if (!photograph) return photograph.problems();
    Reference reference = find_reference(photograph->picture);
    return taken_in(file, std::move(*photograph), std::move(reference), options);
  } catch (const cv::Exception&) {
    return input_problem(file, "this picture is not like a photograph of cloth",
                         "take it again, flat and from above, or say where the cloth's corners are (--corners)");
  }
}

std::optional<colour::Lab> table_told_by(const std::string& file, const DecodeOptions& options) {
  try {
    Result<Photograph> photograph = decode(file, options);
    if (!photograph) return {};
    Reference reference = find_reference(photograph->picture);
    if (reference.kind == "none") return {};
    const Result<Take> taken = taken_in(file, std::move(*photograph), std::move(reference), {});
    return taken ? taken->table : std::nullopt;
  } catch (const cv::Exception&) {
    return {};
  }
}

Picture overview_of(const Take& take, const std::vector<std::string>& codes) {
  std::vector<Mark> marks;
  for (std::size_t i = 0; i < take.swatches.size(); ++i) {
    const Swatch& swatch = take.swatches[i];
    marks.push_back({scaled(swatch.corners, 1 / take.photograph.full_from_picture()), i < codes.size() ? codes[i] : "",
                     swatch.doubt.empty()});
  }
  return overview(take.photograph.picture, marks);
}

}  // namespace farflung::photo
