#include "project/pack.hpp"

#include <array>
#include <cstdlib>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/limits.hpp"
#include "base/rng.hpp"
#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;

/// One entry of a tar made by hand (POSIX.1-1988 ustar), for entries that no honest program would write.
std::string entry(const std::string& name, const std::string& bytes, char type = '0', const std::string& link = "",
                  std::uint64_t claimed = UINT64_MAX) {
  std::string header(512, '\0');
  const auto field = [&](std::size_t at, const std::string& text) { header.replace(at, text.size(), text); };
  const auto octal = [](std::uint64_t value, int digits) {
    std::string text(digits, '0');
    for (int i = digits - 1; i >= 0; --i, value /= 8) text[i] = static_cast<char>('0' + value % 8);
    return text;
  };
  field(0, name);
  field(100, "0000644");
  field(108, "0000000");
  field(116, "0000000");
  field(124, octal(claimed == UINT64_MAX ? bytes.size() : claimed, 11));
  field(136, "00000000000");
  field(148, "        ");
  header[156] = type;
  field(157, link);
  field(257, std::string("ustar\0"
                         "00",
                         8));
  std::uint64_t sum = 0;
  for (const char c : header) sum += static_cast<unsigned char>(c);
  field(148, octal(sum, 6) + '\0' + ' ');
  return header + bytes + std::string((512 - bytes.size() % 512) % 512, '\0');
}

const std::string kEnd(1024, '\0');

class Pack : public ::testing::Test {
 protected:
  Pack() {
    Document document = harbour();
    must(create(quilt(), document));
    document.quilt.title = "packed";
    must(write(quilt(), document));
    std::ofstream(quilt() /
                  "photos/かもめ, a photograph with quite a long name that does not fit a tar's own hundred bytes.jpg")
        << std::string(3'000'000, 'x');
    std::ofstream(quilt() / "photos/a.jpg") << "";
    std::ofstream(quilt() / "swatches/P01.png") << std::string("\0\1\2", 3);
  }

  std::filesystem::path quilt() const { return temporary_ / "harbour"; }
  std::filesystem::path file() const { return temporary_ / "harbour.quilt"; }
  std::filesystem::path other() const { return temporary_ / "other"; }

  void put(const std::string& bytes) const { std::ofstream(file(), std::ios::binary) << bytes; }

  /// Refused, with nothing left of it anywhere.
  void expect_refused(const std::string& bytes, const std::string& why) const {
    put(bytes);
    const auto before = all_files(temporary_.path());
    const Result<Packed> unpacked = unpack(file(), other());
    ASSERT_FALSE(unpacked.ok()) << why;
    EXPECT_EQ(unpacked.problems().front().kind, Problem::Kind::input) << texts(unpacked.problems());
    EXPECT_THAT(texts(unpacked.problems()), HasSubstr(why));
    EXPECT_EQ(all_files(temporary_.path()), before);
    EXPECT_FALSE(exists(other()));
    int entries = 0;
    for (const auto& left : std::filesystem::directory_iterator(temporary_.path())) entries += left.exists() ? 1 : 0;
    EXPECT_EQ(entries, 2) << "the quilt and the file";
  }

  TemporaryFolder temporary_;
};

TEST_F(Pack, WhatIsUnpackedIsWhatWasPacked) {
  const Packed packed = must(pack(quilt(), file()));
  const Packed unpacked = must(unpack(file(), other()));
  EXPECT_EQ(packed.files, unpacked.files);
  EXPECT_EQ(packed.bytes, unpacked.bytes);
  auto expected = all_files(quilt());
  expected.erase("quilt.lock");
  EXPECT_EQ(all_files(other()), expected);
  EXPECT_EQ(packed.files, expected.size());
  EXPECT_EQ(must(undo(other())).quilt.title, "Harbour raffle");
}

TEST_F(Pack, TheSameFolderGivesTheSameBytes) {
  must(pack(quilt(), file()));
  const std::string first = bytes_of(file());
  must(pack(quilt(), file(), true));
  EXPECT_EQ(bytes_of(file()), first);
  must(unpack(file(), temporary_ / "again" / "harbour"));
  must(pack(temporary_ / "again" / "harbour", temporary_ / "again.quilt"));
  EXPECT_EQ(bytes_of(temporary_ / "again.quilt"), first);
}

