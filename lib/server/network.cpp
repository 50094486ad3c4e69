#include "server/network.hpp"

#include <array>
#include <optional>

#include <arpa/inet.h>
#include <ifaddrs.h>
#include <net/if.h>
#include <netinet/in.h>

namespace farflung::server {
namespace {

std::optional<std::uint32_t> bits_of(const std::string& address) {
  in_addr bits{};
  if (::inet_pton(AF_INET, address.c_str(), &bits) != 1) return std::nullopt;
  return ntohl(bits.s_addr);
}

std::uint32_t bits_of(const sockaddr* address) {
  return ntohl(reinterpret_cast<const sockaddr_in*>(address)->sin_addr.s_addr);
}

}  // namespace

bool is_private(std::uint32_t bits) {
  return (bits >> 24U) == 10 || (bits >> 20U) == 0xAC1 || (bits >> 16U) == 0xC0A8 || (bits >> 16U) == 0xA9FE;
}

std::vector<Place> places_on_network() {
  std::vector<Place> places;
  ifaddrs* all = nullptr;
  if (::getifaddrs(&all) != 0) return places;
  for (const ifaddrs* one = all; one != nullptr; one = one->ifa_next) {
    if (one->ifa_addr == nullptr || one->ifa_netmask == nullptr || one->ifa_addr->sa_family != AF_INET) continue;
    if ((one->ifa_flags & IFF_UP) == 0 || (one->ifa_flags & IFF_LOOPBACK) != 0) continue;
    const std::uint32_t bits = bits_of(one->ifa_addr);
    if (!is_private(bits)) continue;
    std::array<char, INET_ADDRSTRLEN> text{};
    ::inet_ntop(AF_INET, &reinterpret_cast<const sockaddr_in*>(one->ifa_addr)->sin_addr, text.data(), text.size());
    places.push_back({text.data(), bits, bits_of(one->ifa_netmask), one->ifa_name});
  }
  ::freeifaddrs(all);
  return places;
}

bool is_neighbour(const std::string& peer, const std::vector<Place>& places) {
  const std::optional<std::uint32_t> bits = bits_of(peer);
  if (!bits) return false;
  if ((*bits >> 24U) == 127) return true;
  for (const Place& place : places) {
    if ((*bits & place.mask) == (place.bits & place.mask)) return true;
  }
  return false;
}

}  // namespace farflung::server
