// Addresses, names, the network, codes, events: what needs no connection.
#include <algorithm>
#include <filesystem>
#include <fstream>
#include <vector>

#include <gtest/gtest.h>
#include <stdlib.h>

#include "base/limits.hpp"
#include "server/afterwards.hpp"
#include "server/code.hpp"
#include "server/events.hpp"
#include "server/json.hpp"
#include "server/network.hpp"
#include "server/page_files.hpp"
#include "server/shelf.hpp"
#include "server/url.hpp"

namespace farflung::server {
namespace {

namespace fs = std::filesystem;

TEST(Afterwards, DoesEverythingInOrderBeforeItLeaves) {
  std::vector<int> done;
  {
    Afterwards afterwards;
    for (int k = 0; k < 100; ++k) afterwards.add([&done, k] { done.push_back(k); });
  }
  ASSERT_EQ(done.size(), 100U);
  EXPECT_TRUE(std::is_sorted(done.begin(), done.end()));
}

TEST(Url, EachPartOfAPathIsUnescapedByItself) {
  EXPECT_EQ(path_parts("/quilts/two%20boats//top"), (std::vector<std::string>{"quilts", "two boats", "top"}));
  EXPECT_EQ(path_parts("/a%2Fb/%2e%2e"), (std::vector<std::string>{"a/b", ".."}));
  EXPECT_TRUE(path_parts("/").empty());
}

TEST(Url, WhatIsNoEscapeStays) {
  EXPECT_EQ(unescaped("100%"), "100%");
  EXPECT_EQ(unescaped("%zz%4"), "%zz%4");
  EXPECT_EQ(unescaped("a+b"), "a+b");
  EXPECT_EQ(unescaped("a+b", true), "a b");
  for (const char* text : {"Möwe & Kelp", "<b>", "a/b?c#d", "100 %"}) EXPECT_EQ(unescaped(escaped(text)), text);
}

TEST(Fields, AWholeNumberBeyondAnyMachinesIsBroughtWithinReach) {
  const Json json = {{"quarters", 1e300}, {"below", -1e300}, {"three", 3}, {"word", "3"}};
  EXPECT_EQ(whole_in(json, "quarters", 0), 1'000'000'000);
  EXPECT_EQ(whole_in(json, "below", 0), -1'000'000'000);
  EXPECT_EQ(whole_in(json, "three", 0), 3);
  EXPECT_EQ(whole_in(json, "word", 7), 7);
  EXPECT_EQ(whole_in(json, "none", 7), 7);
}

TEST(Names, AreNoPathsAndNothingHidden) {
  for (const char* good : {"harbour", "Möwe 2", "a<b>", "it's"}) EXPECT_TRUE(is_plain_name(good)) << good;
  const std::string with_zero("a\0b", 3);
  for (const std::string& bad :
       {std::string(), std::string("."), std::string(".."), std::string(".farflung"), std::string("a/b"),
        std::string("a\\b"), std::string("../up"), std::string("a\nb"), std::string("end."), std::string(" a"),
        with_zero, std::string(101, 'a'), std::string("\xff\xfe")}) {
    EXPECT_FALSE(is_plain_name(bad)) << bad;
  }
}

class OnAShelf : public testing::Test {
 protected:
  OnAShelf() {
    std::string name = (fs::temp_directory_path() / "farflung-XXXXXX").string();
    folder_ = ::mkdtemp(name.data());
    add("harbour");
  }
  ~OnAShelf() override { fs::remove_all(folder_); }

  void add(const std::string& name) const {
    fs::create_directories(folder_ / name / "photos");
    std::ofstream(folder_ / name / "quilt.json") << "{}";
    std::ofstream(folder_ / name / "photos" / "kelp.jpg") << "kelp";
  }

  Shelf shelf() const { return *Shelf::at(folder_); }

  fs::path folder_;
};

TEST_F(OnAShelf, OnlyFoldersThatHoldAQuiltAreQuilts) {
  fs::create_directory(folder_ / "empty");
  fs::create_directory_symlink(folder_ / "harbour", folder_ / "link");
  EXPECT_EQ(shelf().quilts(), std::vector<std::string>{"harbour"});
  for (const char* name : {"empty", "link", "..", "../harbour", "harbour/photos", "", ".farflung"}) {
    EXPECT_FALSE(shelf().folder_of(name)) << name;
  }
}

TEST_F(OnAShelf, ACopyIsWholeAndAnotherQuilt) {
  ASSERT_TRUE(shelf().copy("harbour", "harbour copy"));
  EXPECT_TRUE(fs::exists(folder_ / "harbour copy" / "photos" / "kelp.jpg"));
  EXPECT_FALSE(shelf().copy("harbour", "harbour copy")) << "the name is taken";
  EXPECT_FALSE(shelf().copy("harbour", "../elsewhere"));
  EXPECT_FALSE(shelf().copy("nothing", "a"));
  EXPECT_EQ(shelf().free_name("harbour"), "harbour 2");
}

TEST_F(OnAShelf, AQuiltTakesAnotherNameOnlyWhereItIsFree) {
  add("lantern");
  EXPECT_FALSE(shelf().rename("harbour", "lantern"));
  ASSERT_TRUE(shelf().rename("harbour", "slipway"));
  EXPECT_EQ(shelf().quilts(), (std::vector<std::string>{"lantern", "slipway"}));
}

TEST_F(OnAShelf, WhatIsLaidAsideIsTakenUpAgainWhole) {
  ASSERT_TRUE(shelf().lay_aside("harbour"));
  EXPECT_TRUE(shelf().quilts().empty());
  add("harbour");
  ASSERT_TRUE(shelf().lay_aside("harbour"));
  EXPECT_EQ(shelf().aside(), (std::vector<std::string>{"harbour", "harbour 2"}));
  const Result<std::string> up = shelf().take_up("harbour 2");
  ASSERT_TRUE(up);
  EXPECT_TRUE(fs::exists(folder_ / *up / "photos" / "kelp.jpg"));
  EXPECT_FALSE(shelf().take_up("../../harbour"));
}

TEST_F(OnAShelf, WhatARunBeforeLeftBehindIsCleared) {
  const fs::path left = shelf().arriving() / "half a photograph";
  std::ofstream(left) << "half";
  EXPECT_FALSE(fs::exists(shelf().arriving() / left.filename()));
}

TEST(Network, OnlyPrivateAddressesAreTheLocalNetwork) {
  EXPECT_TRUE(is_private(0x0A000001));   // 10.0.0.1
  EXPECT_TRUE(is_private(0xAC100001));   // 172.16.0.1
  EXPECT_TRUE(is_private(0xAC1FFFFF));   // 172.31.255.255
  EXPECT_FALSE(is_private(0xAC200001));  // 172.32.0.1
  EXPECT_TRUE(is_private(0xC0A80105));   // 192.168.1.5
  EXPECT_TRUE(is_private(0xA9FE0001));   // 169.254.0.1
  EXPECT_FALSE(is_private(0x08080808));  // 8.8.8.8
  for (const Place& place : places_on_network()) EXPECT_TRUE(is_private(place.bits)) << place.address;
}

TEST(Network, ANeighbourIsOnTheSameNetwork) {
  const std::vector<Place> places = {{"192.168.1.5", 0xC0A80105, 0xFFFFFF00, "wlan0"}};
  EXPECT_TRUE(is_neighbour("127.0.0.1", {}));
  EXPECT_TRUE(is_neighbour("192.168.1.77", places));
  EXPECT_FALSE(is_neighbour("192.168.2.77", places));
  EXPECT_FALSE(is_neighbour("8.8.8.8", places));
  EXPECT_FALSE(is_neighbour("192.168.1.77", {}));
  EXPECT_FALSE(is_neighbour("nonsense", places));
}

TEST(Code, HasAQuietBorderAndFindersInThreeCorners) {
  const std::string svg = code_svg("http://192.168.1.5:7430/?key=0123456789abcdef0123456789abcdef");
  EXPECT_NE(svg.find("viewBox=\"0 0 41 41\""), std::string::npos) << svg.substr(0, 120);
  // Sixty-odd bytes take a code of 33 modules. The corners of its three finders stand four modules in; the fourth
  // corner has none.
  for (const char* corner : {"M4 4h1", "M36 4h1", "M4 36h1"}) EXPECT_NE(svg.find(corner), std::string::npos) << corner;
  const std::string lines = code_lines("http://127.0.0.1");
  EXPECT_GT(std::count(lines.begin(), lines.end(), '\n'), 14);
  EXPECT_EQ(code_svg(std::string(5000, 'x')), "");
}

TEST(Page, ItsFilesTogetherAreUnder150KilobytesCompressed) {
  std::size_t all = 0;
  bool index = false;
  for (const PageFile& file : page_files()) {
    all += file.gzipped.size();
    index = index || file.name == "index.html";
    EXPECT_EQ(file.gzipped.substr(0, 2), "\x1f\x8b") << file.name;
  }
  EXPECT_TRUE(index);
  EXPECT_LT(all, 150U * 1024);
}

std::string all_of(Subscription& subscription) {
  std::string text;
  char bytes[100];
  for (;;) {
    const std::size_t count = subscription.take(bytes, sizeof bytes, [] {});
    if (count == 0) return text;
    text.append(bytes, count);
  }
}

TEST(Events, OfWhatChangesByTheSecondOnlyTheLatestWaits) {
  Events events;
  const auto one = events.subscribe("harbour");
  const auto other = events.subscribe("lantern");
  for (int k = 0; k < 1000; ++k) events.tell("harbour", "progress", std::to_string(k), true);
  events.tell("harbour", "run", "{}");
  EXPECT_EQ(all_of(*one), "event: progress\ndata: 999\n\nevent: run\ndata: {}\n\n");
  EXPECT_EQ(all_of(*other), "");
}

TEST(Events, APageThatDoesNotReadIsToldToLookAgain) {
  Events events;
  const auto one = events.subscribe("harbour");
  for (int k = 0; k < 10'000; ++k) events.tell("harbour", "run", std::string(1000, 'x'));
  const std::string text = all_of(*one);
  EXPECT_EQ(text.rfind("event: again\ndata: {}\n\n", 0), 0U);
  EXPECT_LT(text.size(), 100'000U);
}

TEST(Events, AreBoundedInNumberAndForgetWhoHasGone) {
  Events events;
  std::vector<std::shared_ptr<Subscription>> all;
  for (std::size_t k = 0; k < limits::kEventStreams; ++k) all.push_back(events.subscribe("harbour"));
  EXPECT_NE(all.back(), nullptr);
  EXPECT_EQ(events.subscribe("harbour"), nullptr);
  all.clear();
  EXPECT_FALSE(events.anyone("harbour"));
  EXPECT_NE(events.subscribe("harbour"), nullptr);
  events.end();
  EXPECT_EQ(events.subscribe("harbour"), nullptr);
}

}  // namespace
}  // namespace farflung::server
