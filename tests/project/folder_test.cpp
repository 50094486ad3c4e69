#include <algorithm>
#include <filesystem>

#include <gmock/gmock.h>
#include <gtest/gtest.h>

#include "base/limits.hpp"
#include "project/at_work.hpp"
#include "project/world.hpp"

namespace farflung::project {
namespace {

using ::testing::ElementsAre;
using ::testing::HasSubstr;
using ::testing::Not;

class Folder : public ::testing::Test {
 protected:
  Folder() {
    Document document = harbour();
    must(create(folder(), document));
  }

  std::filesystem::path folder() const { return temporary_ / "harbour"; }
  std::string quilt_json() const { return bytes_of(folder() / "quilt.json"); }

  void put(const std::string& bytes) const { std::ofstream(folder() / "quilt.json", std::ios::binary) << bytes; }

  void entitle(const std::string& title) const {
    Document document = must(read(folder()));
    document.quilt.title = title;
    must(write(folder(), document));
  }

  std::string title() const { return must(read(folder())).quilt.title; }

  TemporaryFolder temporary_;
};

TEST_F(Folder, IsMadeWithWhatAQuiltNeeds) {
  EXPECT_EQ(title(), "Harbour raffle");
  for (const char* part : {"photos", "swatches", "sheets"}) EXPECT_TRUE(is_directory(folder() / part));
  Document again = harbour();
  EXPECT_THAT(places(create(folder(), again)), ElementsAre((folder() / "quilt.json").string()));
}

TEST_F(Folder, SavingAgainWithoutAChangeWritesNothing) {
  const auto before = all_files(folder());
  Document document = must(read(folder()));
  must(write(folder(), document));
  EXPECT_EQ(all_files(folder()), before);
}

TEST_F(Folder, UndoAndRedoWalkAmongTheVersions) {
  for (const char* name : {"one", "two", "three"}) entitle(name);
  EXPECT_EQ(must(history(folder())), (History{3, 0}));
  EXPECT_EQ(must(undo(folder())).quilt.title, "two");
  EXPECT_EQ(must(undo(folder())).quilt.title, "one");
  EXPECT_EQ(title(), "one");
  EXPECT_EQ(must(history(folder())), (History{1, 2}));
  EXPECT_EQ(must(redo(folder())).quilt.title, "two");
  EXPECT_EQ(must(undo(folder())).quilt.title, "one");
  EXPECT_EQ(must(undo(folder())).quilt.title, "Harbour raffle");
  EXPECT_FALSE(undo(folder()).ok());
  for (const char* name : {"one", "two", "three"}) EXPECT_EQ(must(redo(folder())).quilt.title, name);
  EXPECT_FALSE(redo(folder()).ok());
}

TEST_F(Folder, ANewChangeEndsWhatCouldBeRedone) {
  for (const char* name : {"one", "two", "three"}) entitle(name);
  must(undo(folder()));
  must(undo(folder()));
  entitle("other");
  EXPECT_FALSE(redo(folder()).ok());
  EXPECT_EQ(must(undo(folder())).quilt.title, "one");
  EXPECT_EQ(must(redo(folder())).quilt.title, "other");
}

TEST_F(Folder, GoingThereAndBackByHandIsTwoVersions) {
  entitle("one");
  entitle("Harbour raffle");
  EXPECT_EQ(must(undo(folder())).quilt.title, "one");
  EXPECT_EQ(must(undo(folder())).quilt.title, "Harbour raffle");
}

TEST_F(Folder, AnEditInATextEditorIsAVersionToo) {
  entitle("one");
  std::string text = quilt_json();
  replace(text, "\"one\"", "\"by hand\"");
  put(text);
  EXPECT_EQ(must(undo(folder())).quilt.title, "one");
  EXPECT_EQ(must(redo(folder())).quilt.title, "by hand");
}

TEST_F(Folder, UndoMendsAFileThatWasBroken) {
  entitle("one");
  put("{\"oops\":");
  EXPECT_FALSE(read(folder()).ok());
  EXPECT_EQ(must(undo(folder())).quilt.title, "one");
}

TEST_F(Folder, FiftyVersionsAreKept) {
  for (int i = 0; i < 60; ++i) entitle("edit " + std::to_string(i));
  for (int i = 58; i >= 9; --i) ASSERT_EQ(must(undo(folder())).quilt.title, "edit " + std::to_string(i));
  EXPECT_FALSE(undo(folder()).ok());
  EXPECT_EQ(must(history(folder())), (History{0, 50}));
}

TEST_F(Folder, AVersionThatACrashLeftBeyondTheFiftyIsForgotten) {
  for (int i = 0; i < 60; ++i) entitle("edit " + std::to_string(i));
  std::vector<std::filesystem::path> files;
  for (const auto& entry : std::filesystem::directory_iterator(folder() / "versions")) files.push_back(entry.path());
  const std::filesystem::path oldest = *std::ranges::min_element(files);
  const auto aside = folder() / "aside";
  std::filesystem::copy_file(oldest, aside);
  entitle("one more");
  std::filesystem::rename(aside, oldest);
  EXPECT_EQ(must(history(folder())), (History{50, 0}));
  must(undo(folder()));
  EXPECT_EQ(must(history(folder())), (History{49, 1}));
  must(redo(folder()));
  entitle("the last");
  EXPECT_FALSE(exists(oldest));
}

TEST_F(Folder, VersionsAreSmall) {
  entitle("one");
  EXPECT_LT(file_size(folder() / "versions/000001.json.gz"), file_size(folder() / "quilt.json") / 2);
}

TEST_F(Folder, WhatAnotherProgramSavedIsNotOverwritten) {
  Document mine = must(read(folder()));
  entitle("theirs");
  mine.quilt.title = "mine";
  const Result<Done> written = write(folder(), mine);
  ASSERT_FALSE(written.ok());
  EXPECT_EQ(written.problems().front().kind, Problem::Kind::system);
  EXPECT_THAT(written.problems().front().cause, HasSubstr("changed by another program"));
  EXPECT_TRUE(was_overtaken(written.problems().front())) << "which whoever does it again can tell";
  EXPECT_EQ(title(), "theirs");
}

TEST_F(Folder, AChangeThroughSetCanBeSaved) {
  Document document = must(set(must(read(folder())), "/prints/0/name", "Wrack"));
  must(write(folder(), document));
  must(write(folder(), document));
  EXPECT_EQ(must(read(folder())).quilt.prints[0].name, "Wrack");
}

TEST_F(Folder, AnInvalidQuiltIsNotSaved) {
  const auto before = all_files(folder());
  Document document = must(read(folder()));
  document.quilt.layout.block[3] = 0;
  EXPECT_THAT(places(write(folder(), document)),
              ElementsAre((folder() / "quilt.json").string() + "#/layout/cells/1/1"));
  EXPECT_EQ(all_files(folder()), before);
}

TEST_F(Folder, WhatIsWrongLeavesTheDiskAsItWas) {
  for (const std::string text : {"", "{", "[]", "{\"format\": \"farflung-quilt\", \"version\": 9}"}) {
    put(text);
    const auto before = all_files(folder());
    EXPECT_FALSE(read(folder()).ok());
    Document document = harbour();
    EXPECT_FALSE(write(folder(), document).ok());
    EXPECT_EQ(all_files(folder()), before);
  }
}

TEST_F(Folder, AMissingFolderOrFileIsSaidSo) {
  EXPECT_THAT(places(read("/nowhere/at/all")), ElementsAre("/nowhere/at/all"));
  std::filesystem::remove(folder() / "quilt.json");
  const Result<Document> missing = read(folder());
  ASSERT_FALSE(missing.ok());
  EXPECT_EQ(missing.problems().front().kind, Problem::Kind::input);
  EXPECT_THAT(missing.problems().front().text(), HasSubstr("quilt.json: no such file: name the folder of a quilt"));
  Document document = harbour();
  EXPECT_FALSE(write("/nowhere/at/all", document).ok());
}

TEST_F(Folder, WhoNamesTheFileIsToldToNameItsFolder) {
  const Result<Document> file = read(folder() / "quilt.json");
  ASSERT_FALSE(file.ok());
  EXPECT_EQ(file.problems().front().text(),
            (folder() / "quilt.json").string() + ": this is no folder: name the folder that quilt.json lies in");
}

TEST_F(Folder, AFolderOrAPipeInTheFilesPlaceIsRefused) {
  std::filesystem::remove(folder() / "quilt.json");
  std::filesystem::create_directory(folder() / "quilt.json");
  EXPECT_FALSE(read(folder()).ok());
}

TEST_F(Folder, AFileBeyondTheLimitIsRefusedUnread) {
  std::filesystem::resize_file(folder() / "quilt.json", limits::kFileBytes + 1);
  const Result<Document> large = read(folder());
  ASSERT_FALSE(large.ok());
  EXPECT_THAT(large.problems().front().cause, HasSubstr("larger than"));
}

TEST_F(Folder, TemporariesOfACrashAreSwept) {
  const std::filesystem::path orphan = folder() / ".quilt.json.123.farflung-tmp";
  std::ofstream(orphan) << "half";
  std::ofstream(folder() / "versions/.000009.json.gz.7.farflung-tmp") << "half";
  entitle("one");
  EXPECT_FALSE(exists(orphan));
  EXPECT_FALSE(exists(folder() / "versions/.000009.json.gz.7.farflung-tmp"));
}

TEST_F(Folder, ADamagedVersionIsToldAndNothingChanges) {
  entitle("one");
  entitle("two");
  std::ofstream(folder() / "versions/000002.json.gz") << "not gzip";
  const std::string before = quilt_json();
  EXPECT_FALSE(undo(folder()).ok());
  EXPECT_EQ(quilt_json(), before);
}

TEST_F(Folder, AHoldSaysWhoHasIt) {
  const Hold held = must(hold(folder(), "arrange"));
  const Result<Hold> second = hold(folder(), "swaps", std::chrono::milliseconds(0));
  ASSERT_FALSE(second.ok());
  EXPECT_THAT(second.problems().front().cause, HasSubstr("held by arrange (process "));
  EXPECT_EQ(second.problems().front().kind, Problem::Kind::system);
}

TEST_F(Folder, UnderAHoldOneReadsAndWrites) {
  const Hold held = must(hold(folder(), "arrange"));
  Document document = must(read(folder()));
  document.quilt.title = "held";
  must(write(held, document));
  EXPECT_EQ(title(), "held");
}

TEST_F(Folder, WhatWasSavedFirstAndKeptLaterOrNeverIsUndoneAndRedoneLikeAnyOther) {
  Document document = must(read(folder()));
  for (const char* name : {"one", "two", "three"}) {
    document.quilt.title = name;
    const Hold held = must(hold(folder(), "the page"));
    must(write_first(held, document));
    EXPECT_EQ(title(), name);
  }
  EXPECT_EQ(must(history(folder())), (History{3, 0}));
  must(keep_present(folder()));
  must(keep_present(folder()));
  EXPECT_EQ(must(history(folder())), (History{3, 0}));
  for (const char* name : {"two", "one", "Harbour raffle"}) EXPECT_EQ(must(undo(folder())).quilt.title, name);
  for (const char* name : {"one", "two", "three"}) EXPECT_EQ(must(redo(folder())).quilt.title, name);
}

TEST_F(Folder, ReadingAgainGivesWhatStandsThereWhoeverSavedIt) {
  const Document known = must(read(folder()));
  EXPECT_EQ(must(reread(folder(), known)).original, known.original) << "not parsed anew";
  entitle("by another");
  EXPECT_EQ(must(reread(folder(), known)).quilt.title, "by another");
  std::filesystem::remove_all(folder());
  EXPECT_FALSE(reread(folder(), known).ok());
}

}  // namespace
}  // namespace farflung::project
