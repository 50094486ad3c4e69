// Layouts of a quilt kept by name, to compare and to go back to.
#pragma once

#include "job/edit.hpp"

namespace farflung::job {

/// Keeps the layout as it lies, with the make-up of its blocks, in layouts/NAME.json within the quilt's folder: a file
/// that `swaps --to` takes. Undo and redo do not touch it. One of that name is replaced.
Outcome keep_layout(const std::string& folder, const std::string& name);

/// {"layouts": [{"name": ..., "touch": n, "corner": n, "F": x}]}, by name; one that fits the quilt no more has
/// "problems".
Outcome kept_layouts(const std::string& folder, Reckoning& reckoning);

/// A name under which none is kept is a problem. Undo does not bring it back.
Outcome forget_layout(const std::string& folder, const std::string& name);

}  // namespace farflung::job
