#include "project/disk.hpp"

#include <functional>
#include <set>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "project/at_work.hpp"
#include "project/failing_calls.hpp"
#include "project/pack.hpp"
#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::HasSubstr;
using ::testing::IsSupersetOf;

/// What lies in a folder, by name; folders within it as well.
std::set<std::string> names_in(const std::filesystem::path& folder) {
  std::set<std::string> names;
  for (const auto& entry : std::filesystem::directory_iterator(folder)) names.insert(entry.path().filename().string());
  return names;
}

/// A quilt with a photograph and a version before its present one.
void make_quilt(const std::filesystem::path& folder) {
  Document document = two_squares();
  must(create(folder, document));
  document.quilt.title = "packed";
  must(write(folder, document));
  std::ofstream(folder / "photos" / "kelp.jpg") << std::string(30'000, 'k');
}

/// Does `work`, prepared anew each time, its first call to the system failed, then its second and so on, until none is
/// left to fail; tells `look` what came of each. Gives the names of the calls that were failed.
template <typename Work, typename Look>
std::set<std::string> fail_each(const std::function<void()>& prepare, Work&& work, Look&& look, int error = EIO) {
  std::set<std::string> failed;
  for (int nth = 1; nth < 2'000; ++nth) {
    prepare();
    failure = {nth, error, true};
    const auto result = work();
    const Failure struck = failure;
    failure = {};
    if (struck.calls_until > 0) return failed;
    failed.insert(struck.failed);
    look(result, struck.failed + ", call " + std::to_string(nth));
  }
  ADD_FAILURE() << "there is no end to the calls";
  return failed;
}

TEST(Disk, AFileIsReplacedOrStandsAsItStoodWhateverFails) {
  const TemporaryFolder folder;
  const std::filesystem::path file = folder / "quilt.json";
  for (const int error : {EIO, ENOSPC, EDQUOT, EACCES, EPERM, EROFS}) {
    const auto failed =
        fail_each([&] { must(disk::replace_file(file, "old")); }, [&] { return disk::replace_file(file, "new"); },
                  [&](const Result<Done>& done, const std::string& call) {
                    const std::string there = bytes_of(file);
                    EXPECT_TRUE(there == "old" || there == "new") << call << ": " << there;
                    EXPECT_TRUE(!done || there == "new") << call;
                    EXPECT_EQ(names_in(folder.path()).size(), 1U) << call << " left something behind";
                    if (done) return;
                    const Problem& problem = done.problems().front();
                    EXPECT_EQ(problem.kind, Problem::Kind::system) << call;
                    EXPECT_EQ(problem.remedy.empty(), error == EIO) << call;
                  },
                  error);
    EXPECT_THAT(failed, IsSupersetOf({"open", "write", "fsync", "close", "rename"}));
  }
}

TEST(Disk, AFileIsReadWholeOrToldWhy) {
  const TemporaryFolder folder;
  must(disk::replace_file(folder / "quilt.json", "bytes"));
  const auto failed = fail_each([] {}, [&] { return disk::read_file(folder / "quilt.json", 100); },
                                [&](const Result<std::string>& read, const std::string& call) {
                                  EXPECT_TRUE(!read || *read == "bytes") << call;
                                });
  EXPECT_THAT(failed, IsSupersetOf({"open", "fstat", "read"}));
}

TEST(Disk, ACallThatASignalCutShortIsMadeAgain) {
  const TemporaryFolder folder;
  const std::filesystem::path file = folder / "quilt.json";
  for (const char* interrupted : {"write", "read"}) {
    for (int nth = 1; failure.failed != interrupted && nth < 20; ++nth) {
      failure = {nth, EINTR, true};
      const Result<Done> done = disk::replace_file(file, "bytes");
      const Result<std::string> read = disk::read_file(file, 100);
      if (failure.failed == interrupted) {
        EXPECT_TRUE(done && read && *read == "bytes") << interrupted;
      }
    }
    EXPECT_EQ(failure.failed, interrupted);
    failure = {};
  }
}

TEST(Disk, AFolderIsMadeWholeOrNotAtAll) {
  const TemporaryFolder folder;
  const std::filesystem::path named = folder / "quilt";
  const auto failed = fail_each([&] { std::filesystem::remove_all(named); },
                                [&]() -> Result<Done> {
                                  const disk::NewFolder made(named);
                                  if (!made.made()) return made.problem();
                                  disk::NewFile file(made.path() / "quilt.json");
                                  if (!file.open() || !file.write("bytes", 5) || !file.finish()) return file.problem();
                                  return made.place();
                                },
                                [&](const Result<Done>& done, const std::string& call) {
                                  EXPECT_LE(names_in(folder.path()).size(), 1U) << call << " left something behind";
                                  if (done) {
                                    EXPECT_EQ(bytes_of(named / "quilt.json"), "bytes") << call;
                                  }
                                });
  EXPECT_THAT(failed, IsSupersetOf({"mkdir", "open", "write", "fsync", "close", "rename"}));
  EXPECT_FALSE(disk::NewFolder(folder / "nowhere" / "quilt").made());
  EXPECT_FALSE(disk::make_folder(named / "quilt.json" / "within").ok());
  EXPECT_FALSE(disk::remove_file(named).ok()) << "a folder is no file";
  EXPECT_FALSE(disk::NewFile(named / "quilt.json").open()) << "there is one already";
}

TEST(Disk, ANameThatNoDiskTakesIsWrongInputWithItsRemedy) {
  const TemporaryFolder folder;
  must(disk::replace_file(folder / "quilt.json", "bytes"));
  const std::string letters(300, 'a');
  for (const std::filesystem::path& name : {folder / letters, folder / "quilt.json" / "within"}) {
    for (const Result<Done>& done :
         {disk::make_folder(name), disk::replace_file(name, "bytes"), disk::remove_file(name)}) {
      if (done) continue;  // what is not there need not be removed
      EXPECT_EQ(done.problems().front().kind, Problem::Kind::input) << done.problems().front().cause;
      EXPECT_FALSE(done.problems().front().remedy.empty());
    }
    EXPECT_FALSE(disk::make_folder(name).ok());
    EXPECT_EQ(disk::NewFolder(name).problem().kind, Problem::Kind::input);
    EXPECT_EQ(disk::read_file(name, 100).problems().front().kind, Problem::Kind::input);
  }
}

TEST(Disk, AFileWithoutAFolderLiesWhereTheProgramRuns) {
  const TemporaryFolder folder;
  const std::filesystem::path before = std::filesystem::current_path();
  std::filesystem::current_path(folder.path());
  const Result<Done> done = disk::replace_file("quilt.json", "bytes");
  std::filesystem::current_path(before);
  EXPECT_TRUE(done.ok());
  EXPECT_EQ(bytes_of(folder / "quilt.json"), "bytes");
}

TEST(Disk, ADeviceTakesTheBytesAndStaysADevice) {
  EXPECT_TRUE(disk::replace_file("/dev/null", "gone"));
  EXPECT_TRUE(std::filesystem::is_character_file("/dev/null"));
  const Result<Done> full = disk::replace_file("/dev/full", "no room");
  ASSERT_FALSE(full.ok());
  EXPECT_THAT(full.problems().front().remedy, HasSubstr("free some space"));
}

/// Makes a quilt in a fresh folder for each of the calls that may fail, and uses it.
class EveryCallMayFail : public ::testing::Test {
 protected:
  std::filesystem::path quilt() const { return folder_ / "harbour"; }
  std::filesystem::path file() const { return folder_ / "harbour.quilt"; }
  std::filesystem::path other() const { return folder_ / "other"; }

  /// Nothing but these lies in the folder.
  void expect_only(const std::set<std::string>& names, const std::string& call) const {
    EXPECT_EQ(names_in(folder_.path()), names) << call;
  }

  TemporaryFolder folder_;
};

TEST_F(EveryCallMayFail, WhenAQuiltIsMade) {
  Document document;
  const auto failed = fail_each(
      [&] {
        std::filesystem::remove_all(quilt());
        document = harbour();
      },
      [&] { return create(quilt(), document); },
      [&](const Result<Done>& done, const std::string& call) {
        const bool there = exists(quilt() / "quilt.json");
        EXPECT_TRUE(!there || read(quilt()).ok()) << call;
        EXPECT_TRUE(!done || there) << call;
      });
  EXPECT_THAT(failed, IsSupersetOf({"mkdir", "open", "write", "rename"}));
}

TEST_F(EveryCallMayFail, WhenAQuiltIsReadUndoneAndRedone) {
  make_quilt(quilt());
  const std::string packed = bytes_of(quilt() / "quilt.json");
  must(undo(quilt()));
  const std::string harbour = bytes_of(quilt() / "quilt.json");
  const auto look = [&](const auto&, const std::string& call) {
    const std::string there = bytes_of(quilt() / "quilt.json");
    EXPECT_TRUE(there == packed || there == harbour) << call;
    EXPECT_TRUE(read(quilt()).ok() && history(quilt()).ok()) << call;
  };
  const auto start = [&] { must(disk::replace_file(quilt() / "quilt.json", harbour)); };
  fail_each(
      start, [&] { return redo(quilt()); }, look);
  fail_each(
      start, [&] { return undo(quilt()); }, look);
  fail_each(
      start, [&] { return keep_present(quilt()); }, look);
  fail_each(
      start, [&] { return history(quilt()); }, look);
  start();
  const Document known = must(read(quilt()));
  fail_each(
      start, [&] { return reread(quilt(), known); }, look);
}

TEST_F(EveryCallMayFail, WhenAQuiltIsPacked) {
  make_quilt(quilt());
  must(pack(quilt(), file()));
  const std::string good = bytes_of(file());
  const auto failed = fail_each(
      [&] { std::filesystem::remove(file()); }, [&] { return pack(quilt(), file()); },
      [&](const Result<Packed>& packed, const std::string& call) {
        const bool there = exists(file());
        EXPECT_TRUE(!there || bytes_of(file()) == good) << call;
        EXPECT_TRUE(!packed || there) << call;
        expect_only(there ? std::set<std::string>{"harbour", "harbour.quilt"} : std::set<std::string>{"harbour"}, call);
        if (!packed) {
          EXPECT_EQ(packed.problems().front().kind, Problem::Kind::system) << call;
        }
      });
  EXPECT_THAT(failed, IsSupersetOf({"open", "read", "write", "fsync", "rename"}));
  must(pack(quilt(), file(), true));
}

TEST_F(EveryCallMayFail, WhenAQuiltIsUnpacked) {
  make_quilt(quilt());
  must(pack(quilt(), file()));
  auto whole = all_files(quilt());
  whole.erase("quilt.lock");
  const auto failed = fail_each([&] { std::filesystem::remove_all(other()); }, [&] { return unpack(file(), other()); },
                                [&](const Result<Packed>& unpacked, const std::string& call) {
                                  const bool there = exists(other());
                                  EXPECT_TRUE(!there || all_files(other()) == whole) << call;
                                  EXPECT_TRUE(!unpacked || there) << call;
                                  expect_only(there ? std::set<std::string>{"harbour", "harbour.quilt", "other"}
                                                    : std::set<std::string>{"harbour", "harbour.quilt"},
                                              call);
                                  if (!unpacked) {
                                    EXPECT_EQ(unpacked.problems().front().kind, Problem::Kind::system)
                                        << call << ": " << texts(unpacked.problems());
                                  }
                                });
  EXPECT_THAT(failed, IsSupersetOf({"open", "read", "mkdir", "write", "fsync", "rename"}));
}

}  // namespace
}  // namespace farflung::project
