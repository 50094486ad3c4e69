// What in a photograph tells its true colours and sizes, and what it says.
#pragma once

#include <optional>
#include <string>
#include <vector>

#include "photo/balance.hpp"
#include "photo/find.hpp"
#include "photo/picture.hpp"
#include "photo/reference_sheet.hpp"

namespace farflung::photo {

/// What one picture tells of its own light and scale; places in pixels of that picture.
struct Reference {
  std::string kind = "none";        ///< "sheet", "chart", "surface" or "none"
  std::optional<Balance> balance;   ///< none where nothing tells the light
  std::optional<SheetSeen> sheet;   ///< where the sheet is seen: inches
  bool grey_together = false;       ///< whether all its cloths together were thought to be nearly grey
  std::optional<Corners> taken_up;  ///< where sheet or chart lies: there is no cloth of the user's
};

/// Looks for a colour chart, then for the reference sheet: a chart says more of colour, the sheet of inches, and both
/// may be there.
Reference find_reference(const Picture& picture);

/// Takes one of the pieces found for the sheet, where its marks could not be read but it looks like the sheet.
void look_for_sheet(Reference& reference, const Picture& picture, const Findings& findings);

/// Adds what a plain surface tells: how the light falls, and, where nothing better is there, what has no colour: a pale
/// surface is nearly white, any other is grey or brown, and a camera has taken out most of a lamp's colour. Where many
/// cloths lie together, the palest of all of them is thought to be nearly white too: it says how bright the light was,
/// with a pale surface or without one; and all of them together nearly grey, unless they are far from it. Without one
/// the kind stays "none". `white` is a place that the user says is white, in pixels of `picture`; `table` the surface's
/// true colour, where another photograph of the sitting told it.
void add_surface(Reference& reference, const Picture& picture, const std::optional<SurfaceSeen>& surface,
                 const std::optional<std::array<double, 2>>& white, const std::optional<colour::Lab>& table = {},
                 const std::vector<Found>& cloths = {});

/// The true colour of the surface, where a sheet or chart tells it.
std::optional<colour::Lab> table_colour(const Reference& reference, const std::optional<SurfaceSeen>& surface);

}  // namespace farflung::photo
