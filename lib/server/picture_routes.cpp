// Pictures and pages: swatches, photographs, the whole top, what runs have made.
#include <array>
#include <cstdlib>
#include <filesystem>
#include <functional>

#include "job/edit.hpp"
#include "job/pictures.hpp"
#include "job/preview.hpp"
#include "server/json.hpp"
#include "server/routes.hpp"
#include "server/url.hpp"

namespace farflung::server {
namespace {

namespace fs = std::filesystem;

int asked_number(const Head& head, const char* name, int otherwise, int most) {
  const int number = std::atoi(head.asked(name, std::to_string(otherwise)).c_str());
  return number < 16 ? otherwise : std::min(number, most);
}

/// What a browser may keep, as long as it asks whether it is still so.
Response picture(const Head& head, const std::string& tag, const std::string& type) {
  Response response;
  response.type = type;
  response.headers = {{"ETag", "\"" + tag + "\""}, {"Cache-Control", "private, no-cache"}};
  if (head.header("if-none-match") == "\"" + tag + "\"") response.status = 304;
  return response;
}

std::string changed_at(const fs::path& file) {
  std::error_code error;
  const auto time = fs::last_write_time(file, error);
  const auto size = fs::file_size(file, error);
  return error ? "0" : std::to_string(time.time_since_epoch().count()) + "-" + std::to_string(size);
}

Response with_jpeg(Response response, const job::ScreenPicture& shown) {
  response.type = "image/jpeg";
  response.headers.emplace_back("Full-Size", std::to_string(shown.columns) + "x" + std::to_string(shown.rows));
  response.bytes = shown.jpeg;
  return response;
}

Response of_jpeg(const Head& head, const std::string& tag, const Result<job::ScreenPicture>& shown) {
  if (!shown) return json_response(404, problems_text(shown.problems()));
  return with_jpeg(picture(head, tag, ""), *shown);
}

Response swatch(Call& call) {
  const int longest = asked_number(call.head(), "longest", 512, 2048);
  const std::string tag = changed_at(call.folder / "swatches" / call.last) + "-" + std::to_string(longest);
  Response known = picture(call.head(), tag, "");
  if (known.status == 304) return known;
  return of_jpeg(call.head(), tag, job::swatch_picture(call.folder.string(), call.last, longest));
}

Response photograph(Call& call) {
  const int longest = asked_number(call.head(), "longest", 1600, 4096);
  const std::string tag = changed_at(call.folder / "photos" / call.last) + "-" + std::to_string(longest);
  Response known = picture(call.head(), tag, "");
  if (known.status == 304) return known;
  return of_jpeg(call.head(), tag, job::photograph_picture(call.folder.string(), call.last, longest));
}

/// A photograph on its way in, as a screen can show it: browsers do not read every kind, nor draw every size.
Response shown(Call& call) {
  if (call.request.file.empty()) return problem_response(422, "the photograph is empty", "choose another");
  const int longest = asked_number(call.head(), "longest", 1600, 4096);
  const Result<job::ScreenPicture> picture = job::screen_picture(call.request.file.string(), longest);
  return picture ? with_jpeg(Response(), *picture) : problems_response(picture.problems());
}

/// The top, drawn once for each version and kept.
Response picture_of_top(Call& call) {
  const bool svg = call.head().path.size() > 4 && call.head().path.compare(call.head().path.size() - 4, 4, ".svg") == 0;
  const Result<std::string> version = job::version_of(call.folder.string());
  if (!version) return problems_response(version.problems());
  job::Preview wish;
  wish.folder = call.folder.string();
  wish.width = asked_number(call.head(), "width", 800, 4000);
  wish.grey = call.head().asked("grey") == "1";
  wish.force = true;
  std::string tag = *version + "-" + std::to_string(wish.width) + (wish.grey ? "g" : "");
  wish.layout = call.head().asked("layout");
  if (!wish.layout.empty()) {
    if (!is_plain_name(wish.layout)) return problem_response(404, "no layout is kept under this name");
    const std::string kept = changed_at(call.folder / "layouts" / (wish.layout + ".json"));
    tag += "-" + std::to_string(std::hash<std::string>()(wish.layout)) + "-" + kept;
  }
  Response response = picture(call.head(), tag, svg ? "image/svg+xml" : "image/png");
  if (response.status == 304) return response;
  response.file = call.house.shelf.pictures() / (tag + (svg ? ".svg" : ".png"));
  std::error_code ignored;
  if (fs::exists(response.file, ignored)) return response;
  wish.output = response.file.string();
  const job::Outcome drawn = job::preview(wish);
  return drawn ? response : problems_response(drawn.problems());
}

/// A file that this program made, in a folder of its own: nothing else is reached by its name.
Response file_in(const fs::path& folder, const std::string& name, const std::string& ending, const std::string& type,
                 const Head& head) {
  std::error_code ignored;
  const fs::path file = folder / name;
  if (!is_plain_name(name) || file.extension() != ending || !fs::is_regular_file(fs::symlink_status(file, ignored))) {
    return problem_response(404, "there is no such file");
  }
  Response response = picture(head, changed_at(file), type);
  if (response.status != 304) response.file = file;
  return response;
}

Response made(Call& call) { return file_in(call.house.shelf.pictures(), call.last, ".png", "image/png", call.head()); }

Response sheet(Call& call) {
  Response response = file_in(call.folder / "sheets", call.last, ".pdf", "application/pdf", call.head());
  if (call.head().asked("save") == "1") {
    response.headers.emplace_back("Content-Disposition", "attachment; filename*=UTF-8''" + escaped(call.last));
  }
  return response;
}

constexpr std::array kPictureRoutes = {
    Route{"GET", "quilts/QUILT/swatches/*", swatch},
    Route{"GET", "quilts/QUILT/photographs/*", photograph},
    Route{"POST", "shown", shown, limits::kPhotographBytes, true},
    Route{"GET", "quilts/QUILT/picture.png", picture_of_top},
    Route{"GET", "quilts/QUILT/picture.svg", picture_of_top},
    Route{"GET", "quilts/QUILT/sheets/*", sheet},
    Route{"GET", "made/*", made},
};

}  // namespace

std::span<const Route> picture_routes() { return kPictureRoutes; }

}  // namespace farflung::server
