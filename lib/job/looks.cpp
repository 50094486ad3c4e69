#include "job/looks.hpp"

#include "photo/decode.hpp"

namespace farflung::job {

std::optional<double> inches_across(const print::Print& print) {
  return print.swatch_width ? std::optional(print.swatch_width->inches()) : std::nullopt;
}

void Looks::give(std::size_t print, const photo::Picture& swatch) {
  looks_[print] = extract::look_of(swatch, inches_across(quilt_.prints[print]));
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
  const print::Print& of = quilt_.prints[print];
  if (of.swatch.empty()) return look;
  const Result<photo::Photograph> swatch = photo::decode((folder_ / of.swatch).string());
  if (swatch) look = extract::look_of(swatch->picture, inches_across(of));
  return look;
}

}  // namespace farflung::job
