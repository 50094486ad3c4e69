#include "job/outline.hpp"

#include <filesystem>

#include "extract/features.hpp"
#include "job/looks.hpp"
#include "job/open_quilt.hpp"
#include "job/pending_files.hpp"
#include "job/photo_report.hpp"
#include "job/places_typed.hpp"
#include "photo/take.hpp"

namespace farflung::job {

Outcome outline(const Outline& wish) {
  Result<project::Document> document = project::read(wish.folder);
  if (!document) return document.problems();
  quilt::Quilt& quilt = document->quilt;
  Problems problems;
  const std::vector<int> named = prints_named(quilt, {wish.print}, problems);
  const Result<photo::Corners> corners = corners_typed(wish.corners);
  if (!corners) add_problems(problems, corners);
  if (!problems.empty()) return problems;
  print::Print print = quilt.prints[named.front()];
  if (!print.photo) {
    return input_problem(wish.print, "no photograph shows this print", "take one in with farflung photo");
  }

  photo::TakeOptions how;
  how.corners = {*corners};
  const Result<photo::Take> taken = photo::take((std::filesystem::path(wish.folder) / print.photo->file).string(), how);
  if (!taken) return taken.problems();
  const photo::Swatch& swatch = taken->swatches.front();
  PendingFiles files(wish.folder);
  const Result<Done> added = files.add_swatch(print, swatch.picture);
  if (!added) return added.problems();
  if (swatch.inches) print.swatch_width = Length::inches(*swatch.inches);
  print.photo->corners = swatch.corners;
  print.photo->reference = swatch.reference;
  print.features = extract::features_of(swatch.picture, inches_across(print), print.features);
  const Seen seen{static_cast<std::size_t>(named.front()), print.photo->file, swatch.doubt, false};
  quilt.prints[named.front()] = std::move(print);
  const Result<Done> saved = files.save(*document);
  if (!saved) return saved.problems();

  Looks looks(document->quilt, wish.folder);
  const std::vector<print::Pair> pairs = pairs_of(document->quilt, {seen}, looks);
  Report report = new_report();
  report["prints"] = prints_json(document->quilt, {seen});
  report["problems"] = Report::array();
  return Answer{"Cut anew:\n" + prints_words(document->quilt, {seen}, pairs), text_of(report), {}, true};
}

}  // namespace farflung::job
