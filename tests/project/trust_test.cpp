// Nothing lost: every system call of saving is failed once, writers are killed at any moment, disks are full, folders
// closed.
#include <csignal>
#include <fstream>
#include <functional>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <sys/wait.h>
#include <unistd.h>

#include "base/rng.hpp"
#include "project/failing_calls.hpp"
#include "project/pack.hpp"
#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::HasSubstr;

enum class Step { edit, undo, redo };

/// What a quilt's history should be: the titles, and which of them is shown.
class Model {
 public:
  void apply(Step step, int number) {
    if (step == Step::undo) {
      now_ -= now_ > 0 ? 1 : 0;
    } else if (step == Step::redo) {
      now_ += now_ + 1 < titles_.size() ? 1 : 0;
    } else {
      titles_.resize(now_ + 1);
      titles_.push_back(std::to_string(number));
      if (titles_.size() > 51) titles_.erase(titles_.begin());
      now_ = titles_.size() - 1;
    }
  }

  const std::string& title() const { return titles_[now_]; }
  History history() const { return {static_cast<int>(now_), static_cast<int>(titles_.size() - 1 - now_)}; }

 private:
  std::vector<std::string> titles_ = {"Harbour raffle"};
  std::size_t now_ = 0;
};

/// Makes a step on the disk. Having nothing to undo or redo is no failure.
Result<Done> make_step(const std::filesystem::path& folder, Step step, int number) {
  if (step != Step::edit) {
    const Result<Document> gone = step == Step::undo ? undo(folder) : redo(folder);
    if (gone || gone.problems().front().kind == Problem::Kind::input) return Done{};
    return gone.problems();
  }
  Result<Document> document = read(folder);
  if (!document) return document.problems();
  document->quilt.title = std::to_string(number);
  return write(folder, *document);
}

Step random_step(Rng& rng) {
  const std::uint32_t roll = rng.below(10);
  return roll < 5 ? Step::edit : roll < 8 ? Step::undo : Step::redo;
}

/// The title of the quilt that stands on the disk; the file must be whole.
std::string shown(const std::filesystem::path& folder) {
  const std::string text = bytes_of(folder / "quilt.json");
  const std::string key = "\"title\": \"";
  const std::size_t at = text.find(key);
  if (at == std::string::npos || text.substr(text.size() - 2) != "}\n") return "torn: " + text;
  return text.substr(at + key.size(), text.find('"', at + key.size()) - at - key.size());
}

/// A child process that runs `work` and nothing after it.
pid_t in_child(const std::function<int()>& work) {
  const pid_t child = ::fork();
  if (child == 0) ::_exit(work());
  return child;
}

int status_of(pid_t child) {
  int status = 0;
  ::waitpid(child, &status, 0);
  return WIFEXITED(status) ? WEXITSTATUS(status) : -1;
}

/// Makes a small quilt in a fresh folder.
void start(const std::filesystem::path& folder) {
  Document document = two_squares();
  must(create(folder, document));
}

