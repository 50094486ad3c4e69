#include "photo/lightness.hpp"

#include "colour/lab.hpp"
#include "photo/decode.hpp"

namespace farflung::photo {

Result<Lightness> lightness_of(const std::string& file) {
  DecodeOptions options;
  options.longest = 512;
  const Result<Photograph> photograph = decode(file, options);
  if (!photograph) return photograph.problems();
  const Picture& picture = photograph->picture;
  Lightness lightness{picture.columns, {}};
  lightness.values.reserve(picture.rgb.size() / 3);
  for (int row = 0; row < picture.rows; ++row) {
    for (int column = 0; column < picture.columns; ++column) {
      lightness.values.push_back(static_cast<float>(colour::lab_from_srgb(picture.at(column, row)).L / 100));
    }
  }
  return lightness;
}

}  // namespace farflung::photo
