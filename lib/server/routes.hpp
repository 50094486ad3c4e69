// Which request is answered by what. For the sources of this module.
#pragma once

#include <cstdint>
#include <filesystem>
#include <span>
#include <string>

#include "base/limits.hpp"
#include "job/answer.hpp"
#include "server/house.hpp"
#include "server/http.hpp"

namespace farflung::server {

/// A request that has passed the guard, on its way to its answer.
struct Call {
  House& house;
  Request& request;
  std::string quilt;             ///< the name, where the address has one
  std::filesystem::path folder;  ///< of that quilt; it is there
  std::string last;              ///< what stands for the * in the address

  const Head& head() const { return request.head; }
};

/// One line of the table of requests.
struct Route {
  const char* method;
  const char* path;  ///< "quilts/QUILT/runs/*": QUILT is a quilt that must be there, * anything
  Response (*answer)(Call&);
  std::uint64_t most = 0;  ///< bytes of body
  bool to_file = false;
};

/// The lines of the table, file by file; the first that fits a request answers it.
std::span<const Route> shelf_routes();
std::span<const Route> quilt_routes();
std::span<const Route> picture_routes();
std::span<const Route> run_routes();
std::span<const Route> layout_routes();
std::span<const Route> telephone_routes();

/// What a job came to: its report with `status`, or its problems.
Response of_outcome(const job::Outcome& outcome, int status = 200);

/// The route for a request; none where there is no such address. `path_known` tells whether the address is there,
/// if only for another method.
const Route* route_for(const Head& head, bool& path_known);

/// Finds the route and answers: 404 and 405 where there is none.
Response answer(House& house, Request& request);

}  // namespace farflung::server
