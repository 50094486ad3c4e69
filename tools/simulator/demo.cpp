#include "simulator/demo.hpp"

namespace farflung::simulator {

std::vector<Fabric> demo_fabrics() {
  return {
      {"Kelp", "kelp", {0x12343a, 0x1f4f4f, 0x2f6b60, 0x5b8f72, 0xa3b56b}, 1.7, {11}},
      {"Foghorn", "scrolls", {0x94a3ab, 0xa9b6bc}, 1.0, {12}},
      {"Buoy", "dots", {0xd2492f, 0xf6ead7}, 0.75, {13}},
      {"Gannet", "gannets", {0xcfdfe3, 0xfbf8f0, 0x2c3a48, 0xd9a441, 0xb5cbd2}, 1.5, {14}},
      {"Slipway", "awning", {0xf0e6d2, 0x3f6f86, 0xc9573c}, 0.9, {15}},
      {"Oilskin", "foliage", {0xd49a2a, 0xe3b148, 0xdca63a}, 0.9, {16}},
      {"Lantern", "batik leaves", {0xb5561f, 0xd98a2b, 0xf3d089}, 1.3, {17}},
      {"Breaker", "breakers", {0x1b3358, 0x4f82a8, 0xd5e2e6}, 1.0, {18}},
      {"Sailcloth", "sailcloth", {0xf0ebe1, 0xfcf9f2}, 1.2, {19}},
      {"Logbook", "log book", {0xe9dabd, 0x4a535d, 0xb4513a}, 1.2, {20}},
      {"Thrift", "thrift", {0xd5e3da, 0xc9647f, 0xf0b7c0, 0x5d8a6b}, 1.0, {21}},
      {"Samphire", "sprig", {0x7fa08a, 0xf2ecd9, 0xd9a441, 0x3d6655, 0xdfe7c9}, 0.8, {22}},
      {"Shingle", "shingle", {0x595d62, 0x8d9094, 0xb9b2a6, 0xa08f7e, 0xd5d0c5, 0x74808a}, 0.7, {23}},
      {"Nightwatch", "hand dyed", {0x24365c, 0x16223f, 0x0f1a30, 0x1d3350}, 1.6, {24}},
      {"Cockle", "cockles", {0xf4dccb, 0xe9a58f, 0xbd6a58, 0xf8efe4}, 0.95, {25}},
      {"Galley", "gingham", {0xf4efe4, 0x2f8b8b}, 0.5, {26}},
      {"Tiller", "plaid", {0xdcc9a5, 0x8e3b2e, 0x24405f, 0xf0e8d8}, 2.2, {27}},
      {"Compass", "compass", {0x23576b, 0xf0e2bd, 0x8fb4b5, 0xd9a441}, 1.3, {28}},
      {"Trawl", "net", {0x2d8a8c, 0xd9ebe2, 0xf2d08a}, 0.9, {29}},
      {"Bosun", "meadow", {0x1b2b4a, 0xd2604a, 0xf0a98c, 0xe8c15d, 0x5b8a7b, 0xf6e7d5}, 1.6, {30}},
  };
}

}  // namespace farflung::simulator
