// The server under load and attack, all of it on loopback and bounded.
#include <algorithm>
#include <chrono>
#include <fstream>
#include <iostream>
#include <memory>
#include <vector>

#include "client.hpp"

namespace farflung::server {
namespace {

namespace fs = std::filesystem;

/// Of this process, which holds the server and its attackers both; bytes.
std::size_t memory_in_use() {
  std::ifstream stream("/proc/self/statm");
  std::size_t all = 0;
  std::size_t resident = 0;
  stream >> all >> resident;
  return resident * static_cast<std::size_t>(::sysconf(_SC_PAGESIZE));
}

/// Beyond what was in use before. The sanitizers keep what was freed, or shadows of it, so that there only the plain
/// build tells.
void expect_memory_under(std::size_t most, std::size_t before) {
#if defined(FARFLUNG_SANITIZED)
  static_cast<void>(most);
  static_cast<void>(before);
#else
  const std::size_t now = memory_in_use();
  EXPECT_LT(now - std::min(before, now), most);
#endif
}

constexpr std::size_t kMegabyte = 1024 * 1024;

/// A quilt made once; each test has a copy, a server and an attacker of its own.
class UnderAttack : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    model_ = std::make_unique<Visit>();
    model_->make_quilt();
    model_->close();
  }
  static void TearDownTestSuite() { model_.reset(); }

  void SetUp() override {
    fs::copy(model_->folder() / "harbour", visit_.folder() / "harbour", fs::copy_options::recursive);
  }

  /// The one thing that must always go on: our own page is answered.
  void expect_answers() { EXPECT_EQ(visit_.ask("GET", "/").status, 200); }

  static std::unique_ptr<Visit> model_;
  Visit visit_;
};
std::unique_ptr<Visit> UnderAttack::model_;

TEST_F(UnderAttack, ATooLargeBodyIsRefusedBeforeItComes) {
  Wire wire(visit_.port());
  wire.send(visit_.lines("POST", "/quilts") + "Content-Length: 99999999999\r\n\r\n");
  const std::string got =
      wire.receive([](const std::string& text) { return text.find("problems") != std::string::npos; });
  EXPECT_EQ(reply_in(got).status, 413);
  expect_answers();
}

TEST_F(UnderAttack, AChunkedBodyOverTheLimitIsNotStoredAndNotReadForEver) {
  const std::size_t before = memory_in_use();
  Wire wire(visit_.port());
  wire.send(visit_.lines("POST", "/quilts") + "Transfer-Encoding: chunked\r\n\r\n");
  const std::string chunk = "10000\r\n" + std::string(65536, 'x') + "\r\n";
  std::size_t sent = 0;
  while (sent < 64 * kMegabyte && wire.send(chunk)) sent += chunk.size();
  EXPECT_LT(sent, 64 * kMegabyte) << "the sender is cut off";
  expect_memory_under(40 * kMegabyte, before);
  expect_answers();
}

TEST_F(UnderAttack, AChunkedBodyALittleOverTheLimitIsToldSo) {
  Wire wire(visit_.port());
  wire.send(visit_.lines("POST", "/quilts") + "Transfer-Encoding: chunked\r\nConnection: close\r\n\r\n");
  const std::string chunk = "10000\r\n" + std::string(65536, 'x') + "\r\n";
  for (int k = 0; k < 65; ++k) ASSERT_TRUE(wire.send(chunk));
  wire.send("0\r\n\r\n");
  EXPECT_EQ(reply_in(wire.until_closed()).status, 413);
}

