// A quilt in a folder of its own, for tests of what jobs do to it.
#pragma once

#include <filesystem>
#include <stdexcept>
#include <string>

#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <stdlib.h>

#include "job/edit.hpp"
#include "job/new_quilt.hpp"
#include "job/photo.hpp"

namespace farflung::job {

using Json = nlohmann::json;

/// What a job that must succeed reports.
inline Json reported(const Outcome& outcome) {
  if (outcome) return Json::parse(outcome->json);
  throw std::runtime_error(outcome.problems().front().text());
}

/// What a job that must fail says first.
inline std::string refused(const Outcome& outcome) { return outcome ? "" : outcome.problems().front().text(); }

class World {
 public:
  explicit World(NewQuilt wish = {}) {
    std::string name = (std::filesystem::temp_directory_path() / "farflung-XXXXXX").string();
    if (::mkdtemp(name.data()) == nullptr) throw std::runtime_error("no temporary folder");
    root_ = name;
    wish.folder = folder();
    reported(new_quilt(wish));
  }
  ~World() {
    std::error_code ignored;
    std::filesystem::remove_all(root_, ignored);
  }
  World(const World&) = delete;
  World& operator=(const World&) = delete;

  std::string folder() const { return (root_ / "quilt").string(); }

  /// A print of a plain colour; its id.
  std::string add_print(const std::string& colour, const std::string& name) const {
    TakePhotographs wish;
    wish.folder = folder();
    wish.colour = colour;
    wish.names = {name};
    return reported(take_photographs(wish, [](const Progress&) { return true; }))["prints"][0]["id"];
  }

  Outcome try_edit(const Edit& one) const { return edit({folder(), "", {one}}, *reckoning); }
  Json change(const Edit& one) const { return reported(try_edit(one)); }

  Json file() const { return reported(standing(folder(), *reckoning, true))["quilt"]; }

  std::shared_ptr<Reckoning> reckoning = make_reckoning();

 private:
  std::filesystem::path root_;
};

}  // namespace farflung::job
