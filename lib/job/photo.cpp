#include "job/photo.hpp"

#include <algorithm>
#include <cmath>
#include <filesystem>
#include <fstream>
#include <map>
#include <optional>
#include <regex>
#include <string_view>

#include "base/counted.hpp"
#include "base/limits.hpp"
#include "colour/typed.hpp"
#include "extract/features.hpp"
#include "job/looks.hpp"
#include "job/made_by_screen.hpp"
#include "job/open_quilt.hpp"
#include "job/pending_files.hpp"
#include "job/photo_report.hpp"
#include "job/places_typed.hpp"
#include "job/standard_streams.hpp"
#include "photo/encode.hpp"
#include "photo/take.hpp"
#include "project/disk.hpp"

namespace farflung::job {
namespace {

namespace fs = std::filesystem;

/// "kelp_small-2.jpg" gives "Kelp small 2".
std::string name_from_file(const std::string& file) {
  std::string name = fs::path(file).stem().string();
  std::replace_if(
      name.begin(), name.end(), [](char c) { return c == '_' || c == '-'; }, ' ');
  if (!name.empty() && name[0] >= 'a' && name[0] <= 'z') name[0] = static_cast<char>(name[0] - 'a' + 'A');
  return name;
}

/// What a picture of what was found says of itself, in the comment behind a JPEG's first marker (ISO/IEC 10918-1,
/// B.2.4.5).
constexpr std::string_view kFoundMark = "Farflung: what was found in a photograph";
constexpr std::size_t kStartOfImage = 2;  // bytes

std::string with_found_mark(const std::vector<std::uint8_t>& jpeg) {
  const std::size_t length = kFoundMark.size() + 2;  // its own two bytes count
  std::string marked(jpeg.begin(), jpeg.begin() + kStartOfImage);
  marked += {'\xff', '\xfe', static_cast<char>(length >> 8), static_cast<char>(length & 0xff)};
  marked += kFoundMark;
  marked.append(jpeg.begin() + kStartOfImage, jpeg.end());
  return marked;
}

/// Whether the program drew it: by the mark, or, where an earlier version wrote it, by its name in a quilt's folder.
bool is_found_picture(const std::string& file) {
  std::string start(256, '\0');
  std::ifstream(file, std::ios::binary).read(start.data(), static_cast<std::streamsize>(start.size()));
  if (start.find(kFoundMark) != std::string::npos) return true;
  const fs::path path = fs::absolute(file);
  std::error_code ignored;
  return std::regex_match(path.filename().string(), std::regex(".+-found(-\\d+)?\\.jpg")) &&
         path.parent_path().filename() == "photos" &&
         fs::exists(path.parent_path().parent_path() / "quilt.json", ignored);
}

bool fills_frame(const photo::Swatch& swatch, const photo::Photograph& photograph) {
  const photo::Corners frame = photo::whole(photograph.columns, photograph.rows);
  const double near = 0.01 * std::max(photograph.columns, photograph.rows);
  return std::equal(frame.begin(), frame.end(), swatch.corners.begin(), [&](const auto& a, const auto& b) {
    return std::abs(a[0] - b[0]) < near && std::abs(a[1] - b[1]) < near;
  });
}

/// One run of taking photographs in: gathers prints and files, then writes everything at once.
class Intake {
 public:
  Intake(const TakePhotographs& options, project::Document& document, std::optional<Length> across,
         photo::TakeOptions how)
      : options_(options),
        document_(document),
        across_(across),
        how_(std::move(how)),
        files_(options.folder),
        looks_(document.quilt, options.folder) {}

  /// A photograph that gives nothing is listed with its problem.
  void take(const std::string& file) {
    const Result<std::string> bytes = bytes_of(file);  // where it cannot be read, take says why
    if (bytes && already_in(file, *bytes)) return;
    Result<photo::Take> taken = photo::take(file, how_);
    if (!taken) {
      add_problems(problems, taken);
      return;
    }
    if (bytes) add_photograph(file, *bytes, *taken);
  }

  Result<Done> save() { return files_.save(document_); }

  /// What came in, in reading order.
  const std::vector<Seen>& seen() const { return seen_; }
  Looks& looks() { return looks_; }

  Problems problems, warnings;
  int found = 0;

 private:
  static Result<std::string> bytes_of(const fs::path& file) {
    return project::disk::read_file(file, photo::DecodeOptions().most_bytes);
  }

