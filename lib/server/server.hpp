// The page's server: a folder of quilts, open to whoever brings the token, on loopback unless asked otherwise.
#pragma once

#include <memory>
#include <string>

#include "base/result.hpp"

namespace farflung::server {

/// Left as they are, the page is open to this machine alone.
struct Options {
  std::string folder;    ///< of quilts; made where it is not there, in a folder that is. A quilt's own opens at it
  int port = 0;          ///< 0: the usual one, or any that is free where that is taken
  bool network = false;  ///< reached from the local network too
};

/// Runs from when it is opened until it goes; what runs is stopped then, and nothing is lost.
///
///   Result<std::unique_ptr<Server>> server = Server::open({.folder = "quilts"});
///   std::cout << (*server)->address() << "\n";
class Server {
 public:
  static Result<std::unique_ptr<Server>> open(const Options& options);
  virtual ~Server() = default;

  /// What to open in a browser on this machine, the token in it.
  virtual std::string address() const = 0;

  /// What the program says once it is open: the address on one line; with the network open the code for a telephone and
  /// who can then reach the page.
  virtual std::string greeting() = 0;

  /// What the user may not have meant: that the folder is new. Empty where there is nothing.
  virtual std::string remark() const = 0;
  virtual int port() const = 0;
};

}  // namespace farflung::server
