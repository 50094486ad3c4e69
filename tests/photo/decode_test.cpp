#include "photo/decode.hpp"

#include <cmath>
#include <filesystem>
#include <fstream>
#include <string>

#include <gmock/gmock.h>
#include <gtest/gtest.h>
#include <sys/resource.h>
#include <vips/vips8>

#include "photo/encode.hpp"
#include "photo/scratch.hpp"
#include "photo/vips.hpp"

namespace farflung::photo {
namespace {

using ::testing::HasSubstr;

constexpr colour::Srgb kRed{200, 40, 50}, kGreen{40, 160, 70}, kBlue{50, 60, 190}, kCream{240, 230, 210};

/// Four quarters of different colours, upright: red, green over blue, cream.
Picture quarters(int columns, int rows) {
  Picture picture(columns, rows);
  for (int row = 0; row < rows; ++row) {
    for (int column = 0; column < columns; ++column) {
      const bool right = column >= columns / 2, low = row >= rows / 2;
      picture.set(column, row, low ? (right ? kCream : kBlue) : (right ? kGreen : kRed));
    }
  }
  return picture;
}

vips::VImage image_of(const Picture& picture) {
  return vips::VImage(vips_image_new_from_memory_copy(picture.rgb.data(), picture.rgb.size(), picture.columns,
                                                      picture.rows, 3, VIPS_FORMAT_UCHAR))
      .copy(vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_sRGB));
}

void expect_near(colour::Srgb seen, colour::Srgb meant, int tolerance) {
  EXPECT_NEAR(seen.r, meant.r, tolerance);
  EXPECT_NEAR(seen.g, meant.g, tolerance);
  EXPECT_NEAR(seen.b, meant.b, tolerance);
}

void expect_quarters(const Picture& picture, int tolerance) {
  const int x = picture.columns / 4, y = picture.rows / 4;
  expect_near(picture.at(x, y), kRed, tolerance);
  expect_near(picture.at(3 * x, y), kGreen, tolerance);
  expect_near(picture.at(x, 3 * y), kBlue, tolerance);
  expect_near(picture.at(3 * x, 3 * y), kCream, tolerance);
}

void append(std::string& bytes, std::uint32_t number, int count) {
  for (int i = count - 1; i >= 0; --i) bytes.push_back(static_cast<char>(number >> (8 * i)));
}

void append_fixed(std::string& bytes, double number) {
  append(bytes, static_cast<std::uint32_t>(static_cast<std::int32_t>(std::lround(number * 65536))), 4);
}

std::string icc_xyz(double X, double Y, double Z) {
  std::string tag("XYZ \0\0\0\0", 8);
  for (const double number : {X, Y, Z}) append_fixed(tag, number);
  return tag;
}

/// A profile of ICC.1:2001-04: Adobe RGB (1998)'s primaries, adapted to D50 as its specification gives them, and its
/// exponent, 563/256.
std::string adobe_rgb_profile() {
  std::string curve("curv\0\0\0\0", 8), words("desc\0\0\0\0\0\0\0\2a\0", 14);
  append(curve, 1, 4), append(curve, 563, 2);
  words.resize(92);
  const std::vector<std::pair<std::string, std::string>> tags = {{"desc", words},
                                                                 {"cprt", std::string("text\0\0\0\0a\0", 10)},
                                                                 {"wtpt", icc_xyz(0.9642, 1, 0.8249)},
                                                                 {"rXYZ", icc_xyz(0.60974, 0.31111, 0.01947)},
                                                                 {"gXYZ", icc_xyz(0.20528, 0.62567, 0.06087)},
                                                                 {"bXYZ", icc_xyz(0.14919, 0.06322, 0.74457)},
                                                                 {"rTRC", curve},
                                                                 {"gTRC", curve},
                                                                 {"bTRC", curve}};
  std::string table, data;
  append(table, static_cast<std::uint32_t>(tags.size()), 4);
  for (const auto& [name, tag] : tags) {
    table += name;
    append(table, static_cast<std::uint32_t>(128 + 4 + 12 * tags.size() + data.size()), 4);
    append(table, static_cast<std::uint32_t>(tag.size()), 4);
    data += tag;
    data.resize((data.size() + 3) / 4 * 4);
  }
  std::string header;
  append(header, static_cast<std::uint32_t>(128 + table.size() + data.size()), 4);
  header.resize(8);
  append(header, 0x02400000, 4);
  header += "mntrRGB XYZ ";
  header.resize(36);
  header += "acsp";
  header.resize(68);
  for (const double number : {0.9642, 1.0, 0.8249}) append_fixed(header, number);
  header.resize(128);
  return header + table + data;
}

class Decode : public ::testing::Test {
 protected:
  void SetUp() override { ASSERT_TRUE(vips_ready()); }