  /// The same photograph again would bring the same prints twice.
  bool already_in(const std::string& file, const std::string& bytes) {
    const auto holds_them = [&](const fs::path& other) {
      const Result<std::string> known = bytes_of(other);
      return known && *known == bytes;
    };
    const auto [earlier, fresh] = file_of_.try_emplace(fs::path(file).filename().string(), file);
    bool same = !fresh && holds_them(earlier->second);
    earlier->second = file;
    for (const print::Print& print : document_.quilt.prints) {
      if (same) break;
      if (!print.photo || fs::path(print.photo->file).extension() != fs::path(file).extension()) continue;
      same = holds_them(fs::path(options_.folder) / print.photo->file);
    }
    if (same) {
      problems.push_back(
          input_problem(file, "this photograph is in the quilt already", "leave it out, or take another"));
    }
    return same;
  }

  void add_photograph(const std::string& file, const std::string& bytes, const photo::Take& taken) {
    const std::string stem = fs::path(file).stem().string();
    const std::string kept = files_.free_name("photos", stem, fs::path(file).extension().string());
    files_.add(kept, bytes);
    const std::size_t first = document_.quilt.prints.size();
    for (std::size_t i = 0; i < taken.swatches.size(); ++i) {
      const std::string number = taken.swatches.size() > 1 ? " " + std::to_string(i + 1) : "";
      add_print(file, kept, name_from_file(file) + number, taken.swatches[i]);
    }
    print::give_codes(document_.quilt.prints);
    std::vector<std::string> codes;
    for (std::size_t i = first; i < document_.quilt.prints.size(); ++i) {
      const photo::Swatch& swatch = taken.swatches[i - first];
      codes.push_back(document_.quilt.prints[i].code);
      seen_.push_back({i, file, swatch.doubt, !swatch.doubt.empty() && fills_frame(swatch, taken.photograph),
                       how_.table.has_value() && swatch.reference == "surface", taken.reference.grey_together});
    }
    if (made_by_screen(taken.photograph.picture)) {
      warnings.push_back(
          input_problem(file, "it looks made by a screen, not by a camera: large parts are of one exact colour",
                        "photograph the cloth itself, and take out what is no fabric"));
    }
    Result<std::vector<std::uint8_t>> overview = photo::encode(photo::overview_of(taken, codes), photo::Format::jpeg);
    if (overview)
      files_.add(files_.free_name("photos", fs::path(kept).stem().string() + "-found", ".jpg"),
                 with_found_mark(*overview));
  }

  void add_print(const std::string& file, const std::string& kept, const std::string& file_name,
                 const photo::Swatch& swatch) {
    if (document_.quilt.prints.size() >= limits::kPrints) {
      problems.push_back(input_problem(file, "the quilt holds as many prints as it can", "start another quilt"));
      return;
    }
    print::Print print;
    print.id = next_print_id(document_.quilt);
    const Result<Done> added = files_.add_swatch(print, swatch.picture);
    if (!added) {
      add_problems(problems, added);
      return;
    }
    const auto told = static_cast<std::size_t>(found++);
    print.name = told < options_.names.size() ? options_.names[told] : file_name;
    print.swatch_width = across_;
    if (swatch.inches) print.swatch_width = Length::inches(*swatch.inches);
    print.photo = print::Sighting{kept, swatch.corners, swatch.reference};
    print.features = extract::features_of(swatch.picture, inches_across(print));
    document_.quilt.prints.push_back(std::move(print));
    looks_.give(document_.quilt.prints.size() - 1, swatch.picture);
  }

