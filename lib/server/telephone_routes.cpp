// A telephone let in: its address, as a code to photograph.
#include <array>

#include "server/code.hpp"
#include "server/json.hpp"
#include "server/routes.hpp"

namespace farflung::server {
namespace {

Response not_open() {
  return problem_response(404, "the page is open on this machine alone",
                          "start it with farflung serve --lan to let telephones of the local network in");
}

Response invite(Call& call) {
  if (!call.house.network) return not_open();
  const Result<Json> json = object_in(call.request.body);
  if (!json) return problems_response(json.problems());
  const std::string address = call.house.telephone_address(text_in(*json, "quilt"));
  if (address.empty()) return not_open();
  return json_response(201, json_text({{"schema_version", 1},
                                       {"address", address},
                                       {"says", call.house.who_can_reach()},
                                       {"code", "/telephone/code.svg"}}));
}

Response code(Call& call) {
  const std::string address = call.house.last_telephone_address();
  if (address.empty()) return not_open();
  Response response;
  response.type = "image/svg+xml";
  response.bytes = code_svg(address);
  return response;
}

constexpr std::array kTelephoneRoutes = {
    Route{"POST", "telephone", invite, limits::kRequestBytes},
    Route{"GET", "telephone/code.svg", code},
};

}  // namespace

std::span<const Route> telephone_routes() { return kTelephoneRoutes; }

}  // namespace farflung::server
