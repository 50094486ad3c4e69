// Sides that do not fit the size that a picture's cloths share. Internal to photo.
#pragma once

#include <vector>

#include "photo/companions.hpp"
#include "photo/plane.hpp"

namespace farflung::photo {

/// Lays a rectangle of the common size over each piece by the sides that most nearly fit one. A side that strays from
/// it by more than the sizes of the pieces themselves vary is looked for again where the rectangle has it, and where
/// nothing is seen there the rectangle's own side is taken.
std::vector<Piece> squared_up(const std::vector<Piece>& pieces, const Plane& plane, const Lit& lit);

/// No longer sure where a side leans, on a table seen through that homography, more than any is cut.
Piece doubted_if_leaning(const Piece& piece, const cv::Matx33d& table_from_photo);

/// So many that hardly vary in size were folded alike.
constexpr std::size_t kMany = 8;

/// Whether these are `many` and hardly vary in size, as cloths do not that were folded alike.
bool of_one_size(const std::vector<Piece>& pieces, const Plane& plane, std::size_t many = kMany);

}  // namespace farflung::photo
