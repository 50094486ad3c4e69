#include "photo/take.hpp"

#include <algorithm>

#include "photo/overview.hpp"
#include "photo/rectify.hpp"

namespace farflung::photo {
namespace {

std::vector<Found> told(const Photograph& photograph, const TakeOptions& options) {
  std::vector<Found> cloths;
  if (options.whole) cloths.push_back({whole(photograph.picture.columns, photograph.picture.rows), 0, 1, "", true});
  for (const Corners& corners : options.corners) {
    cloths.push_back({scaled(corners, 1 / photograph.full_from_picture()), 0, 1, "", false});
  }
  return cloths;
}

}  // namespace

Result<Take> take(const std::string& file, const TakeOptions& options) {
  Result<Photograph> photograph = decode(file, options.decode);
  if (!photograph) return photograph.problems();
  Findings findings{told(*photograph, options), ""};
  if (findings.cloths.empty()) findings = find_cloths(photograph->picture);
  if (findings.cloths.empty()) {
    return input_problem(
        file, findings.nothing,
        "lay the cloth flat on a plain surface of another colour, or let it fill the frame; or give its "
        "corners by hand");
  }
  Take taken{std::move(*photograph), {}};
  for (const Found& found : findings.cloths) {
    const RectifyOptions how{options.longest_swatch, found.depth, found.whole ? 0.0 : 0.02,
                             found.whole ? static_cast<double>(taken.photograph.columns) / taken.photograph.rows : 0.0};
    taken.swatches.push_back({scaled(found.corners, taken.photograph.full_from_picture()),
                              rectified(taken.photograph.picture, found.corners, how), "none", found.sureness,
                              found.doubt});
  }
  return taken;
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