TEST_F(Pack, AnyTarOpensIt) {
  must(pack(quilt(), file()));
  std::filesystem::create_directory(other());
  const std::string command = "tar -xf '" + file().string() + "' -C '" + other().string() + "'";
  ASSERT_EQ(std::system(command.c_str()), 0);
  auto expected = all_files(quilt());
  expected.erase("quilt.lock");
  EXPECT_EQ(all_files(other() / "harbour"), expected);
}

TEST_F(Pack, WhatATarMadeByHandHoldsComesIn) {
  const std::string command = "tar -C '" + quilt().string() + "/..' -cf '" + file().string() + "' ./harbour";
  ASSERT_EQ(std::system(command.c_str()), 0);
  must(unpack(file(), other()));
  EXPECT_EQ(must(read(other())).quilt.title, "packed");
  EXPECT_FALSE(exists(other() / "quilt.lock"));
}

TEST_F(Pack, LinksTheLockAndTemporariesStayOut) {
  std::filesystem::create_symlink("/etc/hostname", quilt() / "photos/link.jpg");
  std::filesystem::create_directory_symlink("/etc", quilt() / "sheets/etc");
  std::ofstream(quilt() / "photos/.a.jpg.1-1.farflung-tmp") << "half";
  const Packed packed = must(pack(quilt(), file()));
  const std::string bytes = bytes_of(file());
  for (const char* name : {"link.jpg", "hostname", "farflung-tmp", "quilt.lock"}) {
    EXPECT_EQ(bytes.find(name), std::string::npos) << name;
  }
  EXPECT_EQ(packed.files, 6U);
}

TEST_F(Pack, NothingIsOverwritten) {
  put("mine");
  EXPECT_THAT(places(pack(quilt(), file())), ElementsAre(file().string()));
  EXPECT_EQ(bytes_of(file()), "mine");
  must(pack(quilt(), file(), true));
  std::filesystem::create_directory(other());
  EXPECT_THAT(places(unpack(file(), other())), ElementsAre(other().string()));
}

TEST_F(Pack, IsNotPutIntoTheQuiltItself) {
  EXPECT_FALSE(pack(quilt(), quilt() / "me.quilt").ok());
  EXPECT_FALSE(pack(quilt(), quilt() / "sheets/../me.quilt").ok());
  EXPECT_FALSE(exists(quilt() / "me.quilt"));
}

TEST_F(Pack, MoreFilesThanAPackMayHoldAreNotPacked) {
  for (std::size_t i = 0; i < limits::kPackedFiles; ++i) std::ofstream(quilt() / "photos" / std::to_string(i));
  const Result<Packed> packed = pack(quilt(), file());
  ASSERT_FALSE(packed.ok());
  EXPECT_THAT(texts(packed.problems()), HasSubstr("more than a packed quilt may hold"));
  EXPECT_FALSE(exists(file()));
}

TEST_F(Pack, WhatIsNotThereIsNeitherPackedNorUnpacked) {
  EXPECT_FALSE(unpack(temporary_ / "nothing", other()).ok());
  EXPECT_FALSE(unpack(temporary_.path(), other()).ok()) << "a folder is no pack";
  must(pack(quilt(), file()));
  EXPECT_FALSE(unpack(file(), file() / "within").ok()) << "no folder can be made within a file";
  must(unpack(file(), other() / ""));
  EXPECT_TRUE(read(other()).ok()) << "a name that ends in a slash is the same folder";
}

TEST_F(Pack, AFileWithHolesInItIsRefused) {
  std::ofstream(quilt() / "photos" / "holes.jpg") << "x";
  std::filesystem::resize_file(quilt() / "photos" / "holes.jpg", 4 << 20);
  const std::string command = "tar -C '" + quilt().string() + "/..' -Scf '" + file().string() + "' ./harbour";
  ASSERT_EQ(std::system(command.c_str()), 0);
  expect_refused(bytes_of(file()), "which has holes");
}

