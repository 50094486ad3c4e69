#include "job/looks.hpp"

#include "photo/decode.hpp"

namespace farflung::job {

void Looks::give(std::size_t print, const photo::Picture& swatch) {
  looks_[print] = extract::look_of(swatch, inches(print));
}

std::optional<print::Overlay> Looks::laid_over(std::size_t first, std::size_t second) {
  const auto &a = look(first), &b = look(second);
  if (!a || !b) return {};
  return extract::laid_over(*a, *b);
}

const std::optional<extract::Look>& Looks::look(std::size_t print) {
  const auto known = looks_.find(print);
  if (known != looks_.end()) return known->second;
  std::optional<extract::Look>& look = looks_[print];
  const std::string& file = quilt_.prints[print].swatch;
  if (file.empty()) return look;
  const Result<photo::Photograph> swatch = photo::decode((folder_ / file).string());
  if (swatch) look = extract::look_of(swatch->picture, inches(print));
  return look;
}

std::optional<double> Looks::inches(std::size_t print) const {
  const std::optional<Length>& width = quilt_.prints[print].swatch_width;
  return width ? std::optional(width->inches()) : std::nullopt;
}

}  // namespace farflung::job