TEST_F(UnderAttack, ALongHeaderIsRefused) {
  const std::size_t before = memory_in_use();
  for (const std::string& lines :
       {"X-Long: " + std::string(kMegabyte, 'x') + "\r\n\r\n", "Cookie: " + std::string(kMegabyte, 'x') + "\r\n\r\n"}) {
    Wire wire(visit_.port());
    wire.send("GET / HTTP/1.1\r\nHost: " + visit_.host() + "\r\n" + lines);
    const int status = reply_in(wire.until_closed()).status;
    EXPECT_TRUE(wire.closed());
    EXPECT_TRUE(status == 0 || (status >= 400 && status < 500)) << status;
  }
  Wire many(visit_.port());
  std::string text = "GET / HTTP/1.1\r\nHost: " + visit_.host() + "\r\n";
  for (int k = 0; k < 50'000; ++k) text += "X-" + std::to_string(k) + ": x\r\n";
  many.send(text + "\r\n");
  const int status = reply_in(many.until_closed()).status;
  EXPECT_TRUE(status == 0 || (status >= 400 && status < 500)) << status;
  Wire path(visit_.port());
  path.send("GET /" + std::string(kMegabyte, 'x') + " HTTP/1.1\r\nHost: " + visit_.host() + "\r\n\r\n");
  EXPECT_NE(reply_in(path.until_closed()).status, 200);
  expect_memory_under(20 * kMegabyte, before);
  expect_answers();
}

TEST_F(UnderAttack, ABodyThatNobodyReadsIsNoSecondRequest) {
  const std::string hidden = visit_.lines("DELETE", "/quilts/harbour") + "\r\n";
  for (const std::string& first : {visit_.lines("POST", "/nothing"), visit_.lines("POST", "/quilts", false)}) {
    Wire wire(visit_.port());
    wire.send(first + "Content-Length: " + std::to_string(hidden.size()) + "\r\n\r\n" + hidden);
    const std::string got = wire.until_closed(1500);
    EXPECT_EQ(got.find("HTTP/1.1 200"), std::string::npos) << got;
  }
  EXPECT_EQ(visit_.ask("GET", "/quilts/harbour").status, 200) << "the quilt is still there";
}

TEST_F(UnderAttack, LengthAndChunksTogetherSmuggleNothing) {
  const std::string hidden = visit_.lines("DELETE", "/quilts/harbour") + "\r\n";
  Wire wire(visit_.port());
  wire.send(visit_.lines("POST", "/quilts") + "Content-Length: 4\r\nTransfer-Encoding: chunked\r\n\r\n0\r\n\r\n" +
            hidden);
  wire.until_closed(1500);
  Wire twice(visit_.port());
  twice.send(visit_.lines("POST", "/quilts") +
             "Content-Length: 2\r\nContent-Length: " + std::to_string(2 + hidden.size()) + "\r\n\r\n{}" + hidden);
  twice.until_closed(1500);
  EXPECT_EQ(visit_.ask("GET", "/quilts/harbour").status, 200);
}

TEST_F(UnderAttack, NoPathLeadsOutOfTheFolder) {
  std::ofstream(visit_.folder() / "secret.png") << "buried treasure";
  for (const char* path :
       {"/../secret.png", "/%2e%2e/secret.png", "/made/..%2f..%2fsecret.png", "/made/%2e%2e%2fkey", "/made/key",
        "/quilts/..", "/quilts/%2e%2e", "/quilts/.farflung", "/quilts/..%2fharbour", "/quilts/harbour%00",
        "/quilts/harbour/sheets/..%2fquilt.json", "/quilts/harbour/sheets/..%2F..%2Fsecret.png",
        "/quilts/harbour/swatches/..%2f..%2fsecret.png", "/quilts/harbour/photographs/..%2f..%2f..%2fsecret.png",
        "//etc/passwd", "/page/../../etc/passwd", "/quilts/harbour/picture.png?layout=..%2f..%2fx"}) {
    const Reply reply = visit_.ask("GET", path);
    EXPECT_EQ(reply.status, 404) << path << reply.body.substr(0, 100);
    EXPECT_EQ(reply.body.find("treasure"), std::string::npos) << path;
  }
  EXPECT_EQ(visit_.ask("POST", "/aside/..%2f..%2fharbour").status, 404);
  const Json run = visit_.post("/quilts/harbour/runs", {{"does", "compare"}, {"with", {"../../etc"}}}).json();
  EXPECT_EQ(visit_.finished("harbour", run["id"])["state"], "failed");
}

TEST_F(UnderAttack, NestedAndBrokenJsonIsRefused) {
  const std::string before = visit_.version();
  for (const std::string& body :
       {std::string(100'000, '['), "{\"edits\":" + std::string(100'000, '[') + "}", std::string("{"), std::string("[]"),
        std::string("\xff\xfe"), std::string("null"), "{\"version\":\"" + before + "\",\"edits\":[7]}",
        "{\"version\":\"" + before + "\",\"edits\":{}}", "{\"version\":\"" + before + "\",\"edits\":[]}"}) {
    EXPECT_EQ(visit_.ask("POST", "/quilts/harbour/edits", body).status, 422) << body.substr(0, 60);
  }
  EXPECT_EQ(visit_.version(), before);
}

TEST_F(UnderAttack, OddRequestsAreNoRequests) {
  for (const std::string& bytes : {std::string("\r\n\r\n"), std::string("GET\r\n\r\n"), std::string("nonsense\r\n\r\n"),
                                   std::string(3000, '\0'), std::string("GET / HTTP/9.9\r\n\r\n"),
                                   std::string("GET http://evil.example/ HTTP/1.1\r\nHost: evil.example\r\n\r\n"),
                                   std::string("\x16\x03\x01\x02\x00\x01\x00\x01\xfc\x03\x03")}) {
    Wire wire(visit_.port());
    wire.send(bytes);
    EXPECT_NE(reply_in(wire.until_closed(300)).status, 200) << bytes.substr(0, 20);
  }
  expect_answers();
}

TEST_F(UnderAttack, SlowWritersHoldUpNobody) {
  std::vector<std::unique_ptr<Wire>> slow;
  for (int k = 0; k < 50; ++k) {
    slow.push_back(std::make_unique<Wire>(visit_.port()));
    slow.back()->send(k % 2 == 0 ? std::string("GET / HT")
                                 : visit_.lines("POST", "/quilts") + "Content-Length: 1000\r\n\r\n{");
  }
  for (int k = 0; k < 5; ++k) expect_answers();
  EXPECT_EQ(visit_.edit({{"does", "turn"}, {"cells", {"R1C1"}}, {"quarters", 1}}, visit_.version()).status / 100, 4)
      << "or an answer in any case: a square lies one way";
}

TEST_F(UnderAttack, AReaderThatDoesNotReadCostsLittle) {
  std::vector<std::unique_ptr<Wire>> deaf;
  for (int k = 0; k < 20; ++k) {
    deaf.push_back(std::make_unique<Wire>(visit_.port()));
    deaf.back()->send(visit_.lines("GET", "/quilts/harbour/events") + "\r\n");
    deaf.push_back(std::make_unique<Wire>(visit_.port()));
    deaf.back()->send(visit_.lines("GET", "/quilts/harbour/picture.png?width=1000") + "\r\n");
  }
  expect_answers();
  const std::size_t before = memory_in_use();
  for (int k = 0; k < 100; ++k) {
    const char* does = k % 2 == 0 ? "keep" : "free";
    EXPECT_EQ(visit_.edit({{"does", does}, {"cells", {"R1C1"}}}, visit_.version()).status, 200);
  }
  expect_memory_under(30 * kMegabyte, before);
  expect_answers();
}

TEST_F(UnderAttack, TwoHundredPagesLookAtOnceInUnder100Megabytes) {
  std::vector<std::unique_ptr<Wire>> pages;
  for (int k = 0; k < 200; ++k) {
    pages.push_back(std::make_unique<Wire>(visit_.port()));
    ASSERT_TRUE(pages.back()->send(visit_.lines("GET", "/quilts/harbour/events") + "\r\n"));
  }
  const auto has = [](const char* what) {
    return [what](const std::string& got) { return got.find(what) != std::string::npos; };
  };
  for (const auto& page : pages) {
    ASSERT_NE(page->receive(has("event: hello")).find("event: hello"), std::string::npos);
  }
  using Clock = std::chrono::steady_clock;
  Clock::duration longest{};
  for (int k = 0; k < 20; ++k) {
    const auto asked = Clock::now();
    expect_answers();
    longest = std::max(longest, Clock::now() - asked);
  }
  std::cout << "with 200 pages open the page was answered within "
            << std::chrono::duration_cast<std::chrono::microseconds>(longest).count() / 1000.0 << " ms, "
            << memory_in_use() / kMegabyte << " MB in use\n";
  ASSERT_EQ(visit_.edit({{"does", "keep"}, {"cells", {"R1C1"}}}, visit_.version()).status, 200);
  for (const auto& page : pages) {
    EXPECT_NE(page->receive(has("event: version")).find("event: version"), std::string::npos);
  }
  expect_memory_under(100 * kMegabyte, 0);
}

TEST_F(UnderAttack, MoreConnectionsThanMayBeAreTurnedAwayAndTheNextIsServed) {
  {
    std::vector<std::unique_ptr<Wire>> crowd;
    for (int k = 0; k < 450; ++k) crowd.push_back(std::make_unique<Wire>(visit_.port()));
  }
  for (int time = 0; time < 100 && visit_.ask("GET", "/").status != 200; ++time) ::usleep(20'000);
  expect_answers();
}

TEST_F(UnderAttack, ManyAskAtOnceAndEachGetsItsOwnAnswer) {
  std::vector<std::unique_ptr<Wire>> crowd;
  for (int k = 0; k < 60; ++k) {
    crowd.push_back(std::make_unique<Wire>(visit_.port()));
    const char* path = k % 3 == 0 ? "/quilts" : k % 3 == 1 ? "/quilts/harbour/top" : "/quilts/nothing";
    crowd.back()->send(visit_.lines("GET", path) + "Connection: close\r\n\r\n");
  }
  for (std::size_t k = 0; k < crowd.size(); ++k) {
    const Reply reply = reply_in(crowd[k]->until_closed());
    EXPECT_EQ(reply.status, k % 3 == 2 ? 404 : 200);
    const char* key = k % 3 == 0 ? "quilts" : k % 3 == 1 ? "cells" : "problems";
    EXPECT_TRUE(reply.json().contains(key)) << k;
  }
}

TEST_F(UnderAttack, RequestsInOneBreathAreAnsweredInTheirOrder) {
  Wire wire(visit_.port());
  std::string text;
  for (const char* path : {"/quilts", "/quilts/harbour/top", "/quilts/nothing"})
    text += visit_.lines("GET", path) + "\r\n";
  wire.send(text);
  const std::string got =
      wire.receive([](const std::string& so_far) { return so_far.find("no quilt of that name") != std::string::npos; });
  EXPECT_LT(got.find("\"aside\""), got.find("\"patches\""));
  EXPECT_LT(got.find("\"patches\""), got.find("no quilt of that name"));
}

}  // namespace
}  // namespace farflung::server