  const TakePhotographs& options_;
  project::Document& document_;
  std::optional<Length> across_;
  photo::TakeOptions how_;
  PendingFiles files_;
  std::map<std::string, std::string> file_of_;  ///< the last photograph of each name
  std::vector<Seen> seen_;
  Looks looks_;
};

/// The photographs of one command are one sitting, under one light and on one table: where one of them shows the table
/// beside the sheet or a chart, the others are corrected by the table.
std::optional<colour::Lab> table_of_sitting(const std::vector<std::string>& files) {
  if (files.size() < 2) return {};
  for (const std::string& file : files) {
    if (auto table = photo::table_told_by(file)) return table;
  }
  return {};
}

/// What the user tells of the photograph by hand.
Result<photo::TakeOptions> how_to_take(const TakePhotographs& options) {
  photo::TakeOptions how;
  how.whole = options.whole;
  Problems problems;
  if (options.files.size() != 1 && !(options.corners.empty() && options.white.empty())) {
    problems.push_back(
        input_problem("--corners, --white", "they are of one photograph", "give one photograph at a time"));
  }
  if (options.files.empty() == options.colour.empty()) {
    problems.push_back(input_problem("photo", "a photograph or a colour is what a print comes from",
                                     "give photographs, or --colour alone"));
  }
  for (const std::string& text : options.corners) {
    const Result<photo::Corners> corners = corners_typed(text);
    if (corners) {
      how.corners.push_back(*corners);
    } else {
      add_problems(problems, corners);
    }
  }
  if (!options.white.empty()) {
    how.white = place_typed(options.white);
    if (!how.white) {
      problems.push_back(input_problem("--white " + options.white, "this is no place", "give x,y in pixels"));
    }
  }
  if (!problems.empty()) return problems;
  return how;
}

std::string passed_over_words(const std::vector<std::string>& files) {
  std::string words;
  for (const std::string& file : files) words += file + ": passed over, Farflung's own picture of what it found\n";
  return words;
}

/// A print without a photograph: its colour is by hand and stays.
Outcome type_print(const TakePhotographs& options, project::Document& document) {
  Result<colour::Lab> lab = colour::colour_from_typed(options.colour);
  if (!lab) return lab.problems();
  print::Print print;
  print.id = next_print_id(document.quilt);
  print.name = options.names.empty() ? print.id : options.names.front();
  print.features.lab = *lab;
  print.features.by_hand = {"lab"};
  document.quilt.prints.push_back(print);
  print::give_codes(document.quilt.prints);
  const print::Print added = document.quilt.prints.back();  // a copy: writing reads the quilt anew
  if (!options.dry_run) {
    Result<Done> written = project::write(options.folder, document);
    if (!written) return written.problems();
  }
  Report report = new_report();
  Report entry = {{"id", added.id}, {"code", added.code}, {"name", added.name}, {"reference", "none"}};
  entry["file"] = nullptr;
  entry["lab"] = {lab->L, lab->a, lab->b};
  report["prints"] = Report::array({entry});
  report["problems"] = Report::array();
  const std::string words = "Added " + added.name + " (" + added.code + "), " + colour::hex(*lab) + ".\n";
  return Answer{words + tried_words(options.dry_run), text_of(report), {}, true};
}

/// What was found in the photographs that are no pictures of ours: those were `passed_over`.
Answer answer_about(const TakePhotographs& options, const quilt::Quilt& quilt, Intake& intake,
                    const std::vector<std::string>& passed_over) {
  Report report = new_report();
  const std::vector<print::Pair> pairs = pairs_of(quilt, intake.seen(), intake.looks());
  report["prints"] = prints_json(quilt, intake.seen());
  report["pairs"] = pairs_json(quilt, intake.seen(), pairs);
  report["passed_over"] = passed_over;
  report["remarks"] = remarks(quilt, intake.seen(), pairs);
  const std::string words =
      counted(static_cast<std::size_t>(intake.found), "print", "prints") + " from " +
      counted(options.files.size(), "photograph", "photographs") + ":\n" + prints_words(quilt, intake.seen(), pairs) +
      passed_over_words(passed_over) +
      (options.dry_run ? tried_words(true) : "Outlines are shown in " + options.folder + "/photos/*-found.jpg\n");
  Answer answer{words, "", intake.problems, true, intake.warnings};
  put_report(report, answer);
  return answer;
}

Outcome take_from(TakePhotographs options, const Watch& watch) {
  Result<project::Document> document = project::read(options.folder);
  if (!document) return document.problems();
  std::optional<Length> across;
  if (!options.across.empty()) {
    Result<Length> length = length_option("--across", options.across, document->quilt.units);
    if (!length) return length.problems();
    across = *length;
  }

  Result<photo::TakeOptions> how = how_to_take(options);
  if (!how) return how.problems();
  if (!options.colour.empty()) return type_print(options, *document);
  const auto ours = std::stable_partition(options.files.begin(), options.files.end(),
                                          [](const std::string& file) { return !is_found_picture(file); });
  const std::vector<std::string> passed_over(ours, options.files.end());
  options.files.erase(ours, options.files.end());
  how->table = table_of_sitting(options.files);
  Intake intake(options, *document, across, *how);
  for (std::size_t i = 0; i < options.files.size(); ++i) {
    if (!watch({static_cast<double>(i) / static_cast<double>(options.files.size()), "Reading " + options.files[i]})) {
      return stopped();
    }
    intake.take(options.files[i]);
  }
  watch({.done = 1});
  if (intake.found == 0) {
    for (const std::string& file : passed_over) {
      intake.problems.push_back(
          input_problem(file, "this is Farflung's own picture of what it found", "give the photograph itself"));
    }
    return intake.problems;
  }
  if (!options.dry_run) {
    Result<Done> saved = intake.save();
    if (!saved) return saved.problems();
  }

  return answer_about(options, document->quilt, intake, passed_over);
}

}  // namespace

Outcome take_photographs(const TakePhotographs& asked, const Watch& watch) {
  const auto take = [&](const std::vector<std::string>& paths) {
    TakePhotographs options = asked;
    options.files = paths;
    return take_from(std::move(options), watch);
  };
  return with_given(asked.files, kSentPhotograph, limits::kPhotographBytes, take);
}

}  // namespace farflung::job
