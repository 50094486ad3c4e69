// Ctrl-C at any moment, and worse: kill -9. Nothing is lost and nothing half-done is left.
#include <algorithm>
#include <chrono>
#include <csignal>
#include <cstdint>
#include <cstdlib>
#include <functional>
#include <thread>

#include <fcntl.h>
#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <nlohmann/json.hpp>
#include <sys/wait.h>
#include <unistd.h>

#include "app/run.hpp"
#include "base/rng.hpp"
#include "server/client.hpp"

namespace farflung::app {
namespace {

const std::string kOneCloth = "'" + kDemoPhotographs + "/09-sailcloth.jpg'";

/// The program at work in the background, without a shell between.
class AtWork {
 public:
  AtWork(const fs::path& folder, const std::string& words) {
    pid_ = ::fork();
    if (pid_ != 0) return;
    ::signal(SIGINT, SIG_DFL);  // whoever runs the tests may not listen to it
    const int out = ::open((folder / ".said").c_str(), O_WRONLY | O_CREAT | O_TRUNC, 0600);
    ::dup2(out, STDOUT_FILENO);
    ::dup2(out, STDERR_FILENO);
    ::setenv("LLVM_PROFILE_FILE", "/dev/null", 1);  // killed as it writes its counts, it would spoil the others'
    if (::chdir(folder.c_str()) == 0)
      ::execl("/bin/sh", "sh", "-c", ("exec " + kProgram + " " + words).c_str(), nullptr);
    ::_exit(127);
  }
  ~AtWork() {
    if (pid_ > 0) end(SIGKILL);
  }
  AtWork(const AtWork&) = delete;
  AtWork& operator=(const AtWork&) = delete;

  bool over() {
    if (pid_ > 0 && ::waitpid(pid_, &status_, WNOHANG) == pid_) pid_ = 0;
    return pid_ == 0;
  }

  /// The status as a shell gives it.
  int end(int signal) {
    if (!over()) {
      ::kill(pid_, signal);
      ::waitpid(pid_, &status_, 0);
      pid_ = 0;
    }
    return WIFEXITED(status_) ? WEXITSTATUS(status_) : 128 + WTERMSIG(status_);
  }

 private:
  pid_t pid_ = 0;
  int status_ = 0;
};

void nap(int milliseconds) { std::this_thread::sleep_for(std::chrono::milliseconds(milliseconds)); }

std::map<std::string, std::size_t> quilt_files(const Bench& bench) {
  auto files = bench.everything();
  std::erase_if(files, [](const auto& file) {
    return file.first == ".said" || file.first.ends_with(".lock") ||
           file.first.find("farflung-tmp") != std::string::npos;
  });
  return files;
}

/// Four blocks by four, six prints of one colour each.
void lay_out(const Bench& bench) {
  ASSERT_EQ(bench.run("new harbour --size 16x16 --block 4").status, 0);
  int colour = 1;
  for (const char* name : {"Kelp", "Buoy", "Gannet", "Trawl", "Thrift", "Tiller"}) {
    ASSERT_EQ(bench
                  .run("photo harbour --name " + std::string(name) + " --colour '#" +
                       std::to_string(100000 + 111111 * colour++) + "'")
                  .status,
              0);
  }
  ASSERT_EQ(bench.run("arrange harbour --effort 0.02").status, 0);
}

TEST(CtrlC, StopsAnArrangementWithoutATrace) {
  const Bench bench;
  lay_out(bench);
  const auto before = quilt_files(bench);
  for (const int milliseconds : {0, 20, 200, 1000}) {
    AtWork arranging(bench.folder(), "arrange harbour --effort 1000 --seed 7");
    nap(milliseconds);
    EXPECT_FALSE(arranging.over());
    const int status = arranging.end(SIGINT);
    EXPECT_TRUE(status == 130) << status << " after " << milliseconds << " ms";
    EXPECT_EQ(quilt_files(bench), before);
  }
  EXPECT_EQ(bench.run("check harbour").status, 0);
}

TEST(CtrlC, StopsTakingPhotographsWithoutATrace) {
  const Bench bench;
  ASSERT_EQ(bench.run("new harbour --size 16x16 --block 4").status, 0);
  const auto before = quilt_files(bench);
  for (const int milliseconds : {10, 150, 400}) {
    AtWork reading(bench.folder(), "photo harbour '" + kDemoPhotographs + "'/*.jpg");
    nap(milliseconds);
    EXPECT_FALSE(reading.over());
    EXPECT_EQ(reading.end(SIGINT), 130);
    EXPECT_EQ(quilt_files(bench), before);
  }
}

TEST(CtrlC, ClosesThePage) {
  const Bench bench;
  fs::create_directory(bench.folder() / "quilts");
  AtWork serving(bench.folder(), "serve quilts");
  for (int time = 0; time < 600 && bytes_of(bench.folder() / ".said").find('\n') == std::string::npos; ++time) nap(50);
  EXPECT_THAT(bytes_of(bench.folder() / ".said"), ::testing::StartsWith("http://127.0.0.1:"));
  EXPECT_EQ(serving.end(SIGINT), 0);
}

/// Runs `words` again and again, killed each time at another moment of the time that it takes undisturbed, and looks at
/// what is left.
void kill_again_and_again(const Bench& bench, const std::string& words, int times, const std::function<void()>& look) {
  const auto began = std::chrono::steady_clock::now();
  ASSERT_EQ(bench.run(words).status, 0);
  const auto taken = std::chrono::duration_cast<std::chrono::milliseconds>(std::chrono::steady_clock::now() - began);
  const auto longest = static_cast<std::uint32_t>(std::max<std::int64_t>(1, taken.count()));
  look();
  Rng rng(Seed{71});
  int killed = 0;
  for (int time = 0; time < times; ++time) {
    AtWork work(bench.folder(), words);
    nap(static_cast<int>(rng.below(longest)));
    if (work.end(SIGKILL) == 128 + SIGKILL) ++killed;
    const auto checked = bench.run("check harbour --json");
    ASSERT_EQ(checked.status, 0) << "time " << time << ": " << checked.out << checked.err;
    look();
    if (::testing::Test::HasFatalFailure()) return;
  }
  EXPECT_GT(killed, times / 4);
}

/// How often, where nobody asks for more: FARFLUNG_KILLS.
int kills() {
  const char* asked = std::getenv("FARFLUNG_KILLS");
  return asked != nullptr ? std::max(1, std::atoi(asked)) : 12;
}

TEST(KillNine, InTheMidstOfArrangingLeavesAWholeQuilt) {
  const Bench bench;
  lay_out(bench);
  kill_again_and_again(bench, "arrange harbour --effort 0.02 --blocks open --seed $(date +%N)", kills(),
                       [&] { EXPECT_EQ(bench.run("undo harbour -q").status & ~2, 0); });
}

TEST(KillNine, InTheMidstOfPhotographsLeavesPrintsWithAllTheirFiles) {
  const Bench bench;
  ASSERT_EQ(bench.run("new harbour --size 16x16 --block 4").status, 0);
  const std::string empty = bytes_of(bench.folder() / "harbour" / "quilt.json");
  kill_again_and_again(bench, "photo harbour --whole " + kOneCloth, kills(), [&] {
    // Every file that the quilt names is there, whole; the preview reads them all.
    const auto drawn = bench.run("preview harbour -o top.png --force");
    ASSERT_EQ(drawn.status, 0) << drawn.err;
    bench.write("harbour/quilt.json", empty);
  });
}

/// What a page does: is let in, then renames the quilt again and again.
class Page {
 public:
  explicit Page(const std::string& address) {
    const std::size_t colon = address.find(':', 7), key = address.find("?key=");
    port_ = std::stoi(address.substr(colon + 1));
    const server::Reply entered = ask("GET", "/?key=" + address.substr(key + 5, 32), "");
    const auto cookie = entered.headers.find("set-cookie");
    if (cookie != entered.headers.end()) cookie_ = cookie->second.substr(0, cookie->second.find(';'));
  }

