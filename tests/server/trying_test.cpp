// Casts, parts tried and used, the quilt that comes with the program, many photographs at once.
#include <fstream>
#include <thread>
#include <vector>

#include "client.hpp"
#include "photo/decode.hpp"
#include "photo/encode.hpp"
#include "server/url.hpp"

namespace farflung::server {
namespace {

namespace fs = std::filesystem;

std::string demo_photograph(const std::string& name) {
  std::ifstream stream(fs::path(FARFLUNG_SOURCE) / "data" / "demo" / "photographs" / name, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

TEST(Trying, CastsOfEveryRegionAreTold) {
  Visit visit;
  visit.make_quilt();
  const Json report = visit.get("/quilts/harbour/casts");
  ASSERT_EQ(report["casts"].size(), 12U);
  EXPECT_EQ(report["casts"][0]["colour"].get<std::string>().front(), '#');
}

TEST(Trying, PrintsThatAreShortOfClothAreTold) {
  Visit visit;
  visit.make_quilt();
  EXPECT_EQ(visit.get("/quilts/harbour/short")["short"], Json::array()) << "no cloth is recorded";
  const Json charm = Json::parse(R"([{"kind": "charm square", "count": 1}])");
  const Reply set = visit.edit({{"does", "set"}, {"pointer", "/prints/0/cloth"}, {"value", charm}}, visit.version());
  ASSERT_EQ(set.status, 200) << set.body;
  EXPECT_EQ(visit.get("/quilts/harbour/short")["short"], Json::array({"P01"}));
}

TEST(Trying, APrintThatIsUsedIsThePartThatWasDrawn) {
  Visit visit;
  visit.make_quilt();
  const std::string before = visit.version();
  const Reply used = visit.edit({{"does", "use"}, {"part", "border"}, {"value", "P02"}}, before);
  ASSERT_EQ(used.status, 200) << used.body;
  EXPECT_EQ(visit.get("/quilts/harbour")["quilt"]["setting"]["borders"][0]["print"], "P02");
  EXPECT_EQ(visit.edit({{"does", "use"}, {"part", "border"}, {"value", "P99"}}, visit.version()).status, 422);
  EXPECT_EQ(visit.edit({{"does", "use"}}, visit.version()).status, 422);
}

TEST(Trying, CandidatesInAPhotographAreRankedAndStayOutOfTheQuilt) {
  Visit visit;
  visit.make_quilt();
  const std::string before = visit.version();
  const std::string base = "/quilts/harbour/trials?name=samphire.jpg&as=";
  const Reply sent = visit.ask("POST", base + "border", demo_photograph("03-samphire.jpg"));
  ASSERT_EQ(sent.status, 202) << sent.body;
  const Json run = visit.finished("harbour", sent.json()["id"]);
  ASSERT_EQ(run["state"], "done") << run.dump();
  ASSERT_EQ(run["answer"]["ranked"].size(), 1U);
  EXPECT_TRUE(run["answer"]["ranked"][0]["print"].is_null());
  EXPECT_EQ(visit.ask("GET", run["file"]).body.substr(1, 3), "PNG");
  EXPECT_EQ(visit.version(), before);
  const Reply bad = visit.ask("POST", base + "border", "this is no photograph");
  EXPECT_EQ(visit.finished("harbour", bad.json()["id"])["state"], "failed");
  const Reply nothing = visit.ask("POST", base + "sleeve", demo_photograph("03-samphire.jpg"));
  EXPECT_EQ(visit.finished("harbour", nothing.json()["id"])["state"], "failed");
  EXPECT_TRUE(fs::is_empty(visit.folder() / ".farflung" / "arriving"));
}

TEST(TheRaffleQuilt, IsMadeFromThePageToldOfAndCanBeStopped) {
  Visit visit;
  const Reply begun = visit.post("/demo", {{"name", "Raffle"}});
  ASSERT_EQ(begun.status, 202) << begun.body;
  const std::string place = "/demo/" + begun.json()["id"].get<std::string>();
  EXPECT_EQ(visit.get(place)["does"], "demo");
  EXPECT_EQ(visit.ask("GET", "/demo/999").status, 404);
  EXPECT_EQ(visit.ask("DELETE", place).status, 202);
  std::string state = "running";
  for (int time = 0; time < 2400 && (state == "running" || state == "waiting"); ++time) {
    ::usleep(50'000);
    state = visit.get(place).value("state", "");
  }
  EXPECT_EQ(state, "stopped");
  EXPECT_EQ(visit.ask("GET", "/quilts/Raffle").status, 404) << "half a quilt is none";
}

/// Made small: what takes long of a photograph is its pixels, of which nothing is asked here.
std::string small_photograph(const std::string& name) {
  photo::DecodeOptions small;
  small.longest = 600;
  const auto taken =
      photo::decode((fs::path(FARFLUNG_SOURCE) / "data" / "demo" / "photographs" / name).string(), small);
  const auto bytes = photo::encode(taken->picture, photo::Format::jpeg);
  return {bytes->begin(), bytes->end()};
}

TEST(Photographs, TwentyAtOnceWhileTheirSwatchesAreLookedAtAllComeIn) {
  Visit visit;
  visit.make_quilt();
  const std::string bytes = small_photograph("03-samphire.jpg");
  std::vector<std::string> ids(20);
  std::vector<std::thread> hands;
  for (std::size_t k = 0; k < ids.size(); ++k) {
    hands.emplace_back([&, k] {
      const std::string where = "/quilts/harbour/photographs?name=samphire" + std::to_string(k) + ".jpg";
      // What follows a picture's end is no part of it, but makes each another file.
      ids[k] = visit.ask("POST", where, bytes + std::string(k + 1, ' ')).json().value("id", "");
      for (const char* print : {"P07.png", "P08.png", "P20.png"}) {
        const Reply swatch = visit.ask("GET", "/quilts/harbour/swatches/" + std::string(print) + "?longest=128");
        EXPECT_TRUE(swatch.status == 200 || swatch.status == 404) << swatch.status;
      }
      EXPECT_EQ(visit.ask("GET", "/quilts/harbour/picture.png?width=160").status, 200);
    });
  }
  for (std::thread& hand : hands) hand.join();
  for (const std::string& id : ids) {
    const Json run = visit.finished("harbour", id);
    EXPECT_EQ(run["state"], "done") << run.dump();
  }
  EXPECT_EQ(visit.get("/quilts/harbour")["quilt"]["prints"].size(), 26U);
}

}  // namespace
}  // namespace farflung::server
