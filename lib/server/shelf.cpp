#include "server/shelf.hpp"

#include <algorithm>
#include <cctype>
#include <cstdlib>
#include <system_error>

#include "base/limits.hpp"

namespace farflung::server {
namespace {

namespace fs = std::filesystem;

bool holds_quilt(const fs::path& folder) {
  std::error_code ignored;
  return fs::is_directory(fs::symlink_status(folder, ignored)) && fs::is_regular_file(folder / "quilt.json", ignored);
}

std::vector<std::string> quilts_below(const fs::path& folder) {
  std::vector<std::string> names;
  std::error_code error;
  for (const auto& entry : fs::directory_iterator(folder, error)) {
    const std::string name = entry.path().filename().string();
    if (is_plain_name(name) && holds_quilt(entry.path())) names.push_back(name);
  }
  std::sort(names.begin(), names.end());
  return names;
}

Problem cannot(const fs::path& what, const std::error_code& why) {
  if (why == std::errc::filename_too_long) {
    return input_problem(what.filename().string(), "the name is too long", "give a shorter one");
  }
  return system_problem(what.filename().string(), why.message(),
                        "see whether the disk is full or the folder read-only");
}

bool valid_utf8(const std::string& text) {
  int more = 0;
  for (const char c : text) {
    const auto byte = static_cast<unsigned char>(c);
    if (more > 0) {
      if ((byte & 0xC0U) != 0x80U) return false;
      --more;
    } else if (byte >= 0x80) {
      more = (byte & 0xE0U) == 0xC0U ? 1 : (byte & 0xF0U) == 0xE0U ? 2 : (byte & 0xF8U) == 0xF0U ? 3 : -1;
      if (more < 0) return false;
    }
  }
  return more == 0;
}

}  // namespace

bool is_plain_name(const std::string& text) {
  if (text.empty() || text.size() > limits::kNameBytes || !valid_utf8(text)) return false;
  const auto at_end = [](char c) { return c == '.' || c == ' '; };
  if (at_end(text.front()) || at_end(text.back())) return false;
  return std::none_of(text.begin(), text.end(), [](char c) {
    return c == '/' || c == '\\' || static_cast<unsigned char>(c) < 0x20 || c == 0x7F;
  });
}

Result<Shelf> Shelf::at(const fs::path& folder) {
  std::error_code error;
  fs::create_directories(folder, error);
  if (error) return cannot(folder, error);
  Shelf shelf(fs::canonical(folder, error));
  if (error) return cannot(folder, error);
  fs::remove_all(shelf.arriving(), error);
  for (const fs::path& part : {shelf.arriving(), shelf.pictures(), shelf.laid_aside()}) {
    fs::create_directories(part, error);
    if (error) return cannot(part, error);
  }
  fs::permissions(shelf.own(), fs::perms::owner_all, error);
  return shelf;
}

std::vector<std::string> Shelf::quilts() const { return quilts_below(root_); }
std::vector<std::string> Shelf::aside() const { return quilts_below(laid_aside()); }

std::optional<fs::path> Shelf::folder_of(const std::string& name) const {
  if (!is_plain_name(name) || !holds_quilt(root_ / name)) return std::nullopt;
  return root_ / name;
}

Result<fs::path> Shelf::place_for(const std::string& name) const {
  if (!is_plain_name(name)) {
    return input_problem(name, "this cannot be a quilt's name", "leave out slashes, and dots at its ends");
  }
  std::error_code ignored;
  if (fs::exists(fs::symlink_status(root_ / name, ignored))) {
    return input_problem(name, "there is something of that name already", "choose another name");
  }
  return root_ / name;
}

std::string Shelf::free_name(const std::string& name) const {
  std::error_code ignored;
  for (int number = 1;; ++number) {
    std::string one = number == 1 ? name : name + " " + std::to_string(number);
    if (!fs::exists(fs::symlink_status(root_ / one, ignored))) return one;
  }
}

Result<Done> Shelf::copy(const std::string& name, const std::string& to) const {
  const std::optional<fs::path> from = folder_of(name);
  if (!from) return input_problem(name, "there is no such quilt");
  const Result<fs::path> place = place_for(to);
  if (!place) return place.problems();
  // Copied under another name first, so that half a copy is never taken for a quilt.
  const fs::path fresh = arriving() / ("copy of " + to);
  std::error_code error;
  fs::remove_all(fresh, error);
  fs::copy(*from, fresh, fs::copy_options::recursive | fs::copy_options::skip_symlinks, error);
  if (!error) fs::remove(fresh / "quilt.lock", error);
  if (!error) fs::rename(fresh, *place, error);
  if (!error) return Done{};
  std::error_code ignored;
  fs::remove_all(fresh, ignored);
  return cannot(*place, error);
}

Result<Done> Shelf::rename(const std::string& name, const std::string& to) const {
  const std::optional<fs::path> from = folder_of(name);
  if (!from) return input_problem(name, "there is no such quilt");
  const Result<fs::path> place = place_for(to);
  if (!place) return place.problems();
  std::error_code error;
  fs::rename(*from, *place, error);
  if (error) return cannot(*place, error);
  return Done{};
}

std::shared_ptr<const fs::path> Shelf::scratch() const {
  std::string name = (arriving() / "work-XXXXXX").string();
  if (::mkdtemp(name.data()) == nullptr) return nullptr;
  return {new fs::path(name), [](const fs::path* path) {
            std::error_code ignored;
            fs::remove_all(*path, ignored);
            delete path;
          }};
}

Result<Done> Shelf::lay_aside(const std::string& name) const {
  const std::optional<fs::path> from = folder_of(name);
  if (!from) return input_problem(name, "there is no such quilt");
  std::error_code error;
  fs::path to = laid_aside() / name;
  for (int number = 2; fs::exists(to, error); ++number) to = laid_aside() / (name + " " + std::to_string(number));
  fs::rename(*from, to, error);
  if (error) return cannot(*from, error);
  return Done{};
}

Result<std::string> Shelf::take_up(const std::string& aside) const {
  if (!is_plain_name(aside) || !holds_quilt(laid_aside() / aside)) {
    return input_problem(aside, "no such quilt is laid aside");
  }
  const std::string name = free_name(aside);
  std::error_code error;
  fs::rename(laid_aside() / aside, root_ / name, error);
  if (error) return cannot(root_ / name, error);
  return name;
}

}  // namespace farflung::server
