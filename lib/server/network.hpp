// The local network: which addresses this machine has on it, and who is a neighbour there.
#pragma once

#include <cstdint>
#include <string>
#include <vector>

namespace farflung::server {

/// An IPv4 address of this machine and the network that it lies in.
struct Place {
  std::string address;     ///< "192.168.1.5"
  std::uint32_t bits = 0;  ///< of the address
  std::uint32_t mask = 0;
  std::string interface;  ///< "wlan0"
};

/// Those in the ranges that are private by RFC 1918 or link-local by RFC 3927; never loopback.
std::vector<Place> places_on_network();

/// Loopback, or in the network of one of these places.
bool is_neighbour(const std::string& peer, const std::vector<Place>& places);

/// By RFC 1918 or RFC 3927; `bits` in the machine's own order.
bool is_private(std::uint32_t bits);

}  // namespace farflung::server
