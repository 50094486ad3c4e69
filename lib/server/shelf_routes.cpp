// Her quilts: the list of them, new ones, copies, names, packing, laying aside.
#include <array>

#include "job/demo.hpp"
#include "job/edit.hpp"
#include "job/new_quilt.hpp"
#include "job/quilts.hpp"
#include "server/json.hpp"
#include "server/routes.hpp"

namespace farflung::server {
namespace {

Response list(Call& call) {
  Json quilts = Json::array();
  for (const std::string& name : call.house.shelf.quilts()) {
    const auto folder = call.house.shelf.folder_of(name);
    if (!folder) continue;
    const job::Outcome summary = job::summary(folder->string());
    const Result<std::string> version = job::version_of(folder->string());
    if (!summary || !version) continue;
    Json entry = Json::parse(summary->json);
    entry.erase("schema_version");
    entry["name"] = name;
    entry["version"] = *version;
    quilts.push_back(std::move(entry));
  }
  return json_response(200, json_text({{"schema_version", 1},
                                       {"folder", call.house.shelf.root().string()},
                                       {"quilts", quilts},
                                       {"aside", call.house.shelf.aside()}}));
}

Response make(Call& call) {
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  const std::string name = text_in(*json, "name");
  const Result<std::filesystem::path> place = call.house.shelf.place_for(name);
  if (!place) return problems_response(place.problems());
  job::NewQuilt wish;
  wish.folder = place->string();
  wish.pattern = text_in(*json, "pattern", wish.pattern);
  wish.size = text_in(*json, "size", wish.size);
  wish.block = text_in(*json, "block");
  wish.title = text_in(*json, "title", name);
  wish.units = text_in(*json, "units", wish.units);
  wish.setting = text_in(*json, "setting", wish.setting);
  wish.dry_run = flag_in(*json, "dry_run");
  const job::Outcome made = job::new_quilt(wish);
  if (!made) return problems_response(made.problems());
  Json report = Json::parse(made->json);
  report["name"] = name;
  report["says"] = made->words;
  return json_response(wish.dry_run ? 200 : 201, json_text(report));
}

constexpr std::array kRoutes = {
    Route{"GET", "quilts", list},
    Route{"POST", "quilts", make, kMostJson},
};

}  // namespace

std::span<const Route> shelf_routes() { return kRoutes; }

}  // namespace farflung::server
