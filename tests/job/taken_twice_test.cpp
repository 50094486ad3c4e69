// Fabrics that a quilter photographs again.
#include <fstream>

#include "job/world.hpp"
#include "photo/decode.hpp"
#include "photo/encode.hpp"

namespace farflung::job {
namespace {

const std::filesystem::path kTable =
    std::filesystem::path(FARFLUNG_SOURCE) / "data" / "demo" / "photographs" / "01-table.jpg";

/// Another file of the same photograph: smaller, its colours a little warmer.
void write_again(const std::filesystem::path& file) {
  photo::DecodeOptions smaller;
  smaller.longest = 1200;
  Result<photo::Photograph> photograph = photo::decode(kTable.string(), smaller);
  ASSERT_TRUE(photograph.ok());
  for (std::size_t i = 2; i < photograph->picture.rgb.size(); i += 3) {
    photograph->picture.rgb[i] = static_cast<std::uint8_t>(photograph->picture.rgb[i] * 0.93);
  }
  const auto bytes = photo::encode(photograph->picture, photo::Format::jpeg);
  ASSERT_TRUE(bytes.ok());
  std::ofstream(file, std::ios::binary).write(reinterpret_cast<const char*>(bytes->data()), bytes->size());
}

Outcome taken(const World& world, const std::filesystem::path& file) {
  TakePhotographs wish;
  wish.folder = world.folder();
  wish.files = {file.string()};
  return take_photographs(wish, [](const Progress&) { return true; });
}

TEST(TakenTwice, FabricsThatAreInTheQuiltAlreadyAreToldByTheirSwatches) {
  const World world;
  const std::size_t fabrics = reported(taken(world, kTable))["prints"].size();
  ASSERT_EQ(fabrics, 6U);
  const std::filesystem::path again = std::filesystem::path(world.folder()) / "again.jpg";
  write_again(again);
  const Outcome outcome = taken(world, again);
  const Json report = reported(outcome);
  std::size_t same = 0;
  for (const Json& pair : report["pairs"]) same += pair["same"].get<bool>();
  EXPECT_EQ(same, fabrics);
  EXPECT_NE(outcome->words.find("may be one fabric photographed twice"), std::string::npos);
}

TEST(TakenTwice, ThePictureOfWhatWasFoundIsNoPhotograph) {
  namespace fs = std::filesystem;
  const World world;
  ASSERT_TRUE(taken(world, kTable).ok());
  const fs::path found = fs::path(world.folder()) / "photos" / "01-table-found.jpg";
  ASSERT_TRUE(fs::exists(found));
  ASSERT_TRUE(photo::decode(found.string(), {}).ok()) << "the mark leaves it a picture";
  const fs::path elsewhere = fs::path(world.folder()) / "holiday.jpg";
  fs::copy_file(found, elsewhere);
  for (const fs::path& picture : {found, elsewhere}) {
    const Outcome alone = taken(world, picture);
    ASSERT_FALSE(alone.ok());
    EXPECT_NE(alone.problems().front().cause.find("own picture of what it found"), std::string::npos);
  }
  const World other;
  TakePhotographs wish;
  wish.folder = other.folder();
  wish.files = {kTable.string(), found.string()};
  const Outcome both = take_photographs(wish, [](const Progress&) { return true; });
  EXPECT_EQ(reported(both)["prints"].size(), 6U);
  EXPECT_EQ(reported(both)["passed_over"], Json::array({found.string()}));
  EXPECT_NE(both->words.find("6 prints from 1 photograph:"), std::string::npos) << both->words;
  EXPECT_NE(both->words.find("passed over"), std::string::npos);
}

TEST(TakenTwice, WordsSayWhichPrintsRunOneWay) {
  const World world;
  const Outcome outcome = taken(world, kTable);
  std::size_t striped = 0, one_way = 0;
  const Json report = reported(outcome);
  for (const Json& print : report["prints"]) {
    striped += print["direction"]["kind"] == "stripe", one_way += print["direction"]["kind"] == "one-way";
  }
  const auto said = [&](const std::string& word) {
    std::size_t count = 0;
    for (std::size_t at = outcome->words.find(word); at != std::string::npos; at = outcome->words.find(word, at + 1))
      ++count;
    return count;
  };
  EXPECT_EQ(said("; striped\n"), striped);
  EXPECT_EQ(said("; one-way, its top as photographed\n"), one_way);
  EXPECT_GT(striped + one_way, 0U);
}

}  // namespace
}  // namespace farflung::job