  Photograph decoded(const std::string& name, const DecodeOptions& options = {}) {
    Result<Photograph> photograph = decode(scratch_.file(name), options);
    EXPECT_TRUE(photograph.ok()) << photograph.problems()[0].text();
    return photograph ? *photograph : Photograph{};
  }

  Problem refusal(const std::string& name, const DecodeOptions& options = {}) {
    const Result<Photograph> photograph = decode(scratch_.file(name), options);
    EXPECT_FALSE(photograph.ok()) << name;
    return photograph.ok() ? Problem{} : photograph.problems()[0];
  }

  void write(const std::string& name, const std::string& bytes) {
    std::ofstream(scratch_.file(name), std::ios::binary) << bytes;
  }

  std::string bytes_of(const std::string& name) {
    std::ifstream in(scratch_.file(name), std::ios::binary);
    return {std::istreambuf_iterator<char>(in), {}};
  }

  Scratch scratch_;
};

TEST_F(Decode, PngComesBackBitForBit) {
  const Picture picture = quarters(60, 40);
  ASSERT_TRUE(save(picture, scratch_.file("a.png")).ok());
  EXPECT_EQ(decoded("a.png").picture, picture);
}

TEST_F(Decode, EveryExifTurnEndsUpright) {
  // The picture as the sensor saw it, for each orientation, made by undoing the turn.
  const vips::VImage upright = image_of(quarters(96, 64));
  for (int orientation = 1; orientation <= 8; ++orientation) {
    vips::VImage stored = upright;
    switch (orientation) {
      case 2:
        stored = stored.fliphor();
        break;
      case 3:
        stored = stored.rot180();
        break;
      case 4:
        stored = stored.flipver();
        break;
      case 5:
        stored = stored.rot90().fliphor();
        break;
      case 6:
        stored = stored.rot270();
        break;
      case 7:
        stored = stored.rot90().flipver();
        break;
      case 8:
        stored = stored.rot90();
        break;
      default:
        break;
    }
    stored = stored.copy();
    stored.set(VIPS_META_ORIENTATION, orientation);
    stored.jpegsave(scratch_.file("turned.jpg").c_str(), vips::VImage::option()->set("Q", 95));
    const Photograph photograph = decoded("turned.jpg");
    EXPECT_EQ(photograph.columns, 96) << orientation;
    EXPECT_EQ(photograph.rows, 64) << orientation;
    expect_quarters(photograph.picture, 8);
  }
}

TEST_F(Decode, ProfilesAreApplied) {
  // The same colours, told in another profile: what comes back must be what was meant, not what is stored.
  const vips::VImage meant = image_of(quarters(64, 64));
  meant.icc_transform("p3", vips::VImage::option()->set("input_profile", "srgb"))
      .jpegsave(scratch_.file("p3.jpg").c_str(), vips::VImage::option()->set("Q", 98));
  expect_quarters(decoded("p3.jpg").picture, 6);

  write("adobe.icc", adobe_rgb_profile());
  meant.icc_transform(scratch_.file("adobe.icc").c_str(), vips::VImage::option()->set("input_profile", "srgb"))
      .jpegsave(scratch_.file("adobe.jpg").c_str(), vips::VImage::option()->set("Q", 98));
  expect_quarters(decoded("adobe.jpg").picture, 6);
  // Without its profile the same file shows other colours.
  vips::VImage bare = vips::VImage::new_from_file(scratch_.file("adobe.jpg").c_str()).copy();
  bare.remove(VIPS_META_ICC_NAME);
  bare.jpegsave(scratch_.file("bare.jpg").c_str(), vips::VImage::option()->set("Q", 98));
  EXPECT_GT(std::abs(decoded("bare.jpg").picture.at(16, 16).r - kRed.r), 12);
}

TEST_F(Decode, GreyCmykAlphaAndSixteenBitsComeAsSrgb) {
  const vips::VImage picture = image_of(quarters(64, 64));
  picture.colourspace(VIPS_INTERPRETATION_B_W).jpegsave(scratch_.file("grey.jpg").c_str());
  const colour::Srgb grey = decoded("grey.jpg").picture.at(10, 10);
  EXPECT_EQ(grey.r, grey.g);
  EXPECT_EQ(grey.g, grey.b);

  picture.colourspace(VIPS_INTERPRETATION_CMYK).jpegsave(scratch_.file("cmyk.jpg").c_str());
  // Printer's inks reach neither this green nor this blue.
  const Picture inks = decoded("cmyk.jpg").picture;
  expect_near(inks.at(10, 10), kRed, 25);
  expect_near(inks.at(50, 50), kCream, 25);

  picture.colourspace(VIPS_INTERPRETATION_RGB16).pngsave(scratch_.file("deep.png").c_str());
  expect_quarters(decoded("deep.png").picture, 2);
  picture.colourspace(VIPS_INTERPRETATION_RGB16).tiffsave(scratch_.file("deep.tif").c_str());
  expect_quarters(decoded("deep.tif").picture, 2);

  vips::VImage half_clear = picture.bandjoin(vips::VImage::black(64, 64));
  half_clear = half_clear.copy(vips::VImage::option()->set("interpretation", VIPS_INTERPRETATION_sRGB));
  half_clear.pngsave(scratch_.file("clear.png").c_str());
  EXPECT_EQ(decoded("clear.png").picture.at(20, 20), (colour::Srgb{255, 255, 255}));
}

TEST_F(Decode, ProgressiveJpegAndWebpAreRead) {
  const vips::VImage picture = image_of(quarters(64, 64));
  picture.jpegsave(scratch_.file("p.jpg").c_str(), vips::VImage::option()->set("interlace", true)->set("Q", 95));
  expect_quarters(decoded("p.jpg").picture, 8);
  picture.webpsave(scratch_.file("p.webp").c_str(), vips::VImage::option()->set("lossless", true));
  expect_quarters(decoded("p.webp").picture, 1);
}

TEST_F(Decode, LargePhotographsAreShrunkAndSayTheirFullSize) {
  ASSERT_TRUE(save(quarters(1200, 900), scratch_.file("large.jpg")).ok());
  DecodeOptions options;
  options.longest = 300;
  const Photograph photograph = decoded("large.jpg", options);
  EXPECT_EQ(photograph.picture.columns, 300);
  EXPECT_EQ(photograph.picture.rows, 225);
  EXPECT_EQ(photograph.columns, 1200);
  EXPECT_EQ(photograph.rows, 900);
  expect_quarters(photograph.picture, 8);
}

TEST_F(Decode, AJpegShrunkWhileItIsLoadedIsTurnedAndTrueToColourAsAnyOther) {
  DecodeOptions options;
  options.longest = 200;
  const vips::VImage upright = image_of(quarters(800, 600));
  vips::VImage turned = upright.rot270().copy();
  turned.set(VIPS_META_ORIENTATION, 6);
  turned.jpegsave(scratch_.file("turned.jpg").c_str(), vips::VImage::option()->set("Q", 95));
  const Photograph photograph = decoded("turned.jpg", options);
  EXPECT_EQ(photograph.columns, 800);
  EXPECT_EQ(photograph.rows, 600);
  EXPECT_EQ(photograph.picture.columns, 200);
  EXPECT_EQ(photograph.picture.rows, 150);
  expect_quarters(photograph.picture, 8);

  upright.icc_transform("p3", vips::VImage::option()->set("input_profile", "srgb"))
      .jpegsave(scratch_.file("p3.jpg").c_str(), vips::VImage::option()->set("Q", 98));
  expect_quarters(decoded("p3.jpg", options).picture, 6);
  upright.colourspace(VIPS_INTERPRETATION_CMYK).jpegsave(scratch_.file("cmyk.jpg").c_str());
  expect_near(decoded("cmyk.jpg", options).picture.at(20, 20), kRed, 25);
  upright.colourspace(VIPS_INTERPRETATION_B_W).jpegsave(scratch_.file("grey.jpg").c_str());
  EXPECT_EQ(decoded("grey.jpg", options).picture.at(20, 20).r, decoded("grey.jpg", options).picture.at(20, 20).b);
  upright.jpegsave(scratch_.file("p.jpg").c_str(), vips::VImage::option()->set("interlace", true)->set("Q", 95));
  expect_quarters(decoded("p.jpg", options).picture, 8);

  const std::string bytes = bytes_of("turned.jpg");
  write("turned.jpg", bytes.substr(0, bytes.size() / 2));
  EXPECT_THAT(refusal("turned.jpg", options).cause, HasSubstr("cut short"));
}

TEST_F(Decode, FortyEightMegapixelsNeverStandInMemory) {
  const vips::VImage grey = vips::VImage::black(8000, 6000) + 120.0;
  grey.cast(VIPS_FORMAT_UCHAR).jpegsave(scratch_.file("48.jpg").c_str());
  rusage before{}, after{};
  getrusage(RUSAGE_SELF, &before);
  const Photograph photograph = decoded("48.jpg");
  getrusage(RUSAGE_SELF, &after);
  EXPECT_EQ(photograph.columns, 8000);
  EXPECT_EQ(photograph.rows, 6000);
  EXPECT_LE(photograph.picture.columns, 2048);
  expect_near(photograph.picture.at(700, 700), {120, 120, 120}, 1);
#if defined(FARFLUNG_SANITIZED)
  constexpr long kMost = 120 * 1024;  // what is freed is held back for a while
#else
  constexpr long kMost = 60 * 1024;
#endif
  EXPECT_LT(after.ru_maxrss - before.ru_maxrss, kMost) << "kilobytes; its pixels would be 144 MB";
}

TEST_F(Decode, OfSeveralPicturesInAFileTheFirstIsRead) {
  const vips::VImage first = image_of(quarters(64, 64));
  vips::VImage pages =
      vips::VImage::arrayjoin({first, first.invert()}, vips::VImage::option()->set("across", 1)).copy();
  pages.set(VIPS_META_PAGE_HEIGHT, 64);
  pages.tiffsave(scratch_.file("pages.tif").c_str());
  pages.webpsave(scratch_.file("moving.webp").c_str(), vips::VImage::option()->set("lossless", true));
  for (const char* name : {"pages.tif", "moving.webp"}) {
    const Photograph photograph = decoded(name);
    EXPECT_EQ(photograph.rows, 64) << name;
    expect_quarters(photograph.picture, 2);
  }
  // Telephones put a moving picture, or one of more range, behind the first.
  ASSERT_TRUE(save(quarters(64, 64), scratch_.file("first.jpg")).ok());
  write("two.jpg", bytes_of("first.jpg") + bytes_of("moving.webp") + bytes_of("first.jpg"));
  expect_quarters(decoded("two.jpg").picture, 8);
}

TEST_F(Decode, ADamagedExifHidesNoPicture) {
  ASSERT_TRUE(save(quarters(64, 64), scratch_.file("a.jpg")).ok());
  const std::string bytes = bytes_of("a.jpg");
  const std::string nowhere("Exif\0\0II*\0\xff\xff\xff\x7f\xff\xff", 16);
  const std::string ninety_nine("Exif\0\0MM\0*\0\0\0\x08\0\x01\x01\x12\0\x03\0\0\0\x01\0\x63\0\0\0\0\0\0", 32);
  for (const std::string& exif : {nowhere, ninety_nine}) {
    std::string segment("\xff\xe1", 2);
    append(segment, static_cast<std::uint32_t>(exif.size() + 2), 2);
    write("damaged.jpg", bytes.substr(0, 2) + segment + exif + bytes.substr(2));
    expect_quarters(decoded("damaged.jpg").picture, 8);
  }
}

TEST_F(Decode, HeicIsRead) {
  try {
    image_of(quarters(128, 96)).heifsave(scratch_.file("a.heic").c_str(), vips::VImage::option()->set("Q", 95));
  } catch (const vips::VError& error) {
    GTEST_SKIP() << "this machine writes no HEIC: " << error.what();
  }
  const Photograph photograph = decoded("a.heic");
  EXPECT_EQ(photograph.columns, 128);
  expect_quarters(photograph.picture, 8);
}

TEST_F(Decode, WhatIsCutShortIsRefused) {
  ASSERT_TRUE(save(quarters(640, 480), scratch_.file("whole.jpg")).ok());
  ASSERT_TRUE(save(quarters(640, 480), scratch_.file("whole.png")).ok());
  for (const char* name : {"whole.jpg", "whole.png"}) {
    const std::string bytes = bytes_of(name);
    write(name, bytes.substr(0, bytes.size() / 2));
    EXPECT_THAT(refusal(name).cause, HasSubstr("cut short"));
    EXPECT_FALSE(refusal(name).remedy.empty());
  }
}

TEST_F(Decode, TheReasonIsInPlainWords) {
  ASSERT_TRUE(save(quarters(64, 64), scratch_.file("whole.png")).ok());
  const std::string bytes = bytes_of("whole.png");
  write("cut.png", bytes.substr(0, bytes.size() / 2));
  EXPECT_EQ(refusal("cut.png").cause, "the picture is cut short: the file ends before it does");
  write("headless.png", bytes.substr(0, 20));
  EXPECT_THAT(refusal("headless.png").cause, ::testing::AnyOf(HasSubstr("cut short"), HasSubstr("damaged")));
  std::string scrambled = bytes;
  scrambled[20] = '\x7f';  // the width, whose check sum is then wrong
  write("scrambled.png", scrambled);
  EXPECT_THAT(refusal("scrambled.png").cause, HasSubstr("damaged"));
  for (const char* name : {"cut.png", "headless.png", "scrambled.png"}) {
    EXPECT_THAT(refusal(name).cause, ::testing::Not(HasSubstr("unknown"))) << name;
    EXPECT_THAT(refusal(name).remedy, HasSubstr("take it again")) << name;
  }
}

TEST_F(Decode, TheEnormousIsRefusedByItsHeader) {
  ASSERT_TRUE(save(quarters(400, 300), scratch_.file("a.png")).ok());
  DecodeOptions options;
  options.most_pixels = 100'000;
  EXPECT_THAT(refusal("a.png", options).cause, HasSubstr("megapixels"));
  options = {};
  options.most_bytes = 100;
  EXPECT_THAT(refusal("a.png", options).cause, HasSubstr("too large"));
}

TEST_F(Decode, APngOfFourHundredMegapixelsInFiftyKilobytesCostsNothing) {
  rusage before{}, after{};
  getrusage(RUSAGE_SELF, &before);
  const Result<Photograph> photograph = decode(FARFLUNG_SOURCE "/tests/corpus/photograph/400-megapixels.png");
  getrusage(RUSAGE_SELF, &after);
  ASSERT_FALSE(photograph.ok());
  EXPECT_THAT(photograph.problems()[0].cause, HasSubstr("400 megapixels, more than the 130 that are read"));
  EXPECT_LT(after.ru_maxrss - before.ru_maxrss, 40 * 1024) << "kilobytes; its pixels would be 400 MB at least";
}

TEST_F(Decode, WhatIsNoPhotographIsRefusedWhateverItsName) {
  write("words.jpg", "Dear lifeboat committee, the quilt is nearly done.");
  write("empty.jpg", "");
  write("drawing.jpg", "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"9\" height=\"9\"/>");
  write("header.jpg", std::string("\xff\xd8\xff\xe0", 4));
  for (const char* name : {"words.jpg", "empty.jpg", "drawing.jpg", "header.jpg", "nowhere.jpg"}) {
    const Problem problem = refusal(name);
    EXPECT_EQ(problem.kind, Problem::Kind::input) << name;
    EXPECT_FALSE(problem.cause.empty()) << name;
    EXPECT_FALSE(problem.remedy.empty()) << name;
  }
  EXPECT_THAT(refusal(".").cause, HasSubstr("folder"));
  EXPECT_THAT(refusal("nowhere.jpg").cause, HasSubstr("no such file"));
  EXPECT_THAT(refusal("empty.jpg").cause, HasSubstr("empty"));
  EXPECT_THAT(refusal("words.jpg").cause, HasSubstr("not a photograph"));
  ASSERT_TRUE(save(quarters(12, 40), scratch_.file("small.png")).ok());
  EXPECT_THAT(refusal("small.png").cause, HasSubstr("only 12 x 40 pixels"));
  image_of(quarters(64, 64)).write_to_file(scratch_.file("moving.gif").c_str());
  EXPECT_THAT(refusal("moving.gif").cause, HasSubstr("not a photograph"));
}

}  // namespace
}  // namespace farflung::photo
