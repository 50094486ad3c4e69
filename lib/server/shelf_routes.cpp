// Her quilts: the list of them, new ones, copies, names, packing, laying aside; what a quilt can be begun from.
#include <array>
#include <filesystem>

#include "job/demo.hpp"
#include "job/edit.hpp"
#include "job/guide.hpp"
#include "job/library.hpp"
#include "job/new_quilt.hpp"
#include "job/pack.hpp"
#include "job/quilts.hpp"
#include "server/json.hpp"
#include "server/routes.hpp"
#include "server/url.hpp"

namespace farflung::server {
namespace {

namespace fs = std::filesystem;

/// The demo is no quilt yet while it is made: its run goes by no quilt's name.
const std::string kNoQuilt;

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

Response named(int status, const std::string& name) {
  return json_response(status, json_text({{"schema_version", 1}, {"name", name}}));
}

Response make(Call& call) {
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  const std::string name = text_in(*json, "name");
  const Result<fs::path> place = call.house.shelf.place_for(name);
  if (!place) return problems_response(place.problems());
  job::NewQuilt wish;
  wish.folder = place->string();
  // A pattern of her own is a file only on the command line: no file of elsewhere is reached from the page.
  wish.patterns = {text_in(*json, "pattern", wish.patterns.front())};
  const std::string& pattern = wish.patterns.front();
  if (!is_plain_name(pattern) || fs::path(pattern).has_extension()) {
    return problem_response(422, "there is no such pattern");
  }
  wish.size = text_in(*json, "size", wish.size);
  wish.block = text_in(*json, "block");
  wish.title = text_in(*json, "title", name);
  wish.units = text_in(*json, "units", wish.units);
  wish.setting = text_in(*json, "setting", wish.setting);
  wish.dry_run = flag_in(*json, "dry_run");
  const job::Outcome made = job::new_quilt(wish);
  if (!made) return problems_response(made.problems());
  Json report = Json::parse(made->json);
  report["folder"] = name;
  report["name"] = name;
  report["says"] = made->words.substr(0, made->words.find("Made "));
  return json_response(wish.dry_run ? 200 : 201, json_text(report));
}

/// A quilt is seen by its title: a name that she gives is that as well. One that cannot be read keeps what it has.
void retitle(const Call& call, const std::string& name) {
  const auto folder = call.house.shelf.folder_of(name);
  if (folder) static_cast<void>(job::set_value(folder->string(), "/title", json_text(name)).ok());
}

Response copy(Call& call) {
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  const std::string to = text_in(*json, "name", call.house.shelf.free_name(call.quilt + " copy"));
  const Result<Done> done = call.house.shelf.copy(call.quilt, to);
  if (done) retitle(call, to);
  return done ? named(201, to) : problems_response(done.problems());
}

Response rename(Call& call) {
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  const std::string goes_on = call.house.runs.busy_with(call.quilt);
  if (!goes_on.empty()) return busy_response(goes_on);
  const std::lock_guard turn(call.house.turn_for(call.quilt));
  const std::string to = text_in(*json, "name");
  if (to == call.quilt) {  // its folder has the name that she sees it lacks
    retitle(call, to);
    call.house.tell_version(call.quilt, "It is called " + to + " now.", "");
    return named(200, to);
  }
  const Result<Done> done = call.house.shelf.rename(call.quilt, to);
  if (!done) return problems_response(done.problems());
  retitle(call, to);
  call.house.events.tell(call.quilt, "gone", json_text({{"name", to}}));
  return named(200, to);
}

Response lay_aside(Call& call) {
  call.house.runs.stop_all(call.quilt);
  const std::lock_guard turn(call.house.turn_for(call.quilt));
  const Result<Done> done = call.house.shelf.lay_aside(call.quilt);
  if (!done) return problems_response(done.problems());
  call.house.events.tell(call.quilt, "gone", "{}");
  return named(200, call.quilt);
}

Response take_up(Call& call) {
  const Result<std::string> name = call.house.shelf.take_up(call.last);
  return name ? named(200, *name) : json_response(404, problems_text(name.problems()));
}

Response packed(Call& call) {
  const auto scratch = call.house.shelf.scratch();
  if (!scratch) return problem_response(507, "there is no room to pack it in");
  Response response;
  response.file = *scratch / (call.quilt + ".tar");
  response.holds = scratch;
  response.type = "application/x-tar";
  response.headers = {{"Content-Disposition", "attachment; filename*=UTF-8''" + escaped(call.quilt + ".tar")}};
  const job::Outcome done = job::pack(call.folder.string(), response.file.string(), false);
  return done ? response : problems_response(done.problems());
}

Response unpack(Call& call) {
  if (call.request.file.empty()) return problem_response(422, "the file is empty", "choose a packed quilt");
  std::string wished = call.head().asked("name");
  if (wished.ends_with(".tar")) wished.resize(wished.size() - 4);
  const std::string name = call.house.shelf.free_name(is_plain_name(wished) ? wished : "Unpacked");
  const Result<fs::path> place = call.house.shelf.place_for(name);
  if (!place) return problems_response(place.problems());
  const job::Outcome done = job::unpack(place->string(), call.request.file.string());
  return done ? named(201, name) : problems_response(done.problems());
}

Response demo(Call& call) {
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  const std::string name = text_in(*json, "name", call.house.shelf.free_name("Lifeboat raffle"));
  const Result<fs::path> place = call.house.shelf.place_for(name);
  if (!place) return problems_response(place.problems());
  const job::Demo wish{place->string(), false};
  const auto run = call.house.runs.start(
      kNoQuilt, "demo",
      {[wish](const job::Watch& watch) { return job::demo(wish, watch); }, "/quilts/" + escaped(name)});
  if (!run) return busy_response("another demo");
  return json_response(202, call.house.runs.report(kNoQuilt, run->id));
}

Response demo_stands(Call& call) {
  std::string report = call.house.runs.report(kNoQuilt, call.last);
  return report.empty() ? problem_response(404, "there is no such run") : json_response(200, std::move(report));
}

Response demo_stop(Call& call) {
  if (!call.house.runs.stop(kNoQuilt, call.last)) return problem_response(404, "there is no such run");
  return json_response(202, call.house.runs.report(kNoQuilt, call.last));
}

Response library(Call&) { return of_outcome(job::library()); }

Response guide(Call&) { return of_outcome(job::guide()); }

constexpr std::array kShelfRoutes = {
    Route{"GET", "quilts", list},
    Route{"POST", "quilts", make, limits::kRequestBytes},
    Route{"POST", "quilts/QUILT/copy", copy, limits::kRequestBytes},
    Route{"POST", "quilts/QUILT/name", rename, limits::kRequestBytes},
    Route{"DELETE", "quilts/QUILT", lay_aside},
    Route{"POST", "aside/*", take_up, limits::kRequestBytes},
    Route{"GET", "quilts/QUILT/packed", packed},
    Route{"POST", "packed", unpack, limits::kPackedRequestBytes, true},
    Route{"POST", "demo", demo, limits::kRequestBytes},
    Route{"GET", "demo/*", demo_stands},
    Route{"DELETE", "demo/*", demo_stop},
    Route{"GET", "library", library},
    Route{"GET", "guide", guide},
};

}  // namespace

std::span<const Route> shelf_routes() { return kShelfRoutes; }

}  // namespace farflung::server
