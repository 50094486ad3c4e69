// One quilt: the whole of it, what there is to draw, its score, changes by hand, what happens to it.
#include <array>

#include "job/casts.hpp"
#include "job/check.hpp"
#include "job/cloth.hpp"
#include "job/drawn.hpp"
#include "job/edit.hpp"
#include "job/sewing.hpp"
#include "server/json.hpp"
#include "server/routes.hpp"

namespace farflung::server {
namespace {

/// The object with one more key at its end, whose value is JSON already.
std::string with(std::string object, const std::string& key, const std::string& value) {
  object.pop_back();
  return object + ",\"" + key + "\":" + value + "}";
}

Response whole(Call& call) {
  const job::Outcome standing = job::standing(call.folder.string(), *call.house.reckoning, true);
  if (!standing) return problems_response(standing.problems());
  return json_response(200, with(standing->json, "runs", call.house.runs.reports(call.quilt)));
}

Response top(Call& call) { return of_outcome(job::drawn(call.folder.string())); }

Response rows(Call& call) { return of_outcome(job::sewing(call.folder.string())); }

Response check(Call& call) { return of_outcome(job::check(call.folder.string())); }

Response casts(Call& call) { return of_outcome(job::casts(call.folder.string(), *call.house.reckoning)); }

Response short_of_cloth(Call& call) { return of_outcome(job::cloth_short(call.folder.string())); }

/// The changes that a request asks for: {"version": ..., "edits": [{"does": "swap", "cells": ["R1C1", "R2C3"]}, ...]}.
Result<job::Edits> edits_in(const Json& json, const std::string& folder) {
  job::Edits edits{folder, text_in(json, "version"), {}};
  if (edits.version.empty()) {
    return input_problem("/version", "the version that this was made on is missing", "send it as it was received");
  }
  const auto list = json.find("edits");
  if (list == json.end() || !list->is_array()) return input_problem("/edits", "this is no list of edits");
  for (const Json& one : *list) {
    if (!one.is_object()) return input_problem("/edits", "an edit is an object");
    job::Edit edit;
    edit.does = text_in(one, "does");
    edit.cells = texts_in(one, "cells");
    edit.quarters = whole_in(one, "quarters", 0);
    edit.pointer = text_in(one, "pointer");
    if (edit.does == "use") edit.pointer = text_in(one, "part");
    if (edit.does == "lay" || edit.does == "use") {
      edit.value = text_in(one, "value");
    } else if (one.contains("value")) {
      edit.value = json_text(one["value"]);
    }
    edits.edits.push_back(std::move(edit));
  }
  return edits;
}

Response stale(const Call& call) {
  const Result<std::string> version = job::version_of(call.folder.string());
  Json json = {{"schema_version", 1}, {"version", version ? *version : ""}};
  json["problems"] = Json::array({{{"at", ""}, {"says", job::changed_since().cause}}});
  return json_response(409, json_text(json));
}

Response edit(Call& call) {
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  const Result<job::Edits> edits = edits_in(*json, call.folder.string());
  if (!edits) return problems_response(edits.problems());
  const std::string goes_on = call.house.runs.busy_with(call.quilt);
  if (goes_on == "arrange") return busy_response(goes_on);
  const std::lock_guard turn(call.house.turn_for(call.quilt));
  const job::Outcome outcome = job::edit(*edits, *call.house.reckoning);
  if (!outcome) return job::is_changed_since(outcome.problems()) ? stale(call) : problems_response(outcome.problems());
  call.house.tell_version(call.quilt, outcome->words, text_in(*json, "by"));
  call.house.afterwards.add([&house = call.house, quilt = call.quilt, folder = call.folder.string()] {
    const std::lock_guard its_turn(house.turn_for(quilt));
    job::keep_version(folder);
  });
  return json_response(200, outcome->json);
}

Response events(Call& call) {
  auto subscription = call.house.events.subscribe(call.quilt);
  if (!subscription) return problem_response(503, "too many pages look at once", "close some");
  const Result<std::string> version = job::version_of(call.folder.string());
  Json hello = {{"version", version ? *version : ""}};
  std::string text = with(json_text(hello), "runs", call.house.runs.reports(call.quilt));
  subscription->tell("hello", std::make_shared<const std::string>(std::move(text)), true);
  Response response;
  response.type = "text/event-stream";
  response.events = std::move(subscription);
  return response;
}

constexpr std::array kQuiltRoutes = {
    Route{"GET", "quilts/QUILT", whole},         Route{"GET", "quilts/QUILT/top", top},
    Route{"GET", "quilts/QUILT/check", check},   Route{"POST", "quilts/QUILT/edits", edit, limits::kRequestBytes},
    Route{"GET", "quilts/QUILT/events", events}, Route{"GET", "quilts/QUILT/rows", rows},
    Route{"GET", "quilts/QUILT/casts", casts},   Route{"GET", "quilts/QUILT/short", short_of_cloth},
};

}  // namespace

std::span<const Route> quilt_routes() { return kQuiltRoutes; }

}  // namespace farflung::server