TEST(Trust, EveryCallOfASessionMayFailOnceAndNothingIsLost) {
  const std::vector<Step> session = {Step::edit, Step::edit, Step::undo, Step::edit, Step::edit,
                                     Step::undo, Step::undo, Step::redo, Step::edit};
  std::set<std::string> failed;
  bool reached = true;
  for (int nth = 1; reached; ++nth) {
    TemporaryFolder folder;
    start(folder.path());
    Model model;
    failure = {nth, nth % 2 == 0 ? ENOSPC : EIO};
    int number = 0;
    for (const Step step : session) {
      const std::string before = shown(folder.path());
      const Result<Done> first = make_step(folder.path(), step, ++number);
      const std::string after = shown(folder.path());
      model.apply(step, number);
      if (first) {
        ASSERT_EQ(after, model.title()) << "call " << nth << " " << failure.failed;
      } else {
        EXPECT_EQ(first.problems().front().kind, Problem::Kind::system);
        const bool last_fsync = failure.failed == "fsync" && after == model.title();
        ASSERT_TRUE(after == before || last_fsync) << "call " << nth << " " << failure.failed;
        if (after == before) must(make_step(folder.path(), step, number));
      }
      ASSERT_EQ(shown(folder.path()), model.title()) << "call " << nth << " " << failure.failed;
      ASSERT_EQ(must(history(folder.path())), model.history()) << "call " << nth << " " << failure.failed;
    }
    must(read(folder.path()));
    reached = failure.calls_until == 0;
    failed.insert(failure.failed);
    failure = {};
    ASSERT_LT(nth, 1'000);
  }
  EXPECT_THAT(failed, ::testing::IsSupersetOf({"open", "write", "fsync", "rename", "unlink"}));
}

TEST(Trust, AQuiltThatCouldNotBeMadeLeavesNoFolder) {
  bool reached = true;
  for (int nth = 1; reached; ++nth) {
    ASSERT_LT(nth, 1'000);
    TemporaryFolder folder;
    const std::filesystem::path made = folder.path() / "harbour";
    Document document = two_squares();
    failure = {nth, ENOSPC, true};
    const Result<Done> done = create(made, document);
    reached = failure.calls_until == 0;
    failure = {};
    EXPECT_EQ(done.ok() || std::filesystem::exists(made / "quilt.json"), std::filesystem::exists(made))
        << "call " << nth;
  }
}

TEST(Trust, AFolderThatWasThereStaysWhereTheQuiltCouldNotBeMade) {
  TemporaryFolder folder;
  std::ofstream(folder.path() / "kelp.jpg") << "hers";
  Document document = two_squares();
  failure = {2, ENOSPC};
  EXPECT_FALSE(create(folder.path(), document));
  failure = {};
  EXPECT_TRUE(std::filesystem::exists(folder.path() / "kelp.jpg"));
}

TEST(Trust, APackThatCannotBeWrittenIsNamedNotTheFileThatWentIntoIt) {
  TemporaryFolder folder;
  start(folder.path() / "harbour");
  const std::filesystem::path file = folder.path() / "harbour.tar";
  std::set<std::string> named;
  bool reached = true;
  for (int nth = 1; reached; ++nth) {
    ASSERT_LT(nth, 1'000);
    failure = {nth, ENOSPC};
    const Result<Packed> packed = pack(folder.path() / "harbour", file);
    reached = failure.calls_until == 0;
    if (!packed && failure.failed == "write") named.insert(packed.problems().front().at);
    failure = {};
    std::filesystem::remove(file);
  }
  EXPECT_THAT(named, ::testing::ElementsAre(file.string()));
}

TEST(Trust, AWriterKilledAtAnyMomentLosesNothingItAcknowledged) {
  TemporaryFolder folder;
  start(folder.path());
  Model model;
  Rng rng(Seed{20});
  int number = 0;
  for (int round = 0; round < 200; ++round) {
    std::array<int, 2> acknowledged{};
    ASSERT_EQ(::pipe(acknowledged.data()), 0);
    const std::uint64_t seed = rng.next();
    const pid_t child = in_child([&] {
      Rng steps(Seed{seed});
      for (int k = number + 1;; ++k) {
        if (!make_step(folder.path(), random_step(steps), k)) return 1;
        if (::write(acknowledged[1], "+", 1) != 1) return 2;
      }
    });
    ::close(acknowledged[1]);
    // After some edits, wherever the next one then is: as many edits on a slow machine as on a fast one.
    char ack = 0;
    std::uint32_t seen = 0;
    for (const std::uint32_t wanted = rng.below(6); seen < wanted && ::read(acknowledged[0], &ack, 1) == 1;) ++seen;
    ::usleep(rng.below(12'000));
    ::kill(child, SIGKILL);
    status_of(child);
    while (::read(acknowledged[0], &ack, 1) == 1) ++seen;
    Rng steps(Seed{seed});
    for (; seen > 0; --seen) model.apply(random_step(steps), ++number);
    ::close(acknowledged[0]);

    Model one_more = model;
    one_more.apply(random_step(steps), number + 1);
    const std::string title = shown(folder.path());
    const History have = must(history(folder.path()));
    const bool as_acknowledged = title == model.title() && have == model.history();
    const bool one_further = title == one_more.title() && have == one_more.history();
    ASSERT_TRUE(as_acknowledged || one_further)
        << "round " << round << ", shown " << title << " (" << have.before << ", " << have.after << "), acknowledged "
        << model.title() << " (" << model.history().before << ", " << model.history().after << ")";
    if (!as_acknowledged) {
      model = one_more;
      ++number;
    }
    ++number;  // so that no two edits share a title
  }
  EXPECT_GT(number, 400);
}

TEST(Trust, AHoldEndsWithItsHolderHoweverThatEnds) {
  TemporaryFolder folder;
  start(folder.path());
  std::array<int, 2> held{};
  ASSERT_EQ(::pipe(held.data()), 0);
  const pid_t child = in_child([&] {
    const Result<Hold> hold_of_child = hold(folder.path(), "arrange");
    if (!hold_of_child || ::write(held[1], "+", 1) != 1) return 1;
    ::pause();
    return 0;
  });
  char ack = 0;
  ASSERT_EQ(::read(held[0], &ack, 1), 1);
  const Result<Hold> meanwhile = hold(folder.path(), "swaps", std::chrono::milliseconds(30));
  ASSERT_FALSE(meanwhile.ok());
  EXPECT_THAT(meanwhile.problems().front().cause, HasSubstr("arrange (process " + std::to_string(child)));
  EXPECT_EQ(shown(folder.path()), "Harbour raffle");  // reading needs no hold
  ::kill(child, SIGKILL);
  status_of(child);
  EXPECT_TRUE(hold(folder.path(), "swaps", std::chrono::milliseconds(0)).ok());
}

TEST(Trust, ProgramsThatHoldTheQuiltLoseNoneOfEachOthersEdits) {
  TemporaryFolder folder;
  start(folder.path());
  std::vector<pid_t> children;
  for (int child = 1; child <= 3; ++child) {
    children.push_back(in_child([&, child] {
      for (int i = 0; i < 15; ++i) {
        const Result<Hold> held = hold(folder.path(), "program", std::chrono::seconds(60));
        if (!held) return 1;
        Document document = must(read(folder.path()));
        document = must(set(document, "/tally/-", std::to_string(1000 * child + i)));
        if (!write(*held, document)) return 2;
      }
      return 0;
    }));
  }
  for (const pid_t child : children) EXPECT_EQ(status_of(child), 0);
  const std::string text = bytes_of(folder / "quilt.json");
  for (int child = 1; child <= 3; ++child) {
    for (int i = 0; i < 15; ++i)
      EXPECT_NE(text.find(std::to_string(1000 * child + i)), std::string::npos) << child << i;
  }
}

TEST(Trust, ProgramsThatHoldNothingAreToldAndTryAgain) {
  TemporaryFolder folder;
  start(folder.path());
  std::vector<pid_t> children;
  for (int child = 1; child <= 2; ++child) {
    children.push_back(in_child([&, child] {
      for (int i = 0; i < 10; ++i) {
        bool saved = false;
        while (!saved) {
          Document document = must(set(must(read(folder.path())), "/tally/-", std::to_string(1000 * child + i)));
          saved = write(folder.path(), document).ok();
        }
      }
      return 0;
    }));
  }
  for (const pid_t child : children) EXPECT_EQ(status_of(child), 0);
  const std::string text = bytes_of(folder / "quilt.json");
  for (int child = 1; child <= 2; ++child) {
    for (int i = 0; i < 10; ++i)
      EXPECT_NE(text.find(std::to_string(1000 * child + i)), std::string::npos) << child << i;
  }
}

TEST(Trust, WhereTheDiskTakesNoMoreNothingChanges) {
  TemporaryFolder folder;
  start(folder.path());
  const std::string before = bytes_of(folder / "quilt.json");
  const pid_t child = in_child([&] {
    ::signal(SIGXFSZ, SIG_IGN);
    const rlimit small{200, 200};
    if (::setrlimit(RLIMIT_FSIZE, &small) != 0) return 1;
    const Result<Done> done = make_step(folder.path(), Step::edit, 1);
    return done ? 2 : done.problems().front().kind == Problem::Kind::system ? 0 : 3;
  });
  EXPECT_EQ(status_of(child), 0);
  EXPECT_EQ(bytes_of(folder / "quilt.json"), before);
  must(make_step(folder.path(), Step::edit, 2));
  EXPECT_EQ(shown(folder.path()), "2");
  for (const auto& [name, bytes] : all_files(folder.path()))
    EXPECT_EQ(name.find("farflung-tmp"), std::string::npos) << name;
}

TEST(Trust, AFolderThatMayNotBeWrittenIsToldAndCanBeRead) {
  TemporaryFolder folder;
  start(folder.path());
  const auto before = all_files(folder.path());
  const pid_t child = in_child([&] {
    std::filesystem::permissions(folder.path(), static_cast<std::filesystem::perms>(0555));
    std::filesystem::permissions(folder / "quilt.lock", static_cast<std::filesystem::perms>(0444));
    if (::geteuid() == 0 && ::setuid(65534) != 0) return 1;
    if (!read(folder.path())) return 2;
    const Result<Done> done = make_step(folder.path(), Step::edit, 1);
    if (done || done.problems().front().kind != Problem::Kind::system) return 3;
    return done.problems().front().remedy.find("may write") == std::string::npos ? 4 : 0;
  });
  EXPECT_EQ(status_of(child), 0);
  std::filesystem::permissions(folder.path(), static_cast<std::filesystem::perms>(0755));
  EXPECT_EQ(all_files(folder.path()), before);
}

}  // namespace
}  // namespace farflung::project
