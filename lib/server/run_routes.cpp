// Long jobs: begun, looked at, stopped.
#include <algorithm>
#include <array>
#include <filesystem>
#include <optional>
#include <sstream>

#include "job/arrange.hpp"
#include "job/candidates.hpp"
#include "job/choose.hpp"
#include "job/cloth.hpp"
#include "job/compare.hpp"
#include "job/edit.hpp"
#include "job/outline.hpp"
#include "job/photo.hpp"
#include "job/sheets.hpp"
#include "job/sizes.hpp"
#include "job/swaps.hpp"
#include "job/threads.hpp"
#include "job/wall.hpp"
#include "server/json.hpp"
#include "server/routes.hpp"
#include "server/url.hpp"

namespace farflung::server {
namespace {

namespace fs = std::filesystem;

std::uint64_t seed_in(const Json& asked) {
  return static_cast<std::uint64_t>(std::clamp(number_in(asked, "seed", 1), 0.0, 1e15));
}

/// A picture that a run makes: where it goes, and its address.
struct Made {
  std::string file, address;
};

Made made_by(Call& call, const std::string& ending) {
  const std::string name = fresh_token().substr(0, 12) + ending;
  return {(call.house.shelf.pictures() / name).string(), "/made/" + name};
}

Work arrange(const Json& asked, Call& call) {
  job::Arrange wish;
  wish.folder = call.folder.string();
  wish.seed = seed_in(asked);
  wish.effort = number_in(asked, "effort", wish.effort);
  if (asked.contains("seconds")) wish.seconds = number_in(asked, "seconds", 10);
  wish.blocks = text_in(asked, "blocks");
  return {[wish](const job::Watch& watch) { return job::arrange(wish, watch); }, ""};
}

Work swaps(const Json& asked, Call& call) {
  job::Swaps wish;
  wish.folder = call.folder.string();
  wish.most = std::clamp(whole_in(asked, "most", wish.most), 1, 100);
  wish.seed = seed_in(asked);
  const std::string to = text_in(asked, "to");
  if (is_plain_name(to)) wish.to = (call.folder / "layouts" / (to + ".json")).string();
  return {[wish](const job::Watch&) { return job::swaps(wish); }, ""};
}

Work choose(const Json& asked, Call& call) {
  job::Choose wish;
  wish.folder = call.folder.string();
  wish.take = whole_in(asked, "take", 0);
  wish.keep = texts_in(asked, "keep");
  wish.drop = texts_in(asked, "drop");
  wish.lively = std::clamp(number_in(asked, "lively", wish.lively), 0.0, 1.0);
  wish.seed = seed_in(asked);
  return {[wish](const job::Watch&) { return job::choose(wish); }, ""};
}

Work try_thread(const Json& asked, Call& call) {
  const Made picture = made_by(call, ".png");
  job::TryThread wish;
  wish.folder = call.folder.string();
  wish.show = flag_in(asked, "show");
  wish.style = text_in(asked, "style", wish.style);
  wish.spacing = text_in(asked, "spacing", wish.spacing);
  wish.factor = std::clamp(number_in(asked, "factor", wish.factor), 1.0, 5.0);
  wish.output = picture.file;
  return {[wish](const job::Watch&) { return job::try_threads(wish); }, picture.address};
}

Work try_part(const Json& asked, Call& call) {
  if (text_in(asked, "as") == "thread") return try_thread(asked, call);
  const Made picture = made_by(call, ".png");
  job::TryOut wish;
  wish.folder = call.folder.string();
  wish.as = text_in(asked, "as");
  wish.output = picture.file;
  return {[wish](const job::Watch&) { return job::try_candidates(wish); }, picture.address};
}

/// Quilts are named as the page names them; no folder of elsewhere is reached by a name.
std::vector<std::string> others_in(const Json& asked, const Call& call) {
  std::vector<std::string> others = texts_in(asked, "with");
  for (std::string& one : others) {
    if (const auto folder = call.house.shelf.folder_of(one)) {
      one = folder->string();
    } else if (one.find('/') != std::string::npos || one.find("..") != std::string::npos) {
      one = "?";
    }
  }
  return others;
}

Work compare(const Json& asked, Call& call) {
  const Made picture = made_by(call, ".png");
  job::Compare wish;
  wish.folder = call.folder.string();
  wish.with = others_in(asked, call);
  wish.output = picture.file;
  return {[wish](const job::Watch&) { return job::compare(wish); }, picture.address};
}

Work sizes(const Json&, Call& call) {
  return {[folder = call.folder.string()](const job::Watch&) { return job::sizes(folder); }, ""};
}

/// How cloth is cut, for the list and for the pages.
job::WorkroomWish workroom_in(const Json& asked) {
  job::WorkroomWish how;
  how.kits = std::clamp(whole_in(asked, "kits", 0), 0, 1000);
  how.spares = flag_in(asked, "spares");
  how.prewashed = flag_in(asked, "prewashed");
  how.sixteenths = flag_in(asked, "sixteenths");
  how.lengthwise = flag_in(asked, "lengthwise");
  how.layers = std::clamp(whole_in(asked, "layers", how.layers), 1, 12);
  how.geese = text_in(asked, "geese", how.geese);
  how.corners = text_in(asked, "corners", how.corners);
  how.backing_seams = text_in(asked, "backing_seams", how.backing_seams);
  return how;
}

Work cloth(const Json& asked, Call& call) {
  job::ClothWish wish;
  wish.folder = call.folder.string();
  wish.how = workroom_in(asked);
  wish.take_spares = flag_in(asked, "take_spares");
  return {[wish](const job::Watch&) { return job::cloth(wish); }, ""};
}

Work sheets(const Json& asked, Call& call) {
  const std::string name = call.quilt + ".pdf";
  job::Sheets wish;
  wish.folder = call.folder.string();
  wish.paper = text_in(asked, "paper", wish.paper);
  wish.only = texts_in(asked, "only");
  wish.how = workroom_in(asked);
  wish.left_handed = flag_in(asked, "left_handed");
  wish.output = (call.folder / "sheets" / name).string();
  wish.force = true;
  return {[wish](const job::Watch&) {
            std::error_code ignored;
            fs::create_directory(fs::path(wish.output).parent_path(), ignored);
            return job::sheets(wish);
          },
          "/quilts/" + escaped(call.quilt) + "/sheets/" + escaped(name)};
}

/// {"print": "P03", "corners": [[x, y], ...]}: pixels of the upright photograph.
Work outline(const Json& asked, Call& call) {
  job::Outline wish;
  wish.folder = call.folder.string();
  wish.print = text_in(asked, "print");
  const auto corners = asked.find("corners");
  if (corners != asked.end() && corners->is_array()) {
    for (const Json& corner : *corners) {
      for (const Json& coordinate : corner) {
        wish.corners += (wish.corners.empty() ? "" : ",") + (coordinate.is_number() ? coordinate.dump() : "?");
      }
    }
  }
  return {[wish](const job::Watch&) { return job::outline(wish); }, ""};
}

struct Kind {
  const char* name;
  Work (*work)(const Json& asked, Call& call);
};

constexpr std::array kKinds = {Kind{"arrange", arrange}, Kind{"swaps", swaps},     Kind{"choose", choose},
                               Kind{"try", try_part},    Kind{"compare", compare}, Kind{"sizes", sizes},
                               Kind{"cloth", cloth},     Kind{"sheets", sheets},   Kind{"outline", outline}};

Response started(Call& call, const std::string& does, Work work) {
  const auto run = call.house.runs.start(call.quilt, does, std::move(work));
  if (run) return json_response(202, call.house.runs.report(call.quilt, run->id));
  return busy_response(call.house.runs.busy_with(call.quilt));
}

Response start(Call& call) {
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  const std::string does = text_in(*json, "does");
  for (const Kind& kind : kKinds) {
    if (does == kind.name) return started(call, does, kind.work(*json, call));
  }
  return problem_response(422, "there is no such work: " + does);
}

/// Her file's own name, as far as it can be a file's; else a plain one.
std::string photograph_name(const std::string& sent) {
  const std::string name =
      sent.substr(sent.find_last_of("/\\") == std::string::npos ? 0 : sent.find_last_of("/\\") + 1);
  return is_plain_name(name) ? name : "photograph.jpg";
}

/// The parts of a text between `mark`; none of an empty one.
std::vector<std::string> split(const std::string& text, char mark) {
  std::vector<std::string> parts;
  std::istringstream stream(text);
  for (std::string part; std::getline(stream, part, mark);) parts.push_back(part);
  return parts;
}

/// She may go on swapping while photographs are read: what was read is then laid into the quilt as it is by now.
job::Outcome take_however_often(const job::TakePhotographs& wish, const job::Watch& watch) {
  constexpr int kMost = 5;
  for (int time = 1;; ++time) {
    job::Outcome taken = job::take_photographs(wish, watch);
    if (taken || time == kMost || !job::was_overtaken(taken.problems())) return taken;
  }
}

/// A photograph that came as a request's body, under its own name in a folder of its own, which goes with the work.
struct Arrived {
  std::shared_ptr<const fs::path> folder;
  fs::path file;
};

/// Where it could not be kept, the response says why.
std::optional<Arrived> arrived(Call& call, Response& refused) {
  if (call.request.file.empty()) {
    refused = problem_response(422, "the photograph is empty", "choose another");
    return std::nullopt;
  }
  Arrived photograph{call.house.shelf.scratch(), {}};
  if (!photograph.folder) {
    refused = problem_response(507, "the photograph could not be stored");
    return std::nullopt;
  }
  photograph.file = *photograph.folder / photograph_name(call.head().asked("name"));
  std::error_code error;
  fs::rename(call.request.file, photograph.file, error);
  if (!error) return photograph;
  refused = problem_response(507, "the photograph could not be stored: " + error.message());
  return std::nullopt;
}

/// One photograph of fabrics, its bytes the body.
Response photograph(Call& call) {
  Response refused;
  const std::optional<Arrived> came = arrived(call, refused);
  if (!came) return refused;
  job::TakePhotographs wish;
  wish.folder = call.folder.string();
  wish.files = {came->file.string()};
  wish.across = call.head().asked("across");
  wish.whole = call.head().asked("whole") == "1";
  wish.white = call.head().asked("white");
  wish.corners = split(call.head().asked("corners"), ';');
  return started(call, "photograph",
                 {[wish, came](const job::Watch& watch) { return take_however_often(wish, watch); }, ""});
}

/// One photograph of the wall, its bytes the body.
Response wall(Call& call) {
  Response refused;
  const std::optional<Arrived> came = arrived(call, refused);
  if (!came) return refused;
  const auto asked = [&](const char* key) {
    const std::string text = call.head().asked(key);
    return text.empty() ? std::vector<std::string>() : std::vector<std::string>{text};
  };
  job::Wall wish;
  wish.folder = call.folder.string();
  wish.photographs = {came->file.string()};
  wish.corners = asked("corners");
  wish.rows = asked("rows");
  wish.columns = asked("columns");
  wish.top = call.head().asked("top") == "1";
  wish.accept = call.head().asked("accept") == "1";
  return started(call, "wall", {[wish, came](const job::Watch& watch) { return job::wall(wish, watch); }, ""});
}

/// Candidates for a part of the quilt in a photograph that stays out of it: one photograph, its bytes the body.
Response trial(Call& call) {
  Response refused;
  const std::optional<Arrived> came = arrived(call, refused);
  if (!came) return refused;
  const Made picture = made_by(call, ".png");
  job::TryOut wish;
  wish.folder = call.folder.string();
  wish.as = call.head().asked("as");
  wish.photographs = {came->file.string()};
  wish.output = picture.file;
  return started(call, "try", {[wish, came](const job::Watch&) { return job::try_candidates(wish); }, picture.address});
}

Response all(Call& call) {
  return json_response(200, "{\"schema_version\":1,\"runs\":" + call.house.runs.reports(call.quilt) + "}");
}

Response one(Call& call) {
  std::string report = call.house.runs.report(call.quilt, call.last);
  return report.empty() ? problem_response(404, "there is no such run") : json_response(200, std::move(report));
}

Response stop(Call& call) {
  return call.house.runs.stop(call.quilt, call.last) ? json_response(202, call.house.runs.report(call.quilt, call.last))
                                                     : problem_response(404, "there is no such run");
}

constexpr std::array kRunRoutes = {
    Route{"GET", "quilts/QUILT/runs", all},
    Route{"POST", "quilts/QUILT/runs", start, limits::kRequestBytes},
    Route{"GET", "quilts/QUILT/runs/*", one},
    Route{"DELETE", "quilts/QUILT/runs/*", stop},
    Route{"POST", "quilts/QUILT/photographs", photograph, limits::kPhotographBytes, true},
    Route{"POST", "quilts/QUILT/walls", wall, limits::kPhotographBytes, true},
    Route{"POST", "quilts/QUILT/trials", trial, limits::kPhotographBytes, true},
};

}  // namespace

std::span<const Route> run_routes() { return kRunRoutes; }

}  // namespace farflung::server
