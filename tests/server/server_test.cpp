// The page's requests, each asked of a real server on loopback.
#include <fstream>
#include <thread>

#include "client.hpp"
#include "server/url.hpp"

namespace farflung::server {
namespace {

namespace fs = std::filesystem;

std::string bytes_of(const fs::path& file) {
  std::ifstream stream(file, std::ios::binary);
  return {std::istreambuf_iterator<char>(stream), {}};
}

Json swap(const std::string& a, const std::string& b) { return {{"does", "swap"}, {"cells", {a, b}}}; }

/// One server and one quilt for all tests of this file that do not mind what others did to it.
class ThePage : public testing::Test {
 protected:
  static void SetUpTestSuite() {
    visit_ = new Visit;
    visit_->make_quilt();
  }
  static void TearDownTestSuite() {
    delete visit_;
    visit_ = nullptr;
  }
  static Visit* visit_;
};
Visit* ThePage::visit_ = nullptr;

TEST_F(ThePage, ComesWithAStrictPolicyAndIsKeptByItsTag) {
  const Reply page = visit_->ask("GET", "/");
  EXPECT_EQ(page.status, 200);
  EXPECT_NE(page.body.find("<!doctype html>"), std::string::npos) << "whoever takes no gzip gets it as it is";
  EXPECT_EQ(page.headers.at("content-security-policy").rfind("default-src 'self';", 0), 0U);
  EXPECT_EQ(page.headers.at("content-security-policy").find("unsafe"), std::string::npos);
  EXPECT_EQ(page.headers.at("x-content-type-options"), "nosniff");
  const std::string tag = page.headers.at("etag");
  EXPECT_EQ(visit_->ask("GET", "/", "", "If-None-Match: " + tag + "\r\n").status, 304);
  const Reply packed = visit_->ask("GET", "/index.html", "", "Accept-Encoding: gzip\r\n");
  EXPECT_EQ(packed.headers.at("content-encoding"), "gzip");
  EXPECT_EQ(visit_->ask("POST", "/index.html").status, 405);
}

TEST_F(ThePage, WhoeverWasNotLetInLearnsNothing) {
  for (const char* path : {"/", "/index.html", "/quilts", "/quilts/harbour", "/quilts/harbour/events", "/nothing"}) {
    EXPECT_EQ(visit_->ask("GET", path, "", "", false).status, 403) << path;
  }
  EXPECT_EQ(visit_->ask("GET", "/?key=" + std::string(32, '0'), "", "", false).status, 403);
  EXPECT_EQ(visit_->ask("GET", "/?key=" + visit_->key(), "", "Sec-Fetch-Site: cross-site\r\n", false).status, 403)
      << "a header that stands twice";
  EXPECT_EQ(visit_->ask("POST", "/quilts", "{}", "", false).status, 403);
}

TEST_F(ThePage, TheCookieIsOutOfReachForScriptsAndOtherSites) {
  const Reply entered = visit_->ask("GET", "/?key=" + visit_->key(), "", "", false);
  EXPECT_EQ(entered.status, 303);
  EXPECT_EQ(entered.headers.at("location"), "/") << "the key does not stay in the address";
  EXPECT_NE(entered.headers.at("set-cookie").find("; HttpOnly; SameSite=Strict"), std::string::npos);
  EXPECT_EQ(entered.headers.at("set-cookie").rfind("farflung-" + std::to_string(visit_->port()) + "=", 0), 0U);
}

TEST_F(ThePage, DataIsNeverKeptByABrowser) {
  EXPECT_EQ(visit_->ask("GET", "/quilts").headers.at("cache-control"), "no-store");
}

TEST_F(ThePage, ListsHerQuilts) {
  const Json quilt = visit_->get("/quilts")["quilts"][0];
  EXPECT_EQ(quilt["name"], "harbour");
  EXPECT_EQ(quilt["blocks"], 12);
  EXPECT_EQ(quilt["laid"], 12);
  EXPECT_EQ(quilt["prints"], 6);
  EXPECT_EQ(quilt["version"], visit_->version());
}

TEST_F(ThePage, GivesOneQuiltWhole) {
  const Json quilt = visit_->get("/quilts/harbour");
  EXPECT_EQ(quilt["quilt"]["format"], "farflung-quilt");
  EXPECT_EQ(quilt["quilt"]["prints"].size(), 6U);
  EXPECT_EQ(quilt["layout"]["block"].size(), 12U);
  EXPECT_GT(quilt["undo"], 5);
  EXPECT_EQ(visit_->ask("GET", "/quilts/nothing").status, 404);
  EXPECT_EQ(visit_->ask("PUT", "/quilts/harbour").status, 405);
}

TEST_F(ThePage, GivesWhatThereIsToDraw) {
  const Json top = visit_->get("/quilts/harbour/top");
  EXPECT_EQ(top["cells"].size(), 12U);
  EXPECT_EQ(top["cells"][0]["name"], "R1 C1");
  EXPECT_EQ(top["cells"][0]["outline"], Json::parse("[[0,0],[8,0],[8,8],[0,8]]"));
  EXPECT_EQ(top["prints"][0]["code"].get<std::string>().size(), 1U);
  EXPECT_EQ(top["blocks"][0]["prints"].size(), top["patterns"][0]["patches"].size());
  EXPECT_EQ(top["blocks"][0]["crops"].size(), top["patterns"][0]["patches"].size());
}

TEST_F(ThePage, AnEditAnswersWithTheNewVersionAndScore) {
  const std::string before = visit_->version();
  const Reply reply = visit_->edit(swap("R1C1", "R4C3"), before);
  ASSERT_EQ(reply.status, 200) << reply.body;
  EXPECT_NE(reply.json()["version"], before);
  EXPECT_EQ(reply.json()["says"], "Swapped R1 C1 with R4 C3.");
  EXPECT_TRUE(reply.json()["touch"]["count"].is_number());
  EXPECT_TRUE(reply.json()["F"].is_number());
  const Reply back = visit_->edit({{"does", "undo"}}, reply.json()["version"]);
  EXPECT_EQ(back.status, 200);
  EXPECT_EQ(back.json()["version"], before) << "the same file is the same version";
  EXPECT_EQ(back.json()["redo"], 1);
}

TEST_F(ThePage, AnEditOnAnOldVersionChangesNothing) {
  const std::string before = visit_->version();
  const std::string after = visit_->edit(swap("R1C1", "R1C2"), before).json()["version"];
  const Reply late = visit_->edit(swap("R2C1", "R2C2"), before);
  EXPECT_EQ(late.status, 409);
  EXPECT_EQ(late.json()["version"], after);
  EXPECT_EQ(visit_->version(), after);
  EXPECT_EQ(visit_->edit({{"does", "undo"}}, before).status, 409);
  EXPECT_EQ(visit_->post("/quilts/harbour/edits", {{"edits", Json::array({swap("R1C1", "R1C2")})}}).status, 422)
      << "nor does one that says no version";
}

TEST_F(ThePage, EditsMadeTogetherAreDoneTogetherOrNotAtAll) {
  const std::string before = visit_->version();
  const Json good = {{"does", "set"}, {"pointer", "/title"}, {"value", "Harbour raffle"}};
  const Json bad = swap("R1C1", "R9C9");
  EXPECT_EQ(visit_->post("/quilts/harbour/edits", {{"version", before}, {"edits", {good, bad}}}).status, 422);
  EXPECT_EQ(visit_->version(), before);
  const Reply done =
      visit_->post("/quilts/harbour/edits", {{"version", before}, {"edits", {good, swap("R1C1", "R1C2")}}});
  EXPECT_EQ(done.status, 200) << done.body;
  EXPECT_EQ(visit_->edit({{"does", "undo"}}, done.json()["version"]).json()["version"], before) << "one version";
}

TEST_F(ThePage, AKeptBlockStays) {
  const Json kept = visit_->edit({{"does", "keep"}, {"cells", {"R2C2"}}}, visit_->version()).json();
  EXPECT_EQ(kept["layout"]["kept"][4], true);
  EXPECT_EQ(visit_->edit(swap("R2C2", "R1C1"), kept["version"]).status, 422);
  EXPECT_EQ(visit_->edit({{"does", "free"}, {"cells", {"R2C2"}}}, kept["version"]).status, 200);
}

TEST_F(ThePage, EventsTellOfAnothersEditAndOfARun) {
  Wire wire(visit_->port());
  wire.send(visit_->lines("GET", "/quilts/harbour/events") + "\r\n");
  const auto has = [](const char* what) {
    return [what](const std::string& got) { return got.find(what) != std::string::npos; };
  };
  EXPECT_NE(wire.receive(has("event: hello")).find("text/event-stream"), std::string::npos);
  const Json edited = visit_->edit(swap("R1C1", "R2C1"), visit_->version()).json();
  const std::string told = wire.receive(has("event: version"));
  EXPECT_NE(told.find("\"version\":\"" + edited["version"].get<std::string>() + "\""), std::string::npos) << told;
  EXPECT_NE(told.find("\"by\":\"this tab\""), std::string::npos);

  const Json run = visit_->post("/quilts/harbour/runs", {{"does", "arrange"}, {"effort", 0.05}}).json();
  const std::string all = wire.receive(has("event: run\n"), 60'000);
  EXPECT_NE(all.find("event: progress\n"), std::string::npos);
  EXPECT_NE(all.find("event: layout\ndata: {\"run\":\"" + run["id"].get<std::string>() + "\",\"layout\":{\"block\":["),
            std::string::npos);
  const Json ended = visit_->finished("harbour", run["id"]);
  EXPECT_EQ(ended["state"], "done");
  EXPECT_EQ(ended["answer"]["schema_version"], 1);
}

TEST_F(ThePage, ARunIsStoppedAndLeavesTheQuiltAsItWas) {
  const std::string before = visit_->version();
  const Reply begun = visit_->post("/quilts/harbour/runs", {{"does", "arrange"}, {"effort", 100'000}});
  ASSERT_EQ(begun.status, 202);
  const std::string id = begun.json()["id"];
  EXPECT_EQ(visit_->post("/quilts/harbour/runs", {{"does", "arrange"}}).status, 423) << "one at a time";
  EXPECT_EQ(visit_->edit(swap("R1C1", "R2C1"), before).status, 423);
  EXPECT_EQ(visit_->ask("DELETE", "/quilts/harbour/runs/" + id).status, 202);
  EXPECT_EQ(visit_->finished("harbour", id)["state"], "stopped");
  EXPECT_EQ(visit_->version(), before);
  EXPECT_EQ(visit_->ask("DELETE", "/quilts/harbour/runs/999").status, 404);
}

TEST_F(ThePage, RunsGiveTheReportThatTheCommandPrints) {
  const auto answer = [&](const Json& asked) {
    const Reply begun = visit_->post("/quilts/harbour/runs", asked);
    EXPECT_EQ(begun.status, 202) << begun.body;
    const Json run = visit_->finished("harbour", begun.json().value("id", ""));
    EXPECT_EQ(run["state"], "done") << run.dump();
    return run;
  };
  EXPECT_TRUE(answer({{"does", "swaps"}, {"most", 3}})["answer"]["swaps"].is_array());
  EXPECT_EQ(answer({{"does", "choose"}, {"take", 3}})["answer"]["take"].size(), 3U);
  EXPECT_TRUE(answer({{"does", "sizes"}})["answer"].is_object());
  EXPECT_TRUE(answer({{"does", "cloth"}})["answer"]["cut"].is_array());
  const Json tried = answer({{"does", "try"}, {"as", "border"}});
  EXPECT_EQ(visit_->ask("GET", tried["file"]).body.substr(1, 3), "PNG");
  const Json printed = answer({{"does", "sheets"}, {"paper", "a4"}, {"only", {"map"}}});
  EXPECT_EQ(visit_->ask("GET", printed["file"]).body.substr(0, 5), "%PDF-");
  EXPECT_EQ(visit_->post("/quilts/harbour/runs", {{"does", "nonsense"}}).status, 422);
}

TEST_F(ThePage, AFailedRunSaysWhy) {
  const Json begun = visit_->post("/quilts/harbour/runs", {{"does", "choose"}, {"take", 99}}).json();
  const Json run = visit_->finished("harbour", begun["id"]);
  EXPECT_EQ(run["state"], "failed");
  EXPECT_FALSE(run["answer"]["problems"][0]["says"].get<std::string>().empty());
}

TEST_F(ThePage, PicturesAreDrawnOnceForAVersion) {
  const Reply first = visit_->ask("GET", "/quilts/harbour/picture.png?width=200");
  EXPECT_EQ(first.body.substr(1, 3), "PNG");
  EXPECT_EQ(first.headers.at("content-type"), "image/png");
  EXPECT_EQ(visit_
                ->ask("GET", "/quilts/harbour/picture.png?width=200", "",
                      "If-None-Match: " + first.headers.at("etag") + "\r\n")
                .status,
            304);
  EXPECT_NE(visit_->ask("GET", "/quilts/harbour/picture.png?width=200&grey=1").body, first.body);
  EXPECT_EQ(visit_->ask("GET", "/quilts/harbour/picture.svg?width=200").headers.at("content-type"), "image/svg+xml");
  EXPECT_EQ(visit_->ask("GET", "/quilts/harbour/swatches/P99.png").status, 404);
}

TEST_F(ThePage, LayoutsAreKeptLaidAndForgotten) {
  EXPECT_EQ(visit_->post("/quilts/harbour/layouts", {{"name", "first try"}}).status, 201);
  const std::string kept = visit_->version();
  const std::string after = visit_->edit(swap("R1C1", "R4C1"), kept).json()["version"];
  const Json list = visit_->get("/quilts/harbour/layouts")["layouts"];
  ASSERT_EQ(list.size(), 1U);
  EXPECT_EQ(list[0]["name"], "first try");
  EXPECT_TRUE(list[0]["F"].is_number());
  EXPECT_EQ(visit_->ask("GET", "/quilts/harbour/picture.png?width=100&layout=first%20try").status, 200);
  const Json before = visit_->get("/quilts/harbour")["layout"];
  const Json laid = visit_->edit({{"does", "lay"}, {"value", "first try"}}, after).json();
  EXPECT_NE(laid["layout"], before);
  EXPECT_EQ(laid["version"], kept);
  EXPECT_EQ(visit_->ask("DELETE", "/quilts/harbour/layouts/first%20try").status, 200);
  EXPECT_EQ(visit_->ask("DELETE", "/quilts/harbour/layouts/first%20try").status, 422);
  for (const char* name : {"", "../up", "a/b", ".hidden"}) {
    EXPECT_EQ(visit_->post("/quilts/harbour/layouts", {{"name", name}}).status, 422) << name;
  }
}

TEST_F(ThePage, QuiltsAreCopiedNamedLaidAsideAndTakenUp) {
  EXPECT_EQ(visit_->post("/quilts/harbour/copy", {{"name", "Möwe <b>"}}).status, 201);
  EXPECT_EQ(visit_->get("/quilts/" + escaped("Möwe <b>"))["quilt"]["prints"].size(), 6U);
  EXPECT_EQ(visit_->post("/quilts/" + escaped("Möwe <b>") + "/name", {{"name", "slipway"}}).json()["name"], "slipway");
  EXPECT_EQ(visit_->get("/quilts/slipway")["quilt"]["title"], "slipway") << "it is seen by its title";
  EXPECT_EQ(visit_->post("/quilts/slipway/name", {{"name", "harbour"}}).status, 422);
  EXPECT_EQ(
      visit_
          ->post("/quilts/slipway/edits", {{"version", visit_->version("slipway")},
                                           {"edits", {{{"does", "set"}, {"pointer", "/title"}, {"value", "Raffle"}}}}})
          .status,
      200);
  EXPECT_EQ(visit_->post("/quilts/slipway/name", {{"name", "slipway"}}).status, 200);
  EXPECT_EQ(visit_->get("/quilts/slipway")["quilt"]["title"], "slipway");
  EXPECT_EQ(visit_->ask("DELETE", "/quilts/slipway").status, 200);
  EXPECT_EQ(visit_->ask("GET", "/quilts/slipway").status, 404);
  EXPECT_EQ(visit_->get("/quilts")["aside"], Json::parse("[\"slipway\"]"));
  EXPECT_EQ(visit_->post("/aside/slipway", Json::object()).json()["name"], "slipway");
  EXPECT_EQ(visit_->ask("DELETE", "/quilts/slipway").status, 200);
}

TEST_F(ThePage, AQuiltIsPackedAndBroughtInWhole) {
  const Reply packed = visit_->ask("GET", "/quilts/harbour/packed");
  ASSERT_EQ(packed.status, 200);
  EXPECT_EQ(packed.headers.at("content-disposition"), "attachment; filename*=UTF-8''harbour.tar");
  const Reply in = visit_->ask("POST", "/packed?name=harbour.tar", packed.body);
  ASSERT_EQ(in.status, 201) << in.body;
  EXPECT_EQ(in.json()["name"], "harbour 2");
  EXPECT_EQ(visit_->version("harbour%202"), visit_->version());
  EXPECT_EQ(visit_->ask("POST", "/packed?name=x", "no quilt at all").status, 422);
  EXPECT_EQ(visit_->ask("POST", "/packed?name=x", "").status, 422);
  EXPECT_EQ(visit_->ask("DELETE", "/quilts/harbour%202").status, 200);
  EXPECT_TRUE(fs::is_empty(visit_->folder() / ".farflung" / "arriving")) << "nothing is left of what came and went";
}

TEST_F(ThePage, ShowsWhatAQuiltCanBeBegunFrom) {
  const Json library = visit_->get("/library");
  EXPECT_GT(library["patterns"].size(), 10U);
  EXPECT_EQ(library["patterns"][0]["patches"][0]["outline"][0].size(), 2U);
  EXPECT_GT(library["sizes"].size(), 3U);
  EXPECT_EQ(library["cloth"]["inches"][0]["kind"], "fat quarter");
  EXPECT_EQ(library["cloth"]["inches"][0]["many"], "fat quarters");
  EXPECT_EQ(library["cloth"]["inches"][0]["usable_width"], 20);
  EXPECT_NEAR(library["cloth"]["metric"][0]["usable_length"].get<double>(), 48.5 / 2.54, 1e-6);
  EXPECT_TRUE(library["cloth"]["metric"].back()["usable_length"].is_null()) << "off the bolt";
  EXPECT_EQ(library["sheets"][0]["name"], "cover");
  EXPECT_EQ(visit_->post("/quilts", {{"name", "x"}, {"pattern", "../../etc/passwd.json"}}).status, 422);
  EXPECT_EQ(visit_->post("/quilts", {{"name", "../x"}}).status, 422);
  const Reply told = visit_->post("/quilts", {{"name", "x"}, {"size", "60x72"}, {"dry_run", true}});
  EXPECT_EQ(told.status, 200);
  EXPECT_NE(told.json()["says"].get<std::string>().find("rows of"), std::string::npos);
  EXPECT_EQ(visit_->ask("GET", "/quilts/x").status, 404) << "a dry run makes nothing";
}

TEST_F(ThePage, TheNetworkIsShutUnlessAskedFor) { EXPECT_EQ(visit_->post("/telephone", {}).status, 404); }

TEST(Photographs, AnOutlineLaidRightByHandCutsTheSwatchAnewAndUndoFindsTheOldOne) {
  Visit visit;
  visit.make_quilt();
  const fs::path photograph = fs::path(FARFLUNG_SOURCE) / "data" / "demo" / "photographs" / "03-samphire.jpg";
  const Reply sent = visit.ask("POST", "/quilts/harbour/photographs?name=samphire.jpg", bytes_of(photograph));
  ASSERT_EQ(visit.finished("harbour", sent.json()["id"])["state"], "done");
  const Json before = visit.get("/quilts/harbour")["quilt"]["prints"][6];
  Json corners = before["photo"]["corners"];
  corners[0][0] = corners[0][0].get<double>() + 40;
  const auto outlined = [&](const Json& asked) {
    const Reply begun =
        visit.post("/quilts/harbour/runs", {{"does", "outline"}, {"print", before["id"]}, {"corners", asked}});
    return visit.finished("harbour", begun.json()["id"]);
  };
  const Json run = outlined(corners);
  ASSERT_EQ(run["state"], "done") << run.dump();
  const Json now = visit.get("/quilts/harbour")["quilt"]["prints"][6];
  EXPECT_NEAR(now["photo"]["corners"][0][0], corners[0][0], 1);
  EXPECT_NE(now["swatch"], before["swatch"]);
  EXPECT_EQ(now["name"], before["name"]);
  EXPECT_TRUE(fs::exists(visit.folder() / "harbour" / before["swatch"].get<std::string>()));
  EXPECT_EQ(outlined(Json::array({1, 2}))["state"], "failed");
  EXPECT_EQ(outlined(nullptr)["state"], "failed");
}

TEST(AWall, IsReadFromThePhotographSentAndNotLaidUnasked) {
  Visit visit;
  visit.make_quilt();
  const std::string base = "/quilts/harbour/walls?name=wall.png&top=1";
  const std::string picture = visit.ask("GET", "/quilts/harbour/picture.png?width=900").body;
  const std::string planned = visit.get("/quilts/harbour")["quilt"]["layout"]["cells"].dump();
  ASSERT_EQ(visit.edit(swap("R1C1", "R2C2"), visit.version()).status, 200);
  const std::string corners = "&corners=0,0,900,0,900,1200,0,1200";
  const Json read = visit.finished("harbour", visit.ask("POST", base + corners, picture).json()["id"]);
  EXPECT_EQ(read["state"], "done") << read.dump();
  EXPECT_FALSE(read["answer"]["cells"].empty());
  EXPECT_NE(visit.get("/quilts/harbour")["quilt"]["layout"]["cells"].dump(), planned) << "only read";
  const Reply bad = visit.ask("POST", base, "this is no photograph");
  ASSERT_EQ(bad.status, 202) << bad.body;
  EXPECT_EQ(visit.finished("harbour", bad.json()["id"])["state"], "failed");
  EXPECT_EQ(visit.ask("POST", base, "").status, 422);
}

TEST(Photographs, AreShownInASizeThatAScreenTakesBeforeTheyComeInAndNothingIsKept) {
  const Visit visit;
  const fs::path demo = fs::path(FARFLUNG_SOURCE) / "data" / "demo" / "photographs";
  const Reply shown = visit.ask("POST", "/shown?longest=400", bytes_of(demo / "03-samphire.jpg"));
  ASSERT_EQ(shown.status, 200) << shown.body;
  EXPECT_EQ(shown.headers.at("content-type"), "image/jpeg");
  EXPECT_EQ(shown.body.substr(0, 2), "\xff\xd8");
  EXPECT_LT(shown.body.size(), bytes_of(demo / "03-samphire.jpg").size() / 2);
  EXPECT_EQ(shown.headers.at("full-size"), "1200x1440");
  EXPECT_EQ(visit.ask("POST", "/shown", "this is no photograph").status, 422);
  EXPECT_EQ(visit.ask("POST", "/shown", "").status, 422);
  EXPECT_TRUE(fs::is_empty(visit.folder() / ".farflung" / "arriving"));
}

TEST(Photographs, ComeInWithTheirNamesAndABadOneDoesNotStopTheOthers) {
  Visit visit;
  visit.make_quilt();
  const fs::path demo = fs::path(FARFLUNG_SOURCE) / "data" / "demo" / "photographs";
  const std::string base = "/quilts/harbour/photographs?name=";
  const Reply good = visit.ask("POST", base + "samphire.jpg&across=8", bytes_of(demo / "03-samphire.jpg"));
  const Reply bad = visit.ask("POST", base + escaped("<b>../x.jpg"), "this is no photograph");
  const Reply other = visit.ask("POST", base + "shingle.jpg&across=8", bytes_of(demo / "04-shingle.jpg"));
  for (const Reply& reply : {good, bad, other}) ASSERT_EQ(reply.status, 202) << reply.body;
  // She goes on swapping while they are read; neither is lost.
  const Reply edited = visit.edit(swap("R1C1", "R2C2"), visit.version());
  EXPECT_EQ(visit.finished("harbour", good.json()["id"])["state"], "done");
  EXPECT_EQ(visit.finished("harbour", bad.json()["id"])["state"], "failed");
  EXPECT_EQ(visit.finished("harbour", other.json()["id"])["state"], "done");
  const Json quilt = visit.get("/quilts/harbour")["quilt"];
  ASSERT_EQ(quilt["prints"].size(), 8U);
  EXPECT_EQ(quilt["prints"][6]["name"], "Samphire");
  EXPECT_EQ(quilt["prints"][7]["name"], "Shingle");
  const Reply swatch = visit.ask("GET", "/quilts/harbour/" + quilt["prints"][6]["swatch"].get<std::string>());
  EXPECT_EQ(swatch.body.substr(0, 2), "\xff\xd8");
  const Reply shown = visit.ask("GET", "/quilts/harbour/photographs/samphire.jpg?longest=400");
  EXPECT_EQ(shown.body.substr(0, 2), "\xff\xd8");
  EXPECT_EQ(shown.headers.at("full-size"), "1200x1440") << "what its corners are counted in";
  for (const char* name : {"..%2Fquilt.json", "..%2f..%2f..%2fetc%2fpasswd", ".hidden", "nothing.jpg"}) {
    EXPECT_EQ(visit.ask("GET", "/quilts/harbour/photographs/" + std::string(name)).status, 404) << name;
  }
  EXPECT_EQ(visit.ask("POST", base + "empty.jpg", "").status, 422);
  EXPECT_TRUE(fs::is_empty(visit.folder() / ".farflung" / "arriving"));
}

TEST(AServer, ThatComesBackKnowsItsPagesAndEveryEdit) {
  Visit visit;
  visit.make_quilt();
  const std::string cookie = visit.cookie().substr(visit.cookie().find('='));
  const std::string saved = visit.edit(swap("R1C1", "R3C3"), visit.version()).json()["version"];
  const std::string key = visit.key();
  visit.open();
  EXPECT_EQ(visit.key(), key);
  EXPECT_EQ(visit.cookie().substr(visit.cookie().find('=')), cookie);
  EXPECT_EQ(visit.version(), saved);
  struct stat facts {};
  ASSERT_EQ(::stat((visit.folder() / ".farflung" / "key").c_str(), &facts), 0);
  EXPECT_EQ(facts.st_mode & 077, 0U) << "nobody else reads the key";
}

TEST(AServer, OpensAtTheQuiltWhoseFolderItIsGiven) {
  Visit visit;
  visit.make_quilt();
  auto opened = Server::open({(visit.folder() / "harbour").string(), 0, false});
  ASSERT_TRUE(opened);
  EXPECT_NE((*opened)->address().find("#/quilts/harbour"), std::string::npos);
}

TEST(AServer, IsClosedWhileARunGoesOnAndNothingIsLost) {
  auto visit = std::make_unique<Visit>();
  visit->make_quilt();
  const std::string quilt = bytes_of(visit->folder() / "harbour" / "quilt.json");
  Wire wire(visit->port());
  wire.send(visit->lines("GET", "/quilts/harbour/events") + "\r\n");
  wire.receive([](const std::string& got) { return got.find("event: hello") != std::string::npos; });
  ASSERT_EQ(visit->post("/quilts/harbour/runs", {{"does", "arrange"}, {"effort", 100'000}}).status, 202);
  visit->open();
  EXPECT_EQ(bytes_of(visit->folder() / "harbour" / "quilt.json"), quilt);
  wire.until_closed(5000);
  EXPECT_TRUE(wire.closed());
}

}  // namespace
}  // namespace farflung::server