  bool let_in() const { return !cookie_.empty(); }

  /// False where no answer came.
  bool name_quilt(const std::string& title) const {
    const nlohmann::json edit = {{"does", "set"}, {"pointer", "/title"}, {"value", title}};
    const nlohmann::ordered_json standing = ask("GET", "/quilts/harbour", "").json();
    if (!standing.is_object()) return false;  // cut off
    const std::string version = standing.value("version", "");
    const nlohmann::json edits = {{"version", version}, {"by", "page"}, {"edits", nlohmann::json::array({edit})}};
    return ask("POST", "/quilts/harbour/edits", edits.dump()).status == 200;
  }

 private:
  server::Reply ask(const std::string& method, const std::string& path, const std::string& body) const {
    const std::string host = "127.0.0.1:" + std::to_string(port_);
    server::Wire wire(port_);
    wire.send(method + " " + path + " HTTP/1.1\r\nHost: " + host + "\r\nOrigin: http://" + host +
              "\r\nSec-Fetch-Site: same-origin\r\nCookie: " + cookie_ +
              "\r\nConnection: close\r\nContent-Length: " + std::to_string(body.size()) + "\r\n\r\n" + body);
    return server::reply_in(wire.until_closed());
  }

  int port_ = 0;
  std::string cookie_;
};

TEST(KillNine, InTheMidstOfServingLosesNoAcknowledgedEdit) {
  const Bench bench;
  lay_out(bench);
  Rng rng(Seed{72});
  std::string acknowledged = "harbour";
  int number = 0;
  for (int time = 0; time < kills(); ++time) {
    fs::remove(bench.folder() / ".said");
    AtWork serving(bench.folder(), "serve .");
    const auto said = [&] { return bytes_of(bench.folder() / ".said"); };
    for (int wait = 0; wait < 1200 && said().find('\n') == std::string::npos; ++wait) nap(25);
    const Page page(said());
    ASSERT_TRUE(page.let_in()) << said();
    std::jthread killer([&serving, milliseconds = static_cast<int>(rng.below(120))] {
      nap(milliseconds);
      serving.end(SIGKILL);
    });
    std::string tried = acknowledged;
    for (bool answered = true; answered;) {
      tried = "title " + std::to_string(++number);
      answered = page.name_quilt(tried);
      if (answered) acknowledged = tried;
    }
    killer.join();
    const auto quilt = nlohmann::json::parse(bytes_of(bench.folder() / "harbour" / "quilt.json"), nullptr, false);
    ASSERT_TRUE(quilt.is_object()) << "torn at time " << time;
    const std::string title = quilt.value("title", "");
    ASSERT_TRUE(title == acknowledged || title == tried) << title << ", acknowledged " << acknowledged;
    acknowledged = title;
    ASSERT_EQ(bench.run("check harbour").status, 0);
  }
}

}  // namespace
}  // namespace farflung::app