TEST_F(Pack, ABrokenQuiltIsNotPacked) {
  std::ofstream(quilt() / "quilt.json") << "{";
  EXPECT_FALSE(pack(quilt(), file()).ok());
  EXPECT_FALSE(exists(file()));
}

TEST_F(Pack, AStrangersFileIsNotTrusted) {
  const std::string good = entry("harbour/quilt.json", harbour_text());
  expect_refused(good + entry("harbour/../../evil", "x") + kEnd, "lies outside");
  expect_refused(good + entry("../evil", "x") + kEnd, "lies outside");
  expect_refused(good + entry("/etc/evil", "x") + kEnd, "lies outside");
  expect_refused(good + entry("elsewhere/evil", "x") + kEnd, "lies outside");
  expect_refused(good + entry("harbour//evil", "x") + kEnd, "lies outside");
  expect_refused(good + entry("evil", "x") + kEnd, "lies outside");
  expect_refused(good + entry("\x1b[2Jevil\x7f", "x") + kEnd, "holds ?[2Jevil?, which lies outside");
  expect_refused(good + entry("harbour/", "x") + kEnd, "");
  expect_refused(good + entry("harbour/a/b/c/d/e/f/g/h/i/j/k", "x") + kEnd, "lies outside");
  expect_refused(good + entry("harbour/photos", "", '2', "/etc") + kEnd, "neither a file nor a folder");
  expect_refused(good + entry("harbour/hard", "", '1', "/etc/passwd") + kEnd, "neither a file nor a folder");
  expect_refused(good + entry("harbour/pipe", "", '6') + kEnd, "neither a file nor a folder");
  expect_refused(good + entry("harbour/tape", "", '3') + kEnd, "neither a file nor a folder");
  expect_refused(good + good + kEnd, "comes twice");
  expect_refused(good + entry("harbour/quilt.json/x", "x") + kEnd, "lies within a file");
}

TEST_F(Pack, WhatIsCutOffOrClaimsTooMuchIsRefused) {
  must(pack(quilt(), file()));
  const std::string whole = bytes_of(file());
  std::filesystem::remove(file());
  for (const std::size_t length : {std::size_t{0}, std::size_t{100}, std::size_t{700}, whole.size() / 2}) {
    expect_refused(whole.substr(0, length), "not a packed quilt");
  }
  const std::string good = entry("harbour/quilt.json", harbour_text());
  expect_refused(good + entry("harbour/big", "x", '0', "", 8'000'000'000) + kEnd, "");
  expect_refused(harbour_text(), "not a packed quilt");
}

TEST_F(Pack, IsBoundedInFiles) {
  std::string tar = entry("harbour/quilt.json", harbour_text());
  for (std::size_t i = 0; i < limits::kPackedFiles; ++i) tar += entry("harbour/photos/" + std::to_string(i), "");
  expect_refused(tar + kEnd, "too many others");
}

TEST_F(Pack, WithoutAValidQuiltNothingComesOfIt) {
  expect_refused(entry("harbour/photos/a.jpg", "x") + kEnd, "no such file");
  expect_refused(entry("harbour/quilt.json", "{}") + kEnd, "/format: is missing");
  expect_refused(kEnd, "");
}

TEST_F(Pack, FilesGoneWrongByChanceAreOpenedOrRefused) {
  const std::string good =
      entry("harbour/quilt.json", harbour_text()) + entry("harbour/photos/a.jpg", "picture") + kEnd;
  Rng rng(Seed{31});
  for (int i = 0; i < 300; ++i) {
    std::string bytes = good;
    for (std::uint32_t n = 1 + rng.below(4); n > 0; --n) {
      const std::size_t header = rng.below(2) == 0 ? 0 : 512 + (harbour_text().size() + 511) / 512 * 512;
      bytes[header + rng.below(512)] = static_cast<char>(rng.below(256));
    }
    put(bytes);
    if (const Result<Packed> unpacked = unpack(file(), other()); unpacked) {
      EXPECT_TRUE(read(other()).ok());
      std::filesystem::remove_all(other());
    } else {
      EXPECT_FALSE(exists(other()));
    }
  }
}

}  // namespace
}  // namespace farflung::project
