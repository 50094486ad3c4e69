// Pictures that a camera did not take: of a screen's contents, or drawn.
#pragma once

#include "photo/picture.hpp"

namespace farflung::job {

/// Whether a large part of the picture is one exact colour, which no lens and no sensor gives. White and black do not
/// count: light that is too much or too little for a camera is one exact colour too, and so is the ground on which a
/// shop shows its cloth.
bool made_by_screen(const photo::Picture& picture);

}  // namespace farflung::job
