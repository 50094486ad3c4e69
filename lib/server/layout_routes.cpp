// Layouts kept by name; prints typed by their colour.
#include <array>

#include "job/layouts.hpp"
#include "job/photo.hpp"
#include "server/json.hpp"
#include "server/routes.hpp"

namespace farflung::server {
namespace {

Response list(Call& call) { return of_outcome(job::kept_layouts(call.folder.string(), *call.house.reckoning)); }

Response keep(Call& call) {
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  return of_outcome(job::keep_layout(call.folder.string(), text_in(*json, "name")), 201);
}

Response forget(Call& call) { return of_outcome(job::forget_layout(call.folder.string(), call.last)); }

Response typed_print(Call& call) {
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  job::TakePhotographs wish;
  wish.folder = call.folder.string();
  wish.colour = text_in(*json, "colour");
  if (wish.colour.empty()) return problem_response(422, "the colour is missing", "give one such as #3a6ea5");
  if (const std::string name = text_in(*json, "name"); !name.empty()) wish.names = {name};
  const std::lock_guard turn(call.house.turn_for(call.quilt));
  const job::Outcome outcome = job::take_photographs(wish, [](const job::Progress&) { return true; });
  if (outcome) call.house.tell_version(call.quilt, outcome->words, text_in(*json, "by"));
  return of_outcome(outcome, 201);
}

constexpr std::array kLayoutRoutes = {
    Route{"GET", "quilts/QUILT/layouts", list},
    Route{"POST", "quilts/QUILT/layouts", keep, limits::kRequestBytes},
    Route{"DELETE", "quilts/QUILT/layouts/*", forget},
    Route{"POST", "quilts/QUILT/prints", typed_print, limits::kRequestBytes},
};

}  // namespace

std::span<const Route> layout_routes() { return kLayoutRoutes; }

}  // namespace farflung::server
