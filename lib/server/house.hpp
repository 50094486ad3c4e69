// What all requests have to do with: the quilts, who may ask, what is told, what runs. For the sources of this module.
#pragma once

#include <array>
#include <memory>
#include <mutex>
#include <string>

#include "job/edit.hpp"
#include "server/afterwards.hpp"
#include "server/events.hpp"
#include "server/guard.hpp"
#include "server/network.hpp"
#include "server/runs.hpp"
#include "server/shelf.hpp"

namespace farflung::server {

/// Lives as long as the server; shared by all its threads.
struct House {
  House(Shelf quilts, bool on_network);

  Shelf shelf;
  bool network;  ///< reached from the local network too
  int port = 0;
  std::vector<Place> places;     ///< of this machine on the network, where that is open
  std::unique_ptr<Guard> guard;  ///< made once the port is known
  Events events;
  std::shared_ptr<job::Reckoning> reckoning = job::make_reckoning();
  Runs runs;

  /// One edit at a time for each quilt, so that none waits for another's hold by napping.
  std::mutex& turn_for(const std::string& quilt);

  /// An address with a fresh token for one telephone, which opens at the fabrics of `quilt` where there is one of that
  /// name; empty where the network is not open or there is none.
  std::string telephone_address(const std::string& quilt = "");
  /// The last that telephone_address gave, for its code to be drawn; empty where there was none.
  std::string last_telephone_address() const;

  /// Who can reach the page, in plain words.
  std::string who_can_reach() const;

  /// Tells every page that looks at a quilt which version it has now, and what was done.
  void tell_version(const std::string& quilt, const std::string& says, const std::string& by);

 private:
  mutable std::mutex telephone_mutex_;
  std::string telephone_;
  std::array<std::mutex, 16> turns_;

 public:
  Afterwards afterwards;  ///< last: what it does needs the others
};

}  // namespace farflung::server
