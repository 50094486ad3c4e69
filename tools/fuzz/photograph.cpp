#include "fuzz/entries.hpp"
#include "fuzz/file_of.hpp"
#include "photo/take.hpp"

namespace farflung::fuzz {

namespace {

void promise_whole(const photo::Picture& picture) {
  promise(picture.columns > 0 && picture.rows > 0, "a picture has a size");
  promise(picture.rgb.size() == std::size_t{3} * picture.columns * picture.rows, "a picture has all its pixels");
}

}  // namespace

void photograph(std::string_view bytes) {
  const FileOf file(bytes);
  photo::TakeOptions options;
  // Small, so that many are tried: what is found in it takes no other way than in a large one.
  options.decode.longest = 256;
  options.decode.most_pixels = 4'000'000;
  options.longest_swatch = 100;
  const Result<photo::Photograph> photograph = photo::decode(file.name(), options.decode);
  if (!photograph) return promise_reasons(photograph.problems());
  promise_whole(photograph->picture);
  // Looking for cloth takes a hundred times as long as decoding.
  constexpr std::size_t kBetweenLooks = 16;
  if (bytes.size() % kBetweenLooks != 0) return;
  const Result<photo::Take> take = photo::take(file.name(), options);
  if (!take) return promise_reasons(take.problems());
  promise(!take->swatches.empty(), "a take has a swatch");
  for (const photo::Swatch& swatch : take->swatches) promise_whole(swatch.picture);
}

}  // namespace farflung::fuzz
