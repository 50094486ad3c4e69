#include "server/routes.hpp"

#include <string_view>

#include "server/json.hpp"

namespace farflung::server {
namespace {

/// Whether an address fits a route's path; what stands for QUILT and * goes to `quilt` and `last`.
bool fits(std::string_view path, const std::vector<std::string>& parts, std::string* quilt, std::string* last) {
  std::size_t at = 0;
  for (const std::string& part : parts) {
    if (at > path.size()) return false;
    const std::size_t slash = std::min(path.find('/', at), path.size());
    const std::string_view wanted = path.substr(at, slash - at);
    if (wanted == "QUILT") {
      if (quilt != nullptr) *quilt = part;
    } else if (wanted == "*") {
      if (last != nullptr) *last = part;
    } else if (wanted != part) {
      return false;
    }
    at = slash + 1;
  }
  return at == path.size() + 1;
}

}  // namespace

Response of_outcome(const job::Outcome& outcome, int status) {
  return outcome ? json_response(status, outcome->json) : problems_response(outcome.problems());
}

const Route* route_for(const Head& head, bool& path_known) {
  path_known = false;
  const std::string_view method = head.method == "HEAD" ? "GET" : std::string_view(head.method);
  for (const auto routes :
       {shelf_routes(), quilt_routes(), picture_routes(), run_routes(), layout_routes(), telephone_routes()}) {
    for (const Route& route : routes) {
      if (!fits(route.path, head.parts, nullptr, nullptr)) continue;
      path_known = true;
      if (method == route.method) return &route;
    }
  }
  return nullptr;
}

Response answer(House& house, Request& request) {
  bool path_known = false;
  const Route* route = route_for(request.head, path_known);
  if (route == nullptr) {
    return path_known ? problem_response(405, "this cannot be done here")
                      : problem_response(404, "there is no such page");
  }
  Call call{house, request, "", {}, ""};
  fits(route->path, request.head.parts, &call.quilt, &call.last);
  if (std::string_view(route->path).find("QUILT") != std::string_view::npos) {
    const auto folder = house.shelf.folder_of(call.quilt);
    if (!folder) return problem_response(404, "there is no quilt of that name");
    call.folder = *folder;
  }
  return route->answer(call);
}

}  // namespace farflung::server
