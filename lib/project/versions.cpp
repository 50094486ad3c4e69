#include "project/versions.hpp"

#include <algorithm>
#include <charconv>
#include <cstdio>
#include <system_error>
#include <utility>

#include "base/limits.hpp"
#include "project/disk.hpp"
#include "project/gzip.hpp"

namespace farflung::project {
namespace {

constexpr const char* kEnding = ".json.gz";

/// The number at the front of a text, which is then taken off; 0 where there is none.
int take_number(std::string& text) {
  int number = 0;
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), number);
  if (error != std::errc() || number < 1 || number > 999'999'999) return 0;
  text.erase(0, static_cast<std::size_t>(end - text.data()));
  return number;
}

}  // namespace

Versions::Versions(const std::filesystem::path& quilt_folder, std::string present)
    : folder_(quilt_folder / "versions"), present_(std::move(present)) {
  find_numbers();
  find_now();
  forget_oldest();
}

std::filesystem::path Versions::file_of(int number) const {
  std::string digits = std::to_string(number);
  digits.insert(0, 6 - std::min<std::size_t>(6, digits.size()), '0');
  return folder_ / (digits + kEnding);
}

std::optional<std::string> Versions::bytes_of(int number) const {
  const Result<std::string> packed = disk::read_file(file_of(number), limits::kFileBytes);
  return packed ? gunzipped(*packed, limits::kFileBytes) : std::nullopt;
}

bool Versions::present_is(int number) const { return bytes_of(number) == present_; }

void Versions::find_numbers() {
  std::error_code error;
  for (const auto& entry : std::filesystem::directory_iterator(folder_, error)) {
    std::string name = entry.path().filename().string();
    const int number = take_number(name);
    if (number > 0 && name == kEnding && file_of(number) == entry.path()) numbers_.push_back(number);
  }
  std::sort(numbers_.begin(), numbers_.end());
}

void Versions::find_now() {
  now_ = numbers_.empty() ? 0 : numbers_.back();
  const Result<std::string> text = disk::read_file(marker(), 100);
  if (!text) return;
  std::string words = *text;
  const int from = take_number(words);
  on_the_way_ = words.rfind('>', 0) == 0;
  if (on_the_way_) words.erase(0, 1);
  const int to = take_number(words);
  const auto known = [&](int number) { return std::binary_search(numbers_.begin(), numbers_.end(), number); };
  if (known(from)) now_ = from;
  if (known(to) && present_is(to)) now_ = to;
}

Result<Done> Versions::drop_after_now() {
  while (!numbers_.empty() && numbers_.back() > now_) {
    if (Result<Done> removed = disk::remove_file(file_of(numbers_.back())); !removed) return removed;
    numbers_.pop_back();
  }
  return Done{};
}

void Versions::forget_oldest() {
  const auto first_kept = numbers_.begin() + std::max(0, before() - static_cast<int>(limits::kVersions));
  forgotten_.insert(forgotten_.end(), numbers_.begin(), first_kept);
  numbers_.erase(numbers_.begin(), first_kept);
}

Result<Done> Versions::drop_oldest() {
  forget_oldest();
  for (; !forgotten_.empty(); forgotten_.pop_back()) {
    if (Result<Done> removed = disk::remove_file(file_of(forgotten_.back())); !removed) return removed;
  }
  return Done{};
}

// Whatever step of this fails or is cut off, the next call finds quilt.json different from `now` and does it all again.
Result<Done> Versions::keep() {
  if (present_is_now()) {
    if (Result<Done> dropped = drop_oldest(); !dropped) return dropped;
    return on_the_way_ ? gone(0) : Done{};
  }
  if (Result<Done> made = disk::make_folder(folder_); !made) return made;
  if (Result<Done> dropped = drop_after_now(); !dropped) return dropped;
  if (Result<Done> kept = disk::replace_file(file_of(now_ + 1), gzipped(present_)); !kept) return kept;
  if (Result<Done> last = disk::remove_file(marker()); !last) return last;
  numbers_.push_back(++now_);
  return drop_oldest();
}

int Versions::number_at(int step) const {
  const int index = before() + step;
  return index < 0 || index >= static_cast<int>(numbers_.size()) ? 0 : numbers_[index];
}

Result<std::optional<std::string>> Versions::neighbour(int step) {
  const int number = number_at(step);
  if (number == 0) return std::optional<std::string>();
  std::optional<std::string> bytes = bytes_of(number);
  if (bytes) return bytes;
  return system_problem(file_of(number).string(), "this version cannot be read", "remove it to go past it");
}

Result<Done> Versions::going(int step) {
  return disk::replace_file(marker(), std::to_string(now_) + ">" + std::to_string(number_at(step)) + "\n");
}

Result<Done> Versions::gone(int step) {
  now_ = number_at(step);
  on_the_way_ = false;
  return disk::replace_file(marker(), std::to_string(now_) + "\n");
}

int Versions::before() const {
  return static_cast<int>(std::lower_bound(numbers_.begin(), numbers_.end(), now_) - numbers_.begin());
}

int Versions::after() const {
  return static_cast<int>(numbers_.end() - std::upper_bound(numbers_.begin(), numbers_.end(), now_));
}

}  // namespace farflung::project
