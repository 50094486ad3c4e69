// What each patch of each cell shows, in every form that a block there could have, and how ill each print fits it.
#pragma once

#include <vector>

#include "wall/grid.hpp"
#include "wall/looks.hpp"

namespace farflung::wall {

/// A pattern in one of its turns.
struct Form {
  int pattern = 0;
  Turn turn;
  int first_patch = 0;  ///< of its patches among the patches of all forms
};

/// A stretch of the band of wall round the blocks: where its middle is, -1..1 over the box, and how it looks.
struct Stretch {
  double x = 0, y = 0;
  Look look{};
};

/// Everything that was measured; nothing is judged yet.
struct Evidence {
  std::vector<Form> forms;
  std::vector<std::vector<int>> forms_of;  ///< by pattern
  int patches = 0;                         ///< of all forms
  std::vector<double> x, y;                ///< by cell: the centre, -1..1 over the box
  std::vector<Look> looks;                 ///< by cell, by patch of all forms
  std::vector<int> slot;                   ///< by patch of all forms
  std::vector<double> side;                ///< by patch of all forms: of a square of its area, inches
  std::vector<Stretch> band;               ///< as far as the photograph shows it
  /// Of the wall laid flat.
  double pixels_per_inch = 0;

  int cells() const { return static_cast<int>(x.size()); }
  const Look& look(int cell, int patch) const { return looks[static_cast<std::size_t>(cell) * patches + patch]; }

  /// All of the cell is of one colour: an empty place, or a block of one print.
  bool shows_one_thing(int cell) const;
};

/// The wall laid flat and each patch measured in place. `corners` are those of the grid's box in the photograph.
Evidence gathered(const quilt::Quilt& quilt, const photo::Picture& photograph, const Grid& grid,
                  const photo::Corners& corners);

/// How every print measures in pieces as large as each patch.
class Book {
 public:
  /// `swatches` by print; an empty picture where there is none. Patches nearly alike in size share their measure.
  Book(const quilt::Quilt& quilt, const std::vector<photo::Picture>& swatches, const Evidence& evidence);

  int prints() const { return static_cast<int>(looks_.front().size()); }
  /// By patch of all forms, as in Evidence.
  const PrintLook& of(int patch, int print) const { return looks_[size_of_patch_[patch]][print]; }
  Look mean(const std::vector<double>& share) const;  ///< of all prints, each as often as its share

 private:
  std::vector<int> size_of_patch_;
  std::vector<std::vector<PrintLook>> looks_;  ///< by size, by print
};

/// How light, camera and cloth make a look of a print's own: the colours mixed a little and shifted by a smooth field
/// over the wall; the textures scaled.
class Light {
 public:
  /// No light known: prints as they are, shifted so that their mean is that of what is seen.
  Light(const Evidence& evidence, const Look& mean_of_prints);

  /// One patch taken to be of a print.
  struct Sample {
    int cell = 0, patch = 0, print = 0;
  };

  /// Fits everything to the samples, anew, so that outliers do not count: the light's field of degree `degree`, then
  /// what is left around each cell by its neighbours' patches.
  void fit(const Evidence& evidence, const Book& book, const std::vector<Sample>& samples, int degree);

  /// Minus the logarithm of how likely a print would show what a cell's patch shows, but for a constant; what is beyond
  /// kCap counts a tenth.
  double misfit(const Evidence& evidence, int cell, int patch, const PrintLook& print) const;

  static constexpr double kCap = 30;

  /// What a patch costs for the light's being uncertain: readings under different lights are compared with it.
  double uncertainty() const;

 private:
  Look expected(const Evidence& evidence, int cell, const PrintLook& print) const;
  std::vector<double> field(double x, double y) const;
  std::vector<double> fit_colour(int colour, const std::vector<std::vector<double>>& rows,
                                 const std::vector<double>& seen);
  void fit_left(const Evidence& evidence, const std::vector<Sample>& samples,
                const std::array<std::vector<double>, kColours>& residuals);
  void fit_scale(const Evidence& evidence, const Book& book, const std::vector<Sample>& samples, int look);
  void fit_noise(const Evidence& evidence, const Book& book, const std::vector<Sample>& samples, int look);

  int degree_ = 0;
  std::array<std::vector<double>, kColours> weights_;  ///< of the three colours, then of the field's terms
  std::array<double, kLooks> scale_{};                 ///< of the textures
  Look noise_{};                                       ///< variance beyond that of crops
  std::vector<std::array<double, kColours>> left_;     ///< by cell: of the light, beyond the field
};

}  // namespace farflung::wall
